"""Not knowing, and leaving for later, lead somewhere from every question of every job."""

from __future__ import annotations

import re

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Fetch, Message, Trouble
from assistant.dialogue.unknowing import parked
from tests.bad_input import questions, test_other_jobs
from tests.bad_input.test_every_question import label
from tests.stories.play import calibrate

STATES = [(calibrate(), state) for state in questions.states()]
STATES += test_other_jobs.QUESTIONS
IDS = [f"{job.graph.job}-{label(state)}" for job, state in STATES]

WAYS_ON = re.compile(
    r"\b(pause|back|ask|adviser|seller|owner|manual|tag|look|walk|turn|count|string|scale|weigh|roll"
    r"|read|tape)\b",
    re.IGNORECASE,
)
"""What a person can do next: find out, with what or from whom, or come back later."""


def text_of(said: tuple[Message, ...]) -> str:
    """What is said before the question comes again."""
    return getattr(said[0], "text", "") if said else ""


@pytest.mark.parametrize(("job", "state"), STATES, ids=IDS)
@pytest.mark.parametrize("words", ["don't know", "idk", "not sure"])
def test_not_knowing_leads_somewhere(job: Job, state: State, words: str) -> None:
    after, reply = advance(job, state, Typed(words))
    assert not any(isinstance(each, Trouble) for each in reply.messages)
    refusal = advance(job, state, Typed("qqq xyz"))[1]
    assert text_of(reply.messages) != text_of(refusal.messages)
    if after.situation.open == state.situation.open and after.log == state.log:
        assert WAYS_ON.search(text_of(reply.messages))


@pytest.mark.parametrize(("job", "state"), STATES, ids=IDS)
def test_later_parks_a_question_or_says_why_it_can_not(job: Job, state: State) -> None:
    after, reply = advance(job, state, Typed("later"))
    assert not any(isinstance(each, Trouble | Fetch) for each in reply.messages[:1])
    if len(parked(after)) == len(parked(state)):
        assert after.situation.open == state.situation.open
        assert text_of(reply.messages) == job.word("later.needed")
    else:
        assert text_of(reply.messages) == job.word("later.parked")
