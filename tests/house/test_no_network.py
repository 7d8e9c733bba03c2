"""Nothing leaves the machine, and nothing but the program itself is run."""

from __future__ import annotations

import ast
import socket
from pathlib import Path
from typing import NoReturn

import pytest

from assistant.cli import main
from tests.house.tree import ROOT

NETWORK = {"socket", "ssl", "http", "urllib", "ftplib", "smtplib", "poplib", "imaplib", "xmlrpc"}
NETWORK |= {"socketserver", "telnetlib", "requests", "httpx", "aiohttp", "asyncio", "webbrowser"}
OTHER_PROGRAMS = {"subprocess", "pty", "pydoc", "multiprocessing"}
RUNS = {"popen", "execv", "execvp", "execve", "spawnv", "spawnl", "posix_spawn"}
CALLS = ("connect", "connect_ex", "bind", "sendto", "listen")


def imported(path: Path) -> set[str]:
    """The packages that a module brings in, wherever it does."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = [n.module or "" for n in ast.walk(tree) if isinstance(n, ast.ImportFrom)]
    names += [a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names]
    return {name.partition(".")[0] for name in names}


def test_no_module_of_ours_speaks_to_a_network_or_runs_a_pager() -> None:
    for path in sorted((ROOT / "assistant").rglob("*.py")):
        assert imported(path) & (NETWORK | OTHER_PROGRAMS) == set(), path
        nodes = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        used = {node.attr for node in nodes if isinstance(node, ast.Attribute)}
        assert used & RUNS == set(), path


@pytest.fixture
def cut_off(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object, **__: object) -> NoReturn:
        raise AssertionError(refused)

    class Cut(socket.socket):
        """A socket that reaches nothing."""

    for name in CALLS:
        setattr(Cut, name, refused)
    monkeypatch.setattr(socket, "socket", Cut)
    for name in ("create_connection", "getaddrinfo", "gethostbyname", "create_server"):
        monkeypatch.setattr(socket, name, refused)


@pytest.mark.usefixtures("cut_off")
def test_every_command_works_with_no_network(tmp_path: Path) -> None:
    answers = tmp_path / "answers.txt"
    answers.write_text("big red\n1\n24 at 7 1/2\n", encoding="utf-8")
    book = ("--book", str(tmp_path / "book.db"))
    for job in ("calibrate", "recheck", "resume"):
        assert main([job, "--answers", str(answers), *book]) in {0, 3, 4}
    lines = "list,where,verify,compare,backup,restore,mend,export,find red,show,card"
    for line in lines.split(","):
        assert main(["book", *line.split(), *book]) in {0, 2}, line
    assert main(["jobs"]) == 0
