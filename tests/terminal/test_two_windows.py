"""One book, two windows: a job is held by one of them, and nothing is overwritten."""

from __future__ import annotations

import signal
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.holding import machine
from assistant.book.verifying import verify
from tests.terminal.pseudo import SOON, running
from tests.terminal.test_real_terminal import FIRST, SECOND, THIRD, WHOLE

pytestmark = pytest.mark.terminal


@pytest.fixture
def book(tmp_path: Path) -> str:
    return str(tmp_path / "book.db")


def answers(book: str) -> int:
    """How many answers of the one conversation are in the book, all of them as written."""
    with Book.open(Path(book)) as opened:
        (left,) = opened.unfinished()
        assert verify(opened) == []
        return [event.kind for event in opened.events(left.id)].count("answered")


def test_the_second_window_says_who_has_the_job_and_offers_three_ways(book: str) -> None:
    with running("calibrate", "--book", book) as first:
        first.ready(FIRST)
        first.type("big red\r")
        first.ready(SECOND)
        with running("resume", "--book", book) as second:
            text = second.ready("3 Go on with it here")
            assert f"(process {first.child.pid})" in text
            assert "This job is open in another window since" in text
            second.type("1\r")
            assert second.ended() == 0
            assert "No card here yet." in second.text()
        with running("resume", "--book", book) as second:
            second.ready("3 Go on with it here")
            second.type("2\r")
            second.ready("What shall we do? 1 Set a drill for its seed")
            second.type("1\r")
            second.ready(FIRST)
            second.type("small green\r")
            second.ready(SECOND)
        first.type("1\r")
        first.ready(THIRD)  # it went on undisturbed


def test_of_several_the_one_that_is_held_is_named_and_not_offered(book: str) -> None:
    for name in ("small green", "old grey"):
        with running("calibrate", "--book", book) as earlier:
            earlier.ready(FIRST)
            earlier.type(f"{name}\r")
            earlier.ready(SECOND)
            earlier.type("pause\r")
            earlier.ended()
    with running("calibrate", "--book", book) as first:
        first.ready(FIRST)
        first.type("big red\r")
        first.ready(SECOND)
        with running("resume", "--book", book) as second:
            text = second.ready("Several were left. Which one?")
            assert "big red. This job is open in another window since" in text
            _, _, offered = text.partition("Which one?")
            assert "1 Set a drill for its seed, old grey. Last: Drill, old grey." in offered
            assert "2 Set a drill for its seed, small green." in offered
            assert "big red" not in offered
            second.type("2\r")
            text = second.ready(SECOND)
            assert "Going on with: Set a drill for its seed, small green." in text


def test_the_job_can_be_taken_over_and_the_one_that_lost_it_overwrites_nothing(book: str) -> None:
    with running("calibrate", "--book", book) as first:
        first.ready(FIRST)
        first.type("big red\r")
        first.ready(SECOND)
        with running("resume", "--book", book) as second:
            second.ready("3 Go on with it here")
            second.type("3\r")
            second.ready(SECOND)
            first.type("1\r")
            assert first.ended() == 1
            assert "Another window went on with this job." in first.text()
            second.type("1\r")
            second.ready(THIRD)
            second.type("\x04")
            assert second.ended() == 0
    assert answers(book) == 2


def test_a_job_whose_window_died_is_taken_without_a_question(book: str) -> None:
    with running("calibrate", "--book", book) as first:
        first.ready(FIRST)
        first.type("big red\r")
        first.ready(SECOND)
        first.child.kill(signal.SIGKILL)
        first.ended(SOON)
    with running("resume", "--book", book) as second:
        second.ready(SECOND)
        assert "another window" not in second.text()


