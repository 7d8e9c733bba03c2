"""A story told to the program through a pipe, and the program killed in the middle of it."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from functools import cache
from pathlib import Path
from typing import Any

from assistant.cli import main
from tests.script.running import run
from tests.script.test_answers import STORY

ROOT = Path(__file__).parents[2]
PASSED = ("jack", "manual", "chocks", "done", "ok", "")
"""Lines that only pass a caution, a list or the review: a new sitting asks for them again."""


@cache
def heard_after(lines: int) -> bytes:
    """All that the program says to the first lines of the story, its first question included."""
    ran = run(lines=STORY[:lines], as_json=False)
    return ran.out.encode()


@cache
def known_after(lines: int) -> dict[str, Any]:
    """What is known after the first lines of the story."""
    return dict(run(lines=STORY[:lines]).facts)


def killed_after(lines: int, book: Path) -> None:
    """Tell the first lines of the story; kill the program when it has asked the next question."""
    command = [sys.executable, "-m", "assistant", "calibrate", "--book", str(book)]
    with subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as talk:
        assert talk.stdin
        assert talk.stdout
        for line in STORY[:lines]:
            talk.stdin.write(f"{line}\n".encode())
            talk.stdin.flush()
        wanted = heard_after(lines)
        heard = b""
        while len(heard) < len(wanted):
            piece = os.read(talk.stdout.fileno(), 65_536)
            assert piece, heard.decode()
            heard += piece
        talk.kill()
    assert heard == wanted


def resumed(book: Path, *more: str) -> tuple[int, str]:
    """The exit code and the words of a new start that goes on with what was left last."""
    out = io.StringIO()
    with redirect_stdout(out), redirect_stderr(io.StringIO()) as err, piped(""):
        code = main(["resume", "--book", str(book), *more])
    assert "Traceback" not in err.getvalue()
    return code, out.getvalue()


@contextmanager
def piped(text: str) -> Iterator[None]:
    """While it lasts, this text is what is typed."""
    before, sys.stdin = sys.stdin, io.StringIO(text)
    try:
        yield
    finally:
        sys.stdin = before


def goes_on_after(lines: int, folder: Path) -> None:
    """Assert that the next start names the job, knows all that was told, and comes to its end."""
    book, facts, answers = folder / "book.db", folder / "read.toml", folder / "rest.txt"
    killed_after(lines, book)
    _, words = resumed(book)
    hello = f"Going on with: Set a drill for its seed, {STORY[0]}."
    assert " ".join(words.split()).startswith(hello)
    _, object_ = resumed(book, "--json")
    assert json.loads(object_)["facts"] == known_after(lines)
    rest = [line for line in STORY[lines:] if line not in PASSED]
    facts.write_text("cautions_read = true\n", encoding="utf-8")
    answers.write_text("".join(f"{line}\n" for line in rest), encoding="utf-8")
    code, object_ = resumed(book, "--json", "--facts", str(facts), "--answers", str(answers))
    assert (code, json.loads(object_)["outcome"]) == (0, "proven")
    assert json.loads(object_)["facts"] == known_after(len(STORY))
