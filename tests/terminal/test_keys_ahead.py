"""Keys pressed before a question stood there neither take an odd value nor erase anything.

That they pass no stop caution is held in test_real_terminal.py. Whole lines that come with a line
are a paste, and asked about (test_prompting.py); what can slip through is half a line.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.book.book import Book
from tests.book.samples import a_card, a_talk
from tests.terminal.pseudo import running

pytestmark = [
    pytest.mark.terminal,
    pytest.mark.parametrize("options", [[], ["--plain"]], ids=["prompt", "plain"]),
]


def test_an_odd_value_is_not_kept_by_a_key_typed_early(options: list[str], tmp_path: Path) -> None:
    with running("calibrate", "--book", str(tmp_path / "book.db"), *options) as terminal:
        for then, keys in (
            ("What do you call this drill?", "big red\r"),
            ("How does seed leave", "1\r"),
            ("How many rows", "24 at 50\r1"),
        ):
            terminal.ready(then)
            terminal.type(keys)
        terminal.ready("1 Keep 50 in")
        terminal.type("\r")
        terminal.ready("Type its number, or say it with its unit.")
        terminal.type("2\r")
        terminal.ready("1 Every row")


def test_nothing_is_erased_by_a_word_typed_early(options: list[str], tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    with Book.open(book) as opened:
        talk = a_talk()
        opened.start(talk)
        opened.finish(a_card(talk))
    with running("book", "erase", talk.id, "--book", str(book), *options) as terminal:
        terminal.type("erase\r")
        terminal.ready("To do it, type: erase")
        terminal.type("no\r")
        terminal.ended()
        assert "Erased." not in terminal.text()
    with Book.open(book) as opened:
        assert len(opened.cards()) == 1
