"""What a step proposes for a fact: what Enter takes, and what a quiet step takes by itself."""

from __future__ import annotations

from assistant.dialogue.job import Job
from assistant.dialogue.log import GUESS, LENT, UNKNOWN, Log
from assistant.dialogue.situation import Known, Situation
from assistant.dialogue.standing import known_fact, spelled
from assistant.flow.graph import Node

Proposal = tuple[str, str, str]
"""A settled spelling, where it comes from (empty: as the fact tells it), and its variant."""


def proposal(job: Job, log: Log, at: Situation, node: Node, name: str) -> Proposal | None:
    """An answer that was taken back, else the first known that is proposed."""
    old = log.again.get((at.place, at.visit, name))
    if old and old.settled != UNKNOWN:
        return old.settled, old.origin, old.variant
    declared = job.graph.declared.get(name, name)
    for source in node.step.propose.get(declared, ()):
        if source.startswith("table:"):
            row = table_value(job, at, name, source)
            if row:
                return row, "", ""
            continue
        known = known_fact(job, at, node.real(source))
        if known and known.value is not None:
            return spelled(job.fact(name), log, known), origin(known), ""
    return None


def table_value(job: Job, at: Situation, name: str, source: str) -> str:
    """What a table says for the crop or method of now, empty where it has no row."""
    fact = job.fact(name)
    row = job.library.tables[fact.table].get(at.choice(fact.usual_by), {})
    return row.get(source.removeprefix("table:"), "")


def origin(known: Known) -> str:
    """Where an accepted proposal comes from; empty means as the fact tells it."""
    return known.origin if known.origin in {*LENT, GUESS} else ""
