"""The first question when no job was named."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from assistant.book.nobook import NoBook
from assistant.terminal.loop import converse
from assistant.terminal.menu import MORE_LINES, Left, Wish, first_wish, last_left
from tests.terminal.small import TypedLines, opened, screen

NOW = datetime(2026, 4, 14, 9, 30, tzinfo=UTC)
Out = pytest.CaptureFixture[str]


def asked(*lines: str, left: Left | None = None) -> Wish:
    return first_wish(screen(), TypedLines(lines), left, NOW)


@pytest.fixture
def left() -> Left:
    book = NoBook()
    sitting, said = opened(book)
    converse(sitting, said, screen(), TypedLines(["barn", "6", "pause"]))
    found = last_left(book)
    assert found is not None
    return found


@pytest.mark.parametrize("typed", ["", "1", "1.", "sweep", "Sweep"])
def test_a_job_is_chosen_by_enter_number_or_name(typed: str) -> None:
    assert asked(typed) == Wish("job", "sweep")


@pytest.mark.parametrize(
    ("typed", "wish"),
    [
        *((str(number), name) for number, name in enumerate(MORE_LINES, 1)),
        ("where", "where"),
    ],
)
def test_more_leads_to_a_second_list(typed: str, wish: str) -> None:
    assert asked("2", typed) == Wish(wish)


def test_what_was_left_comes_first_with_its_name_and_how_long_ago(left: Left, capsys: Out) -> None:
    capsys.readouterr()
    assert asked("", left=left) == Wish("resume", left.talk.id)
    assert "1 Go on: Sweep the shed, barn, left 2 hours ago\n2 Sweep the shed\n3 More\n" in (
        capsys.readouterr().out
    )


@pytest.mark.parametrize("typed", ["0", "9", "-1", "dog"])
def test_what_is_not_on_the_list_is_asked_again(typed: str, capsys: Out) -> None:
    assert asked(typed, "1") == Wish("job", "sweep")
    out = capsys.readouterr().out
    assert f"I read '{typed}'." in out
    assert out.count("What shall we do?") == 2


def test_help_works_here_too() -> None:
    assert asked("?") == Wish("help")


def test_pause_leaves() -> None:
    with pytest.raises(EOFError):
        asked("quit")


def test_a_book_without_anything_left_offers_nothing_to_go_on_with() -> None:
    assert last_left(NoBook()) is None
