"""The example of an answer, as the person would read it off the tool at hand."""

from __future__ import annotations

from itertools import cycle, islice

from assistant.answers.expect import Settled
from assistant.answers.read import read
from assistant.dialogue.expecting import expect
from assistant.dialogue.job import Job, State
from assistant.dialogue.wording import shown_value
from assistant.flow.model import Fact


def example_of(job: Job, state: State, fact: Fact) -> str:
    """The fact's example; what a scale shows in its unit and steps, and as many as are wanted."""
    if not (fact.as_many or fact.in_order_of or fact.in_step_of or fact.variants):
        return fact.example
    wanted = expect(job, state.log, state.situation, fact.name)
    if wanted.as_many:
        return " ".join(islice(cycle(fact.example.split()), wanted.as_many))
    found = read(wanted, fact.example)
    taken = job.fact(found.fact) if isinstance(found, Settled) else fact
    if not isinstance(found, Settled) or not taken.in_step_of or found.value is None:
        return fact.example
    return shown_value(state.log, state.situation, taken, found.value)