@pytest.mark.parametrize("leave", ["pause\r", "\x04", "\x03"], ids=["pause", "ctrl-d", "ctrl-c"])
def test_a_job_that_was_left_is_held_by_nobody(leave: str, book: str) -> None:
    with running("calibrate", "--book", book) as first:
        first.ready(FIRST)
        first.type("big red\r")
        first.ready(SECOND)
        first.type(leave)
        first.ended()
    with Book.open(Path(book)) as opened:
        (left,) = opened.unfinished()
        assert opened.hold(left.id, "somebody 1", "2031-04-02T05:30:00Z") is None


def test_a_script_is_told_and_takes_nothing(book: str, tmp_path: Path) -> None:
    with Book.open(Path(book)) as opened, running("calibrate", "--book", book) as first:
        first.ready(FIRST)
        first.type("big red\r")
        first.ready(SECOND)
        lines = tmp_path / "lines.txt"
        lines.write_text("1\n", encoding="utf-8")
        with running("resume", "--book", book, "--answers", str(lines)) as second:
            assert second.ended() == 1
            assert f"(process {first.child.pid})" in second.text()
        (left,) = opened.unfinished()
        assert len(opened.events(left.id)) == 3
        assert opened.hold(left.id, "x 1", "2031-04-02T05:30:00Z") is not None


@pytest.mark.parametrize("how", ["deleted", "moved"])
def test_when_the_book_goes_under_a_running_job_it_goes_on_in_a_new_one(
    how: str, book: str
) -> None:
    path = Path(book)
    with running("calibrate", "--book", book) as window:
        window.ready(FIRST)
        window.type("big red\r")
        window.ready(SECOND)
        if how == "deleted":
            path.unlink()
        else:
            path.rename(path.with_name("moved.db"))
        window.type("1\r")
        window.ready(THIRD)
        assert "The book was moved or deleted. All your answers are in a new one now:" in (
            window.text()
        )
        window.type("24 at 7 1/2\r")
        window.ready("Turn one drive wheel by hand.")
        assert "moved or deleted" not in "\n".join(window.lines()[-6:])
        window.type("\x04")
        assert window.ended() == 0
    assert answers(book) == 3


def test_when_an_older_copy_of_the_book_is_put_back_the_job_goes_on_in_it(book: str) -> None:
    path = Path(book)
    with running("calibrate", "--book", book) as window:
        window.ready(FIRST)
        window.type("big red\r")
        window.ready(SECOND)
        with Book.open(path) as opened:
            opened.store.execute("VACUUM INTO ?", (str(path.with_name("copy.db")),))
        window.type("1\r")
        window.ready(THIRD)
        path.with_name("copy.db").replace(path)
        for ending in ("-wal", "-shm"):
            path.with_name(path.name + ending).unlink(missing_ok=True)
        window.type("24 at 7 1/2\r")
        window.ready("Turn one drive wheel by hand.")
        window.type("\x04")
        assert window.ended() == 0
    assert answers(book) == 3


def test_a_correction_is_given_a_reason_which_the_card_keeps(book: str, tmp_path: Path) -> None:
    facts = tmp_path / "facts.toml"
    facts.write_text(WHOLE, encoding="utf-8")
    with running("calibrate", "--book", book, "--facts", str(facts), "--json") as window:
        assert window.ended() == 0
    with Book.open(Path(book)) as opened:
        (card,) = opened.cards(include_scripted=True)
    with running("resume", card.talk, "--book", book, size=(60, 72)) as window:
        window.ready("All right?")
        window.type("change lot B2\r")
        window.ready("Were they made like that too?")
        window.type("1\r")
        window.ready("or type why")
        window.type("the tag was wet\r")
        window.ready("All right?")
        window.type("\r")
        assert window.ended() == 0
        assert "the tag was wet" in window.text()
    with Book.open(Path(book)) as opened:
        newer, older = opened.cards(include_scripted=True)
        assert (newer.lot, older.lot) == ("B2", "4471")
        assert "the tag was wet" in " ".join(map(str, newer.lines))
    with running("book", "show", newer.talk, "--book", book) as window:
        assert window.ended() == 0
        assert "Why: the tag was wet" in " ".join(window.text().split())
        assert machine() not in str(newer.facts)
