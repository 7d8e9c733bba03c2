"""What a question can take, made from the declaration of its fact and from what is known."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from assistant.answers.expect import Choice, Expect
from assistant.answers.in_order import kinds_of
from assistant.dialogue.job import Job
from assistant.dialogue.log import UNKNOWN, Log
from assistant.dialogue.situation import Situation
from assistant.dialogue.standing import known_fact, number
from assistant.flow.model import Fact, Span
from assistant.quantities.settled import exact, parts, spell
from assistant.quantities.units import factor


def expect(job: Job, log: Log, at: Situation, name: str, *, listed: bool = True) -> Expect:
    """What the question for a fact takes here and now.

    `listed` says that its choices stand on the screen by number.
    """
    fact = job.fact(name)
    wide, usual = fact.possible, usual_span(job, at, fact)
    order = kinds_of(at.choice(fact.in_order_of))
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
        as_many=int(number(job, at, fact.as_many)) or len(order),
        order=order,
        order_of=fact.in_order_of,
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


def usual_span(job: Job, at: Situation, fact: Fact, *, together: bool = False) -> Span | None:
    """The usual range, from a table by crop or method where one is named and has a row.

    `together` is where one figure is told for as many.
    """
    if together and (each := usual_span(job, at, fact)):
        times = max(int(number(job, at, fact.as_many)), 1)
        ends = (parts(fact.kind, end) for end in (each.least, each.most))
        return Span(*(spell(end * times, unit) for end, unit in ends))
    near = near_span(job, at, fact) if fact.usual_near else None
    if near:
        return near
    if fact.table:
        row = job.library.tables[fact.table].get(at.choice(fact.usual_by))
        if row and "least" in row:
            return Span(row["least"], row["most"])
    return fact.usual


def near_span(job: Job, at: Situation, fact: Fact) -> Span | None:
    """So many times under and over the result that it should come near to, within what can be."""
    near, times = at.known.get(fact.usual_near), known_fact(job, at, fact.usual_times)
    if near is None or times is None or not isinstance(near.value, float):
        return None
    unit = (bare_units(Log(), at, fact) or (fact.metric,))[0]
    middle, by = near.value / float(factor(unit)), float(times.value or 1)  # type: ignore[arg-type]  # a ratio is a number
    top = most(job, at, fact)
    upper = min(middle * by, float(top / factor(unit))) if top is not None else middle * by
    return Span(spell(short(middle / by), unit), spell(short(upper), unit))


def short(number: float) -> Fraction:
    """A number to three digits."""
    return Fraction(f"{number:.3g}")


def most(job: Job, at: Situation, fact: Fact) -> Fraction | None:
    """The upper end of the possible range, or the fact that bounds this one."""
    bound = at.known.get(fact.at_most) if fact.at_most else None
    if bound and isinstance(bound.value, float):
        worked_out = not bound.settled
        kind = job.fact(fact.at_most).kind
        return Fraction(bound.value) if worked_out else exact(kind, bound.settled)
    return exact(fact.kind, fact.possible.most) if fact.possible else None
