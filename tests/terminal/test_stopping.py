"""A job that is stopped gives the terminal back, and on its return asks again."""

from __future__ import annotations

import os
import re
import signal
from pathlib import Path

import pytest

from tests.terminal.pseudo import Terminal, running

pytestmark = pytest.mark.terminal

FIRST, SECOND = "What do you call this drill?", "How does seed leave"
SHELL = ("-m", "tests.terminal.job_control")
AS_BEFORE = "stopped echo True lines True"


@pytest.fixture
def book(tmp_path: Path) -> str:
    return str(tmp_path / "book.db")


def process(terminal: Terminal) -> int:
    """The job that was stopped last."""
    return int(re.findall(r"job (\d+) stopped", terminal.text())[-1])


def test_ctrl_z_gives_the_terminal_back_and_keeps_the_typed_text(book: str) -> None:
    with running("calibrate", "--book", book, program=SHELL, size=(30, 80)) as terminal:
        terminal.ready(FIRST)
        terminal.type("big r")
        terminal.wait("> big r")
        terminal.type("\x1a")
        terminal.wait(AS_BEFORE)
        terminal.screen.reset()
        terminal.type("fg\r")
        terminal.wait("> big r")
        assert terminal.text().count(FIRST) == 1
        terminal.type("ed\r")
        terminal.ready(SECOND)
        terminal.type("\x04")
        assert terminal.ended() == 0


def test_stopped_from_outside_it_gives_the_terminal_back_too(book: str) -> None:
    with running("calibrate", "--book", book, program=SHELL, size=(30, 80)) as terminal:
        terminal.ready(FIRST)
        terminal.type("\x1a")
        terminal.wait(AS_BEFORE)
        job = process(terminal)
        terminal.screen.reset()
        terminal.type("fg\r")
        terminal.ready(FIRST)
        terminal.type("big r")
        terminal.wait("> big r")
        os.kill(job, signal.SIGTSTP)
        terminal.wait(AS_BEFORE)
        terminal.screen.reset()
        terminal.type("fg\r")
        terminal.wait("> big r")
        assert terminal.text().count(FIRST) == 1
        terminal.type("\x03")
        terminal.ready("Line cleared.")
        terminal.type("\x03")
        assert terminal.ended() == 130


def test_in_plain_mode_the_question_is_asked_again(book: str) -> None:
    with running("calibrate", "--plain", "--book", book, program=SHELL, size=(30, 80)) as terminal:
        terminal.ready(FIRST)
        terminal.type("\x1a")
        terminal.wait(AS_BEFORE)
        terminal.screen.reset()
        terminal.type("fg\r")
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        terminal.type("\x04")
        assert terminal.ended() == 0
