"""The same conversation on every kind of terminal, and in every set of signs."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from assistant.book.book import Book
from tests.terminal.pseudo import ROOT, running

FIRST, SECOND, THIRD = "What do you call this drill?", "How does seed leave", "How many rows"
TYPED = ["big red", "flut", "24 at 7 1/2", "1", "wheat", "4471", "2", "80 lb", "what is tare"]
UNWANTED = (b"\x1b[6n", b"\x1b[?1049h", b"\x1b[?47h", b"\x1b]", b"\x1b[?1000h", b"\x1bP")
HIDE, SHOW = b"\x1b[?25l", b"\x1b[?25h"


def answers(book: Path) -> list[tuple[str, str]]:
    """What was settled in the one conversation of a book."""
    with Book.open(book) as opened:
        (left,) = opened.unfinished(include_scripted=True)
        bodies = [event.body for event in opened.events(left.id) if event.kind == "answered"]
    return re.findall(r"'fact': '(\w+)'.*?'settled': '([^']*)'", str(bodies))


@pytest.mark.terminal
@pytest.mark.parametrize(
    ("name", "plain"),
    [
        ("dumb", True),
        ("", True),
        ("vt100", False),
        ("linux", False),
        ("screen-256color", False),
        ("tmux-256color", False),
        ("xterm-256color", False),
    ],
)
def test_a_talk_goes_the_same_way_and_leaves_the_terminal_as_it_was(
    name: str, plain: bool, tmp_path: Path
) -> None:
    book = tmp_path / "book.db"
    with running("calibrate", "--book", str(book), environ={"TERM": name}) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        terminal.type("flut\r")
        terminal.ready(THIRD)
        terminal.type("pause\r")
        assert terminal.ended() == 0
        written = terminal.written
    assert not [each for each in UNWANTED if each in written]
    assert (b"\x1b" not in written) is plain
    assert written.rfind(HIDE) <= written.rfind(SHOW)
    assert [value for _, value in answers(book)] == ["big red", "fluted"]


@pytest.mark.terminal
def test_accessible_means_plain(tmp_path: Path) -> None:
    book = str(tmp_path / "book.db")
    with running("calibrate", "--book", book, environ={"ACCESSIBLE": "1"}) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready("1 Fluted roller that slides")
        terminal.type("\x03")
        assert terminal.ended() == 130
        assert b"\x1b" not in terminal.written
        assert b"Saved." in terminal.written


@pytest.mark.terminal
def test_a_bracketed_and_a_bare_paste_wait_for_one_yes(tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    with running("calibrate", "--book", str(book), size=(30, 72)) as terminal:
        terminal.ready(FIRST)
        terminal.type("\x1b[200~big red\rfluted\x1b[201~\r")
        terminal.ready("Use them, one after the other?")
        terminal.type("yes\r")
        terminal.ready(THIRD)
        terminal.type("24 at 7 1/2\r1\rwheat\r")
        terminal.ready("Use them, one after the other?")
        terminal.type("no\r")
        terminal.ready("Nothing was used.")
        terminal.type("\x04")
        assert terminal.ended() == 0
    assert [value for _, value in answers(book)] == ["big red", "fluted"]


@pytest.mark.terminal
def test_a_bare_paste_waits_in_plain_mode_too(tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    with running("calibrate", "--plain", "--book", str(book), size=(30, 72)) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\rfluted\r")
        terminal.ready("Use them, one after the other?")
        terminal.type("yes\r")
        terminal.ready(THIRD)
        terminal.type("\x04")
        assert terminal.ended() == 0
    assert [value for _, value in answers(book)] == ["big red", "fluted"]


@pytest.mark.terminal
def test_half_a_line_outlives_many_sizes_and_stands_there_once(tmp_path: Path) -> None:
    with running("calibrate", "--book", str(tmp_path / "b.db"), size=(24, 80)) as terminal:
        terminal.ready(FIRST)
        terminal.type("big r")
        terminal.wait("> big r")
        for columns in (200, 40, 80):
            terminal.written = b""
            terminal.resize(24, columns)
            terminal.type("e\x7f")
            terminal.wait("> big r")
            assert terminal.text().count(FIRST) <= 1
        terminal.type("ed\r")
        terminal.ready(SECOND)
        assert terminal.text().count("> big red") == 1


ENCODINGS = [
    {"PYTHONIOENCODING": name, "PYTHONUTF8": "0"} for name in ("ascii", "cp437", "cp1252", "utf-8")
]


@pytest.mark.parametrize("environ", [*ENCODINGS, {"LC_ALL": "C", "PYTHONUTF8": "0"}], ids=str)
def test_every_set_of_signs_ends_with_the_same_record(
    environ: dict[str, str], tmp_path: Path
) -> None:
    book = tmp_path / "book.db"
    ran = subprocess.run(
        [sys.executable, "-m", "assistant", "calibrate", "--book", str(book)],
        cwd=ROOT,
        input="\n".join(TYPED).encode("ascii"),
        capture_output=True,
        check=False,
        env={**os.environ, **environ, "HOME": str(tmp_path)},
    )
    assert ran.returncode == 3, ran.stderr
    assert b"Traceback" not in ran.stderr
    assert SECOND in ran.stdout.decode(environ.get("PYTHONIOENCODING", "ascii"))
    settled = " | ".join(value for _, value in answers(book))
    assert settled == "big red | fluted | 24 | 7.5 in | one | wheat | 4471 | no | 80 lb/ac"
