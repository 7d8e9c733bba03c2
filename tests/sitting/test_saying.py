"""How much is said changes nothing but what is said: every story at all three levels."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from assistant.dialogue.events import Typed
from assistant.dialogue.messages import Ask, Message, Say, Todo, Warn, Work
from assistant.sitting.saying import LEVELS, NORMAL, SHORT, TEACH, Saying
from tests.stories.play import Played, calibrate, job_named, library, play, played
from tests.stories.story import FOLDER, Story, read_story, stories

STORIES = [story for story in stories() if story.say == NORMAL]
BY_TURNS = [(story, (SHORT, TEACH)[at % 2]) for at, story in enumerate(STORIES)]
"""Each story at one other level, by turns."""
IN_A_RUN = [each for at, each in enumerate(BY_TURNS) if at % 8 < 2]
"""A quarter of them; the campaign tells the rest, and each story at the other level too."""
OTHERS = [
    *(each for at, each in enumerate(BY_TURNS) if at % 8 > 1),
    *((story, TEACH if level == SHORT else SHORT) for story, level in BY_TURNS),
]
Journal = list[tuple[str, Any]]


def by_name(each: Story | str) -> str:
    return each if isinstance(each, str) else each.name


@cache
def told(story: Story, level: str) -> Played:
    return played(story) if level == NORMAL else play(story, say=level)


def journal(played: Played) -> Journal:
    """All that the book keeps of a conversation."""
    return [(event.kind, event.body) for event in played.book.events(played.sitting.id)]


def messages(played: Played) -> list[Message]:
    return [message for _, said in played.exchanges for message in said]


def asked(played: Played) -> list[tuple[str, ...]]:
    """What each question took, in order."""
    return [
        (*m.facts, m.proposal, m.example, *m.choices)
        for m in messages(played)
        if isinstance(m, Ask)
    ]


def changes_nothing_but_what_is_said(story: Story, level: str) -> None:
    usual, other = told(story, NORMAL), told(story, level)
    assert journal(other) == journal(usual)
    assert other.sitting.state.log == usual.sitting.state.log
    assert other.sitting.card == usual.sitting.card
    assert asked(other) == asked(usual)

    cautions = [[m for m in messages(each) if isinstance(m, Warn)] for each in (usual, other)]
    assert cautions[0] == cautions[1]


@pytest.mark.parametrize(("story", "level"), IN_A_RUN, ids=by_name)
def test_the_record_the_questions_and_the_cautions_are_the_same(story: Story, level: str) -> None:
    changes_nothing_but_what_is_said(story, level)


@pytest.mark.campaign
@pytest.mark.parametrize(("story", "level"), OTHERS, ids=by_name)
def test_they_are_the_same_for_all_and_at_the_third_level_too(story: Story, level: str) -> None:
    changes_nothing_but_what_is_said(story, level)


@pytest.mark.parametrize("name", ["fluted_plants", "cup_probe", "recheck_plants", "two_readings"])
def test_the_words_can_be_typed_at_any_prompt_and_leave_no_trace(name: str) -> None:
    story = read_story(FOLDER / f"{name}.txt")
    usual = told(story, NORMAL)
    moves = tuple(
        move for at, each in enumerate(story.moves) for move in ((">", LEVELS[at % 3]), each)
    )
    restless = play(Story(**{**fields_of(story), "moves": moves}))
    assert journal(restless) == journal(usual)
    assert restless.sitting.card == usual.sitting.card


def fields_of(story: Story) -> dict[str, Any]:
    return {name: getattr(story, name) for name in story.__dataclass_fields__}


def test_a_word_puts_again_what_waits_even_half_asked() -> None:
    story = read_story(FOLDER / "two_readings.txt")
    sitting = play(Story(**{**fields_of(story), "moves": ()})).sitting
    for _, line in story.moves:
        before, said = sitting.state, sitting.hear(Typed("short"))
        assert sitting.state is before
        assert isinstance(said[0], Say)
        assert len(said) > 1
        sitting.hear(Typed(line))
    assert sitting.state.log == told(story, NORMAL).sitting.state.log


def test_short_asks_by_the_label_and_leaves_workings_out() -> None:
    saying = Saying(calibrate(), SHORT)
    question = Ask("How many rows, and how far apart?", ("row_count", "row_spacing"))
    said = saying.told((Work("rate", "worked", "80 x 2 = 160."), question))
    assert [m.text for m in said if isinstance(m, Ask)] == ["Rows that drop, Row spacing?"]
    assert len(said) == 1


def test_short_says_what_the_flow_has_for_it() -> None:
    saying = Saying(calibrate(), SHORT)
    long = (
        Work("rate", "worked", "80 x 2 = 160.", brief="160."),
        Say("It is a fine day.", brief="Fine."),
        Say("All that is known."),
        Todo("Get ready:\n1 All.", "Done?", brief="Get ready."),
        Ask("And what does the scale show?", ("catch",), brief="Scale?"),
    )
    texts = [getattr(m, "text", "") for m in saying.told(long)]
    assert texts == ["160.", "Fine.", "All that is known.", "Get ready.", "Scale?"]


def test_teach_says_why_and_how_once_before_the_question() -> None:
    saying = Saying(calibrate(), TEACH)
    question, fact = Ask("How many rows?", ("row_count",)), calibrate().fact("row_count")
    first, second = saying.told((question,)), saying.told((question,))
    assert first == (Say(f"{fact.why}\n{fact.help}"), question)
    assert second == (question,)


def test_there_is_something_to_teach_of_every_question() -> None:
    for name in library().jobs:
        for fact in job_named(name).graph.facts.values():
            assert not fact.ask or (fact.why and fact.help), fact.name
