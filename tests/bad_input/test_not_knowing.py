"""Not knowing, and leaving for later, lead somewhere from every question of every job.

Each fact that a job asks is met, in that job or in another one that has the same part; a test holds
it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Fetch, Message, Trouble
from assistant.dialogue.unknowing import parked
from assistant.flow.graph import Graph
from tests.bad_input import questions
from tests.bad_input.questions import asks
from tests.bad_input.test_every_question import label
from tests.bad_input.test_other_jobs import questions_of_others
from tests.stories.play import calibrate, job_named, library

WAYS_ON = re.compile(
    r"\b(pause|back|ask|adviser|seller|owner|manual|tag|look|walk|turn|count|string|scale|weigh|roll"
    r"|read|tape|measure|book list)\b",
    re.IGNORECASE,
)
"""What a person can do next: find out, with what or from whom, or come back later."""


def every_question() -> Iterator[tuple[str, Job, State]]:
    """Every question of every job with a name for it; beside the main job's, as they are played."""
    of_main = [(calibrate(), state) for state in questions.states()]
    for job, state in (*of_main, *questions_of_others()):
        yield f"{job.graph.job}-{label(state)}", job, state


def asked(graph: Graph, names: Iterable[str]) -> set[str]:
    """Facts as they were declared, whichever use of a part asks them."""
    return {graph.declared.get(name, name) for name in names}


def test_every_fact_that_a_job_asks_is_among_the_questions() -> None:
    graphs = [job_named(name).graph for name in library().jobs]
    steps = [(g, n) for g in graphs for n in g.nodes.values() if n.step.kind == "ask"]
    wanted = {fact for g, n in steps if not n.step.quiet for fact in asked(g, n.facts)}
    met = {fact for _, job, at in every_question() for fact in asked(job.graph, asks(at))}
    assert met == wanted


def text_of(said: tuple[Message, ...]) -> str:
    """What is said before the question comes again."""
    return getattr(said[0], "text", "") if said else ""


@pytest.mark.parametrize("words", ["don't know", "idk", "not sure"])
def test_not_knowing_leads_somewhere(words: str, subtests: pytest.Subtests) -> None:
    for name, job, state in every_question():
        with subtests.test(name):
            leads_somewhere(job, state, words)


def leads_somewhere(job: Job, state: State, words: str) -> None:
    """Assert that not knowing is no refusal, and tells a way on where the question stays."""
    after, reply = advance(job, state, Typed(words))
    assert not any(isinstance(each, Trouble) for each in reply.messages)
    refusal = advance(job, state, Typed("qqq xyz"))[1]
    assert text_of(reply.messages) != text_of(refusal.messages)
    if after.situation.open == state.situation.open and after.log == state.log:
        assert WAYS_ON.search(text_of(reply.messages))


def test_later_parks_a_question_or_says_why_it_can_not(subtests: pytest.Subtests) -> None:
    for name, job, state in every_question():
        with subtests.test(name):
            is_parked_or_told_why_not(job, state)


def is_parked_or_told_why_not(job: Job, state: State) -> None:
    """Assert that `later` leaves a question for later, or says that it can't."""
    after, reply = advance(job, state, Typed("later"))
    assert not any(isinstance(each, Trouble | Fetch) for each in reply.messages[:1])
    if len(parked(after)) == len(parked(state)):
        assert after.situation.open == state.situation.open
        assert text_of(reply.messages) == job.word("later.needed")
    else:
        assert text_of(reply.messages) == job.word("later.parked")
