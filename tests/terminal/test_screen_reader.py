"""What a screen reader needs of plain mode: text that is only appended, and short turns."""

from __future__ import annotations

import pytest

from assistant.dialogue.messages import Ask, Review, Say, Todo, Warn
from assistant.sitting.saying import SHORT
from tests.stories.play import library, played
from tests.stories.story import Story, sampled
from tests.terminal.screen_reader import ALONE, NotAppendedError, Spoken, Turn, listened
from tests.terminal.test_plain_stories import STORIES

WITH_RESULTS = 90
"""Words at most of a question with results before it, said short."""
LONGER = Warn | Todo | Review
"""What has a length of its own: nothing of it may be cut."""
DOORS = Ask("Which door?", ("door",), choices=("Left", "Right"))


@pytest.mark.parametrize(
    "text", ["\x1b[1mSTOP\x1b[0m", "12\b3", "half\rwhole", "bell\a", "a\tb", "\x9b2J", "a\v"]
)
def test_what_only_a_screen_can_obey_does_not_come_through(text: str) -> None:
    with pytest.raises(NotAppendedError):
        Spoken().write(text)


def test_spaces_and_line_ends_are_collapsed() -> None:
    spoken = Spoken()
    spoken.writelines(["Date        Drill\r\n", "\n  2 Right\n"])
    assert spoken.since(0) == "Date Drill 2 Right"


@pytest.mark.parametrize(
    ("heard", "answerable"),
    [
        ("Six tubs. Which door? 1 Left 2 Right Type a number or a name. >", True),
        ("Which door? 1 Left 2 Right Type a number or a name.", False),
        ("Which door? Left Right Type a number or a name. >", False),
        ("1 Left 2 Right Which door? Type a number or a name. >", False),
        ("Which door? 1 Left 2 Right Type a number or a name. > Six tubs.", False),
        ("> Which door? 1 Left 2 Right", False),
    ],
)
def test_a_question_is_answerable_as_it_is_heard(heard: str, answerable: bool) -> None:
    assert library().words["ask.pick"] == "Type a number or a name."
    assert Turn("", (Say("Six tubs."), DOORS), heard).answerable is answerable


@pytest.mark.parametrize("story", sampled(STORIES, 36))
def test_said_short_a_turn_is_short_and_the_record_the_same(
    story: Story, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LINES", "99")  # the review on one page
    short = listened(story, SHORT)
    assert [turn.heard for turn in short.turns if not turn.answerable] == []
    assert short.sitting.state.log == played(story).sitting.state.log
    assert [turn.heard for turn in short.turns if turn.words > most(turn)] == []


def most(turn: Turn) -> float:
    """The words that a turn may have, said short; help that is asked for is as long as it is."""
    if turn.asks_alone:
        return ALONE
    long = turn.typed == "help" or any(isinstance(each, LONGER) for each in turn.shown)
    return float("inf") if long else WITH_RESULTS
