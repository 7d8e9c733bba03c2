"""Every question of the quick recheck meets every bad text: a sentence, and nothing is lost."""

from __future__ import annotations

from functools import cache

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import State
from assistant.dialogue.messages import Trouble
from assistant.dialogue.questions import proposals
from assistant.sitting.plain_text import folded
from tests.bad_input.questions import asks
from tests.bad_input.test_every_question import ANYWHERE, LINES, NUMBERS, WIDTH, label
from tests.stories.play import job_named, played
from tests.stories.story import stories

JOB = job_named("recheck")


@cache
def states() -> tuple[State, ...]:
    """A state for each question that some story of the recheck puts."""
    found: dict[tuple[object, ...], State] = {}
    for story in stories():
        for state in played(story).states if story.job == "recheck" else ():
            open_ = state.situation.open
            if open_ and open_.kind not in {"ended", "fetch", "offer"} and not state.moment:
                found.setdefault((open_.kind, open_.place, open_.facts), state)
    return tuple(found.values())


def test_the_questions_of_the_recheck_are_all_there() -> None:
    asked = {name for state in states() for name in asks(state)}
    assert {"treated", "tub_weights", "seed_room", "opening", "lever_mark", "catch"} <= asked


@pytest.mark.parametrize("state", states(), ids=label)
def test_a_bad_text_is_told_and_nothing_is_lost(state: State) -> None:
    numbers = {} if any(JOB.fact(name).kind == "text" for name in asks(state)) else NUMBERS
    nothing = {"nothing": ""} if asks(state) and not proposals(JOB, state) else {}
    for name, text in {**ANYWHERE, **numbers, **nothing}.items():
        after, reply = advance(JOB, state, Typed(text))
        assert after.log == state.log, name
        assert after.situation == state.situation, name
        (trouble,) = (each for each in reply.messages if isinstance(each, Trouble))
        sentence = trouble.text.split("\n")[0]
        assert 1 <= len(folded(sentence, WIDTH)) <= LINES, name
        assert sentence.isprintable(), name
