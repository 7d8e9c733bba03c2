"""A list line by line where it is taught: more prompts for a person, the same record."""

from __future__ import annotations

import pytest

from assistant.book.nobook import NoBook
from assistant.dialogue.messages import Ask, Message, Say, Todo, Trouble
from assistant.sitting.saying import SHORT, TEACH
from assistant.sitting.sitting import open_sitting
from assistant.terminal.line_by_line import LineByLine, lines_of
from assistant.terminal.loop import converse
from assistant.terminal.screen import Screen
from tests.stories.play import calibrate, library, played, world
from tests.stories.story import FOLDER, read_story
from tests.terminal.small import TypedLines

LIST = Todo("Get ready:\n1 Box empty.\n2 Raise it.\nBox still level?\n3 Tarp down.", "Done?")
STEPS = ["Get ready:\n1 Box empty.", "2 Raise it.\nBox still level?", "3 Tarp down."]
STORY = read_story(FOLDER / "fluted_plants.txt")
READY, BACK = 7, 6
"""The lines of the two lists in that story."""

Out = pytest.CaptureFixture[str]


def test_a_list_comes_apart_into_its_lines_the_head_with_the_first() -> None:
    assert lines_of(LIST) == STEPS
    assert lines_of(Todo("1 One.\n2 Two.")) == ["1 One.", "2 Two."]
    assert lines_of(Todo("Sweep the floor.\nAll of it.")) == ["Sweep the floor.\nAll of it."]


def test_the_last_done_is_the_one_that_the_conversation_hears() -> None:
    lists = LineByLine()
    seen = [lists.cut((Say("OK."), LIST), teach=True)[-1]]
    while lists.goes_on("ok"):
        seen += lists.due()
    assert [each.text for each in seen if isinstance(each, Todo)] == STEPS
    assert lists.done == 2


@pytest.mark.parametrize("typed", ["", "why", "no", "more", "back", "2"])
def test_only_done_or_a_yes_goes_on_to_the_next_line(typed: str) -> None:
    lists = LineByLine()
    lists.cut((LIST,), teach=True)
    assert not lists.goes_on(typed)


def test_after_a_word_or_trouble_the_same_line_waits_still() -> None:
    lists = LineByLine()
    lists.cut((LIST,), teach=True)
    assert lists.goes_on("done")
    assert lists.cut((Trouble("not_done", "I read 'x'."),), teach=True) == (
        Trouble("not_done", "I read 'x'."),
    )
    again = lists.cut((Say("Because."), LIST), teach=True)
    assert again == (Say("Because."), Todo(STEPS[1], "Done?"))


@pytest.mark.parametrize("after", [(Ask("How many?", ("turns",)),), (Todo("Sweep."),), ()])
def test_a_yes_elsewhere_is_never_taken_for_a_line_of_the_list(after: tuple[Message, ...]) -> None:
    lists = LineByLine()
    lists.cut((LIST,), teach=True)
    lists.cut(after, teach=True)
    assert not lists.goes_on("done")


def test_the_list_stays_whole_where_nothing_is_taught() -> None:
    lists = LineByLine()
    assert lists.cut((LIST,), teach=False) == (LIST,)
    assert not lists.goes_on("done")


def typed(level: str) -> tuple[list[object], TypedLines]:
    """What is kept of the story typed at the keyboard, at a level; each list line gets its ok."""
    lines: list[str] = []
    lists = iter([READY, BACK])
    for _, line in STORY.moves:
        more = next(lists) - 1 if line == "done" and level == TEACH else 0
        lines += [*["ok"] * more, line]
    book = NoBook()
    sitting, said = open_sitting(calibrate(), book, world())
    said = sitting.saying.begun(level, said)
    keys = TypedLines(lines)
    assert converse(sitting, said, Screen(library()), keys, keeps=False) == 0
    return [(event.kind, event.body) for event in book.events(sitting.id)], keys


def test_a_person_who_is_taught_leaves_the_same_record_as_a_script(
    capsys: Out, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LINES", "99")  # the review on one page
    told = played(STORY)
    kept = [(event.kind, event.body) for event in told.book.events(told.sitting.id)]
    taught, keys = typed(TEACH)
    assert taught == kept
    assert len(keys.offered) == STORY.prompts + READY - 1 + BACK - 1
    out = capsys.readouterr().out
    assert "\nGet ready:\n1 Box empty and clean. Lever at zero.\nType done when it is.\n" in out
    short, keys = typed(SHORT)
    assert short == kept
    assert len(keys.offered) == STORY.prompts
