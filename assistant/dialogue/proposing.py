"""What a step proposes for a fact: what Enter takes, and what a quiet step takes by itself."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.dialogue.job import Job
from assistant.dialogue.log import GUESS, LENT, UNKNOWN, Log
from assistant.dialogue.situation import Known, Situation
from assistant.dialogue.standing import known_fact, spelled
from assistant.flow.graph import Node

Proposal = tuple[str, str, str]
"""A settled spelling, where it comes from (empty: as the fact tells it), and its variant."""


def proposal(job: Job, log: Log, at: Situation, node: Node, name: str) -> Proposal | None:
    """An answer that was taken back, else the first known that is proposed and still possible."""
    old = log.again.get((at.place, at.visit, name))
    if old and old.settled != UNKNOWN and in_bounds(job, at, old.variant or name, old.settled):
        return old.settled, old.origin, old.variant
    each = sources(job, log, at, node, name)
    return next((found for found in each if in_bounds(job, at, name, found[0])), None)


def sources(job: Job, log: Log, at: Situation, node: Node, name: str) -> Iterator[Proposal]:
    """What a step proposes for a fact, in its order, where it is known."""
    declared = job.graph.declared.get(name, name)
    for source in node.step.propose.get(declared, ()):
        if source.startswith("table:"):
            row = table_value(job, at, name, source)
            if row:
                yield row, "", ""
            continue
        known = known_fact(job, at, node.real(source))
        if known and known.value is not None:
            yield spelled(job.fact(name), log, known), origin(known), ""


def in_bounds(job: Job, at: Situation, name: str, settled: str) -> bool:
    """Whether a value is within the fact that bounds it, which may be another by now."""
    fact = job.fact(name)
    if not fact.at_most:
        return True
    from assistant.dialogue.expecting import most
    from assistant.quantities.settled import exact

    bound = most(job, at, fact)
    return bound is None or exact(fact.kind, settled) <= bound


def table_value(job: Job, at: Situation, name: str, source: str) -> str:
    """What a table says for the crop or method of now, empty where it has no row."""
    fact = job.fact(name)
    row = job.library.tables[fact.table].get(at.choice(fact.usual_by), {})
    return row.get(source.removeprefix("table:"), "")


def origin(known: Known) -> str:
    """Where an accepted proposal comes from; empty means as the fact tells it."""
    return known.origin if known.origin in {*LENT, GUESS} else ""
