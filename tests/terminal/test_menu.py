"""The first question when no job was named."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from assistant.book.nobook import NoBook
from assistant.terminal.left import Left, free, lefts
from assistant.terminal.loop import converse
from assistant.terminal.menu import MORE_LINES, Wish, first_wish, which_left
from assistant.terminal.screen import Screen
from tests.stories.play import job_named, library, play
from tests.stories.story import FOLDER, read_story
from tests.terminal.small import TypedLines, job, opened, screen

NOW = datetime(2026, 4, 14, 9, 30, tzinfo=UTC)
Out = pytest.CaptureFixture[str]


def asked(*lines: str, left: Left | None = None, cards: bool = False) -> Wish:
    return first_wish(screen(), TypedLines(lines), (left,) if left else (), NOW, cards=cards)


def left_in(book: NoBook) -> list[Left]:
    return lefts(book, lambda _: job(), book.unfinished())


@pytest.fixture
def left() -> Left:
    book = NoBook()
    sitting, said = opened(book)
    converse(sitting, said, screen(), TypedLines(["barn", "6", "pause"]))
    (found,) = left_in(book)
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


def test_a_card_is_mended_only_where_there_is_one(capsys: Out) -> None:
    assert asked("1", cards=True) == asked("mend", cards=True) == Wish("mend")
    assert "1 Mend a card" in capsys.readouterr().out
    asked("1")
    assert "Mend a card" not in capsys.readouterr().out


def test_what_was_left_comes_first_with_what_was_settled_last_and_how_long_ago(
    left: Left, capsys: Out
) -> None:
    capsys.readouterr()
    assert asked("", left=left) == Wish("resume", left.talk.id)
    out = " ".join(capsys.readouterr().out.split())
    assert (
        "1 Go on: Sweep the shed. Last: Tubs, 6. Left 2 hours ago. 2 Sweep the shed 3 More" in out
    )


@pytest.mark.parametrize("typed", ["0", "9", "-1", "dog"])
def test_what_is_not_on_the_list_is_asked_again(typed: str, capsys: Out) -> None:
    assert asked(typed, "1") == Wish("job", "sweep")
    out = capsys.readouterr().out
    assert f"I read '{typed}'." in out
    assert out.count("What shall we do?") == 2


@pytest.mark.parametrize("typed", ["help", "?", "why", "what is this", "what now?"])
def test_help_explains_the_list_in_six_lines_and_stays(typed: str, capsys: Out) -> None:
    assert asked(typed, "1") == Wish("job", "sweep")
    about = screen().word("menu.about")
    out = capsys.readouterr().out
    assert about in out
    assert (about.count("\n"), max(map(len, about.split("\n")))) == (5, 39)
    assert out.count("What shall we do?") == 2
    assert "I read" not in out


def test_back_leads_from_the_second_list_to_the_first(capsys: Out) -> None:
    assert asked("more", "back", "1") == Wish("job", "sweep")
    assert capsys.readouterr().out.count("What shall we do?") == 2


@pytest.mark.parametrize(
    ("typed", "wish"),
    [
        *(
            (f"{start}set {my}drill{end}", Wish("job", "calibrate"))
            for start in ("", "i need to ")
            for my in ("", "my ", "the ")
            for end in ("", " for wheat", "!")
        ),
        ("calibrate the drill", Wish("job", "calibrate")),
        ("Set up my drill", Wish("job", "calibrate")),
        ("i have a new lot", Wish("job", "recheck")),
        ("set my drill for a new seed lot", Wish("job", "recheck")),
        ("i want to change a card", Wish("mend")),
    ],
)
def test_what_is_said_in_other_words_is_understood(typed: str, wish: Wish) -> None:
    whole = Screen(library())
    assert first_wish(whole, TypedLines([typed]), (), NOW, cards=True) == wish


@pytest.mark.parametrize("typed", ["drill", "wheat", "set", "continue", "new lot or fix a card"])
def test_what_says_nothing_or_two_things_is_asked_again(typed: str, capsys: Out) -> None:
    whole = Screen(library())
    assert first_wish(whole, TypedLines([typed, "1"]), (), NOW, cards=True) == Wish(
        "job", "calibrate"
    )
    assert f"I read '{typed}'. Type a number from the list." in capsys.readouterr().out


def test_pause_leaves() -> None:
    with pytest.raises(EOFError):
        asked("quit")


def test_a_book_without_anything_left_offers_nothing_to_go_on_with() -> None:
    assert left_in(NoBook()) == []


def test_several_that_were_left_are_numbered(left: Left, capsys: Out) -> None:
    capsys.readouterr()
    other = replace(left, talk=replace(left.talk, id="other"), drill="red one", last="")
    wish = which_left(screen(), TypedLines(["2"]), (left, other), NOW)
    assert wish == Wish("resume", "other")
    out = " ".join(capsys.readouterr().out.split())
    assert "1 Sweep the shed. Last: Tubs, 6. Left 2 hours ago." in out
    assert "2 Sweep the shed, red one. Left 2 hours ago." in out


def test_what_another_program_has_open_is_not_free() -> None:
    book = NoBook()
    sitting, said = opened(book)
    converse(sitting, said, screen(), TypedLines(["barn", "pause"]))
    book.take_over(sitting.id, "another machine 7", "2026-04-14T09:00:00+00:00")
    (held,) = left_in(book)
    assert held.holder is not None
    assert held.holder.who == "another machine 7"
    assert free([held], 5) == ()


def test_a_recheck_that_was_left_names_the_drill_of_its_card() -> None:
    story = read_story(FOLDER / "recheck_plants.txt")
    told = play(replace(story, moves=story.moves[:2]))
    (found,) = lefts(told.book, job_named, told.book.unfinished())
    assert (found.drill, found.last) == ("the hill drill", "Last: Germination, 92 %.")


def test_what_a_card_lent_is_not_what_was_done_last() -> None:
    story = read_story(FOLDER / "recheck_plants.txt")
    told = play(replace(story, moves=story.moves[:1]))
    (found,) = lefts(told.book, job_named, told.book.unfinished())
    assert (found.drill, found.last) == ("the hill drill", "")
