"""The program is killed at every entry of a story, and at moments that nobody chose."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest

from assistant.book.book import Book
from tests.campaigns.killing import ROOT, goes_on_after
from tests.script.test_answers import STORY


@pytest.mark.parametrize("lines", range(1, len(STORY)))
def test_killed_after_each_line_the_next_start_goes_on(lines: int, tmp_path: Path) -> None:
    goes_on_after(lines, tmp_path)


@pytest.mark.parametrize("seed", range(40))
def test_killed_at_any_moment_the_book_is_whole_and_holds_a_beginning(
    seed: int, tmp_path: Path
) -> None:
    path = tmp_path / "book.db"
    command = [sys.executable, "-m", "assistant", "calibrate", "--book", str(path)]
    with subprocess.Popen(
        command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.DEVNULL
    ) as talk:
        assert talk.stdin
        talk.stdin.write("".join(f"{line}\n" for line in STORY).encode())
        talk.stdin.flush()
        time.sleep(random.Random(seed).uniform(0.1, 1.2))
        talk.kill()
    with closing(Book.open(path)) as book:
        for talk_left in book.unfinished(include_scripted=True):
            events = book.events(talk_left.id)
            assert [each.number for each in events] == list(range(1, len(events) + 1))
