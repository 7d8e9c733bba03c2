"""Records applied to a state: a step of the fold where they go forward, else a replay."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from assistant.dialogue.asking import known_of
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import (
    Answered,
    GivenEarly,
    Log,
    Offered,
    Record,
    Resumed,
    fold,
)
from assistant.dialogue.messages import Message
from assistant.dialogue.situation import Situation
from assistant.dialogue.steps import walk_on
from assistant.dialogue.walk import Walk

LIMITS = "limits"
"""The place of entries that change a limit."""


def replayed(job: Job, log: Log) -> tuple[State, tuple[Message, ...]]:
    """The state of a log, from the start, and what is said since its last entry."""
    at = Situation(job.graph.start, pool={told.fact: told for told in log.told})
    for entry in log.entries:
        if entry.place == LIMITS:
            at.known[entry.fact] = known_of(job, entry)
            at.used.append(entry)
    at.move(job.graph.start)
    return walked(job, log, at)


def walked(job: Job, log: Log, at: Situation) -> tuple[State, tuple[Message, ...]]:
    """Walk on from a situation under a log."""
    walk = Walk(job, log, at)
    walk_on(walk)
    return State(log, at), tuple(walk.said)


def applied(
    job: Job, state: State, records: Sequence[Record]
) -> tuple[State, tuple[Message, ...], tuple[Record, ...]]:
    """The state after some records; moving to another part begins a new sitting.

    Returns the state, what is said on the way, and the records to store.
    """
    log = fold(records, state.log)
    onward = all(isinstance(record, Answered | Offered | GivenEarly) for record in records)
    if onward and not left_before(job, state.situation, records):
        at = state.situation.copy()
        take_early(at, records)
        after, said = walked(job, log, at)
        return after, said, tuple(records)
    after, said = replayed(job, log)
    if part_of(after) != part_of(state) and not any(isinstance(r, Resumed) for r in records):
        records = (*records, Resumed())
        after, said = replayed(job, log.after(Resumed()))
    return after, said, tuple(records)


def left_before(job: Job, at: Situation, records: Iterable[Record]) -> bool:
    """Whether a fact told early was asked at a step that was left: it is known from there."""
    told = {each.fact for r in records if isinstance(r, GivenEarly) for each in r.facts}
    left = (job.graph[place].facts for place, came in at.trail if came.startswith("leave:"))
    return any(told & set(facts) for facts in left)


def take_early(at: Situation, records: Iterable[Record]) -> None:
    """Facts told early go to the pool, unless they are known already."""
    for record in records:
        if isinstance(record, GivenEarly):
            at.pool |= {told.fact: told for told in record.facts if told.fact not in at.known}


def part_of(state: State) -> str:
    """The part, with the parts that it uses, that a conversation stands in."""
    place = state.situation.place
    return place.split("/")[0] if "/" in place else ""
