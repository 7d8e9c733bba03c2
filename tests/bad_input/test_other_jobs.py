"""Every question of the jobs beside the main one meets every bad text: a sentence, nothing lost."""

from __future__ import annotations

from functools import cache

import pytest

from assistant.book.nobook import NoBook
from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Trouble
from assistant.dialogue.questions import proposals
from assistant.sitting.plain_text import folded
from assistant.sitting.sitting import open_sitting
from tests.bad_input.questions import asks
from tests.bad_input.test_every_question import ANYWHERE, LINES, NUMBERS, WIDTH, label
from tests.stories.play import job_named, played, world
from tests.stories.story import stories

OTHERS = ("recheck", "air", "fault", "field", "mix")


@cache
def states(name: str) -> tuple[State, ...]:
    """A state for each question that some story of a job puts, the first of the job too."""
    found: dict[tuple[object, ...], State] = {}
    first = open_sitting(job_named(name), NoBook(), world())[0].state
    for told in ([first], *(played(each).states for each in stories() if each.job == name)):
        for state in told:
            open_ = state.situation.open
            if open_ and open_.kind not in {"ended", "fetch", "offer"} and not state.moment:
                found.setdefault((open_.kind, open_.place, open_.facts), state)
    return tuple(found.values())


def questions_of_others() -> list[tuple[Job, State]]:
    """Every question of these jobs; stories are played for them, so not before a test begins."""
    return [(job_named(name), state) for name in OTHERS for state in states(name)]


def test_the_questions_of_these_jobs_are_all_there() -> None:
    asked = {name: {fact for state in states(name) for fact in asks(state)} for name in OTHERS}
    assert {"treated", "tub_weights", "seed_room", "opening", "lever_mark", "catch"} <= asked[
        "recheck"
    ]
    assert {"meter_catch", "weighed", "gear_mark", "outlet_weights", "shown_speed"} <= asked["air"]


def test_a_bad_text_is_told_and_nothing_is_lost(subtests: pytest.Subtests) -> None:
    for job, state in questions_of_others():
        with subtests.test(label(state)):
            takes_no_bad_text(job, state)


def takes_no_bad_text(job: Job, state: State) -> None:
    """Assert that each bad text gets a sentence and changes nothing."""
    numbers = {} if any(job.fact(name).kind == "text" for name in asks(state)) else NUMBERS
    nothing = {"nothing": ""} if asks(state) and not proposals(job, state) else {}
    for name, text in {**ANYWHERE, **numbers, **nothing}.items():
        after, reply = advance(job, state, Typed(text))
        assert after.log == state.log, name
        assert after.situation == state.situation, name
        (trouble,) = (each for each in reply.messages if isinstance(each, Trouble))
        sentence = trouble.text.split("\n")[0]
        assert 1 <= len(folded(sentence, WIDTH)) <= LINES, name
        assert sentence.isprintable(), name
