"""A card is opened at its review from the first question, so that it can be put right."""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.dialogue.events import Typed
from assistant.sitting.sitting import open_sitting
from assistant.terminal.elsewhere import let_go
from tests.stories.play import calibrate, world
from tests.stories.story import FOLDER, read_story
from tests.terminal.pseudo import running

pytestmark = pytest.mark.terminal


@pytest.fixture
def book(tmp_path: Path) -> str:
    path = tmp_path / "book.db"
    lines = [line for _, line in read_story(FOLDER / "fluted_pounds.txt").moves]
    with Book.open(path) as opened:
        for springs, drill in enumerate(("big red", "small green")):
            sitting, _ = open_sitting(calibrate(), opened, world(springs))
            for line in (drill, *lines[1:]):
                sitting.hear(Typed(line))
            let_go(sitting)
            assert sitting.card
    return str(path)


def test_one_of_several_cards_is_mended_and_the_new_one_tells_how_to_mend_it(book: str) -> None:
    with running("--book", book) as menu:
        menu.ready("4 Mend a card")
        menu.type("4\r")
        text = menu.ready("Which card is to be mended?")
        assert "1 2027-04-14 small green" in text
        assert "2 2026-04-14 big red" in text
        menu.type("2\r")
        menu.ready("Enter shows more.")
        menu.type("change lot 77\r")
        menu.ready("Were they made like that too?")
        menu.type("1\r")
        menu.ready("Do it?")
        menu.type("bag misread\r")
        menu.ready("Changed.")
        menu.leaf_to("All right?")
        menu.type("\r")
        assert menu.ended() == 0
        assert "Something wrong on it? Mend it: drillside --book" in menu.text()
    with Book.open(Path(book)) as opened:
        newest, *_ = opened.cards()
        assert (newest.drill, newest.lot) == ("big red", "77")
