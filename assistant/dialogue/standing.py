"""What a fact stands at, how a proposal spells it, and where an answer comes from."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from assistant.dialogue.job import Job
from assistant.dialogue.log import Log
from assistant.dialogue.situation import Known, Situation
from assistant.flow.model import Fact
from assistant.quantities.settled import decimal, si_value, spell


def known_fact(job: Job, at: Situation, name: str) -> Known | None:
    """A fact as it is known; a limit stands at its value until it is changed."""
    known, fact = at.known.get(name), job.fact(name)
    if known is not None or not fact.stands_at:
        return known
    base = at.known.get(fact.half_of)
    if base and isinstance(base.value, float):
        return Known(base.value / 2, origin="stands")
    return limit(fact.kind, fact.stands_at)


@cache
def limit(kind: str, stands_at: str) -> Known:
    """A limit at the value that it came with."""
    return Known(si_value(kind, stands_at), stands_at, "stands")


def spelled(fact: Fact, log: Log, known: Known) -> str:
    """A value as a settled spelling, for a proposal that Enter takes."""
    unit = (fact.us if log.system == "us" else fact.metric) or fact.us
    if known.settled and not (unit and known.origin == "stands"):
        return known.settled
    if isinstance(known.value, str):
        return known.value  # a choice that was worked out
    if not unit or not isinstance(known.value, float):
        number = Fraction(known.value).limit_denominator(1000)  # type: ignore[arg-type]  # a plain count or mark
        return spell(number, "")
    from assistant.quantities.show import rounded
    from assistant.quantities.units import factor

    number = (Fraction(known.value) / factor(unit)).limit_denominator(10_000)
    if decimal(number) is None:  # a result that no tool reads: as it is shown
        number = rounded(float(number))
    return spell(number, unit)


def told_at(job: Job, place: str, name: str) -> str:
    """Where an answer at a place comes from: the step there says it, else the fact."""
    node, declared = job.graph.nodes.get(place), job.graph.declared.get(name, name)
    told = job.fact(name).told
    return node.step.told.get(declared, told) if node else told


def number(job: Job, at: Situation, name: str) -> float:
    """A number that is known or stands; 0 where it is not."""
    known = known_fact(job, at, name) if name in job.graph.facts else None
    return known.value if known and isinstance(known.value, float) else 0
