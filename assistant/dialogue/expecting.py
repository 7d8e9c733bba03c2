"""What a question can take, made from the declaration of its fact and from what is known."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache

from assistant.answers.expect import Choice, Expect
from assistant.dialogue.job import Job
from assistant.dialogue.log import UNKNOWN, Log
from assistant.dialogue.situation import Known, Situation
from assistant.flow.model import Fact, Span
from assistant.quantities.settled import exact, si_value, spell


def expect(job: Job, log: Log, at: Situation, name: str, *, listed: bool = True) -> Expect:
    """What the question for a fact takes here and now.

    `listed` says that its choices stand on the screen by number.
    """
    fact = job.fact(name)
    wide, usual = fact.possible, usual_span(job, at, fact)
    plain = Expect(
        fact=name,
        kind=fact.kind,
        bare=bare_units(log, at, fact),
        names=fact.names,
        choices=choices(job, fact, listed=listed),
        many=fact.many,
        by_unit=fact.by_unit,
        decimal=bool(fact.in_step_of) and bare_units(log, at, fact)[:1] != ("oz",),
        least=exact(fact.kind, wide.least) if wide else None,
        most=most(job, at, fact),
        usual_least=exact(fact.kind, usual.least) if usual else None,
        usual_most=exact(fact.kind, usual.most) if usual else None,
    )
    return replace(plain, variants=variants(job, log, at, fact)) if fact.variants else plain


def variants(job: Job, log: Log, at: Situation, fact: Fact) -> tuple[Expect, ...]:
    """The facts that a one-of question may settle; the one that a bare answer means comes first."""
    first = at.choice(fact.variant_by) if fact.variant_by else ""
    kinds = sorted(fact.variants, key=lambda kind: kind != first)
    return tuple(expect(job, log, at, fact.variants[kind]) for kind in kinds)


def choices(job: Job, fact: Fact, *, listed: bool) -> tuple[Choice, ...]:
    """The choices of a fact, by number, name, label and other words; or the words of a table."""
    if fact.known_words:
        table = job.library.tables[fact.known_words]
        return tuple(Choice(name, tuple(row.get("words", ()))) for name, row in table.items())
    return tuple(
        Choice(each.name, ((str(number),) if listed else ()) + (each.label, *each.words))
        for number, each in enumerate(fact.choices, 1)
    )


def bare_units(log: Log, at: Situation, fact: Fact) -> tuple[str, ...]:
    """What a bare number may mean: the tool's own unit, else those of the systems used so far."""
    tool = at.known.get(fact.in_step_of) if fact.in_step_of else None
    if tool and tool.settled and tool.settled != UNKNOWN:
        return (tool.settled.rpartition(" ")[2],)
    own = {"us": fact.us, "metric": fact.metric}[log.system]
    if not own or own not in fact.bare:
        return fact.bare[:1]
    return fact.bare if mixed(at) else (own, *(u for u in fact.bare if u in SAME.get(own, ())))


SAME = {"in": ("ft",), "cm": ("m", "mm"), "m": ("cm",)}
"""Units of one system that a bare length may both mean; the ranges tell them apart."""

METRIC = re.compile(r" (mm|cm|m|km|g|kg|kg/ha|kg/hL)$")
US = re.compile(r" (in|ft|yd|mi|oz|lb|lb/ac|lb/bu|bu/ac|[a-z]+/(lb|ac|ft\^2|ft))$")


def mixed(at: Situation) -> bool:
    """Whether both systems were used; an opening in mm is measured so in either."""
    spelled_so = [e.settled for e in at.used if not e.settled.endswith(" mm")]
    return any(map(METRIC.search, spelled_so)) and any(map(US.search, spelled_so))


def usual_span(job: Job, at: Situation, fact: Fact) -> Span | None:
    """The usual range, from a table by crop or method where one is named and has a row."""
    if fact.table:
        row = job.library.tables[fact.table].get(at.choice(fact.usual_by))
        if row and "least" in row:
            return Span(row["least"], row["most"])
    return fact.usual


def most(job: Job, at: Situation, fact: Fact) -> Fraction | None:
    """The upper end of the possible range, or the fact that bounds this one."""
    bound = at.known.get(fact.at_most) if fact.at_most else None
    if bound and bound.settled and bound.settled != UNKNOWN:
        return exact(job.fact(fact.at_most).kind, bound.settled)
    return exact(fact.kind, fact.possible.most) if fact.possible else None


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
    if known.settled:
        return known.settled
    if isinstance(known.value, str):
        return known.value  # a choice that was worked out
    unit = (fact.us if log.system == "us" else fact.metric) or fact.us
    if not unit or not isinstance(known.value, float):
        number = Fraction(known.value).limit_denominator(1000)  # type: ignore[arg-type]  # a plain count or mark
        return spell(number, "")
    from assistant.quantities.units import factor

    number = (Fraction(known.value) / factor(unit)).limit_denominator(10_000)
    return spell(number, unit)
