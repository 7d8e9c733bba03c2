"""Texts of the flow files, filled with values as they are shown."""

from __future__ import annotations

import re
from collections.abc import Mapping
from math import inf

from assistant.dialogue.job import Job
from assistant.dialogue.log import LENT, UNKNOWN, Log
from assistant.dialogue.situation import Known, Situation, Value
from assistant.flow.graph import Node
from assistant.flow.model import Fact

WHOLE_FROM = 10  # hundredths off target are whole from here on
HOLE = re.compile(r"\{([a-z_.]+)\}")
COUNTED = re.compile(rf"{HOLE.pattern} ([a-z]{{2,}}[^\Ws])s\b")
"""A hole and the many that it counts: "{turns} turns"."""


def fill(text: str, values: Mapping[str, str]) -> str:
    """Put values into the `{holes}` of a text, "1 row" for one of many.

    A hole without a value is a fault of the flow.
    """
    text = COUNTED.sub(lambda found: f"1 {found[2]}" if values[found[1]] == "1" else found[0], text)
    return HOLE.sub(lambda hole: values[hole[1]], text)


def say(job: Job, key: str, /, **values: str) -> str:
    """A sentence of the machine's own, filled."""
    return fill(job.word(key), values)


def filled(job: Job, log: Log, situation: Situation, node: Node, text: str) -> str:
    """A step's text with the values of the facts that it names."""
    names = {name: node.real(name) for name in HOLE.findall(text)}
    shown = {name: shown_fact(job, log, situation, real) for name, real in names.items()}
    return fill(text, shown)


def shown_fact(job: Job, log: Log, situation: Situation, name: str) -> str:
    """A fact as it is shown now; "not known" where it is not."""
    from assistant.dialogue.standing import known_fact

    known = known_fact(job, situation, name)
    if known is None or known.value is None:
        return job.word("review.not_known")
    return shown(job, log, situation, told_as(job, situation, name), known)


def told_as(job: Job, situation: Situation, name: str) -> Fact:
    """The fact whose kind a value has: of a one-of fact, the variant that was told."""
    fact = job.fact(name)
    variant = fact.variants.get(situation.choice(f"{name}_kind")) if fact.variants else None
    return job.fact(variant) if variant else fact


def shown(job: Job, log: Log, situation: Situation, fact: Fact, known: Known) -> str:
    """A value as its kind shows it, keeping the digits that were typed."""
    if known.settled == UNKNOWN or known.value is None:
        return job.word("review.not_known")
    if fact.kind == "choice":
        return label(fact, known.value)
    if fact.kind == "text":
        return str(known.value)
    if fact.signed:
        each = known.value if isinstance(known.value, tuple) else (known.value,)
        return ", ".join(off_target(job, float(off)) for off in each)
    if fact.in_hundred:
        return say(job, "shown.in_hundred", amount=hundredths(float(known.value), whole=1))  # type: ignore[arg-type]  # a share is a number
    nothing = bool(fact.in_step_of) and known.value == 0  # what the tool shows, in its own unit
    as_typed = bool(known.settled) and (bool(fact.ask) or known.origin not in LENT)
    if fact.exact or (as_typed and not log.convert and not nothing):
        from assistant.dialogue.standing import spelled
        from assistant.quantities.show import show_settled

        return show_settled(fact.kind, spelled(fact, log, known) if fact.exact else known.settled)
    return shown_value(log, situation, fact, known.value)


def shown_value(log: Log, situation: Situation, fact: Fact, value: Value) -> str:
    """A worked-out value in the units of its fact, or in the marks of the scale that reads it."""
    from assistant.quantities.show import show

    if isinstance(value, tuple):
        parts = [shown_value(log, situation, fact, each) for each in value]
        return ", ".join(parts)
    step = situation.known.get(fact.in_step_of) if fact.in_step_of else None
    if step and step.settled and isinstance(step.value, float):
        number, _, unit = step.settled.rpartition(" ")
        return show(fact.kind, float(value), log.system, unit=unit, step=number)
    like = situation.known.get(fact.in_unit_of) if fact.in_unit_of else None
    told = like.settled.rpartition(" ")[2] if like else ""
    unit = told or (fact.us if log.system == "us" else fact.metric)
    return show(fact.kind, float(value), log.system, unit=unit or None)


def off_target(job: Job, difference: float) -> str:
    """A share off target in words, never a bare sign."""
    amount = hundredths(difference)
    if amount == "0":
        return job.word("shown.spot_on")
    return say(job, "shown.light" if difference < 0 else "shown.heavy", amount=amount)


def hundredths(share: float, whole: float = inf) -> str:
    """The hundredths of a share without its sign: a tenth tells something only of a small one.

    Or of one that leaves little of the `whole` that it is a share of: 97.5 of 100.
    """
    amount = abs(share) * 100
    tenths = min(amount, abs(whole * 100 - amount)) < WHOLE_FROM
    return (f"{amount:.1f}" if tenths else f"{amount:.0f}").removesuffix(".0")


def label(fact: Fact, name: Value) -> str:
    """The label of a choice; of several, each on a line of its own, by number."""
    if isinstance(name, tuple):
        return "\n".join(f"{at} {label(fact, str(each))}" for at, each in enumerate(name, 1))
    return next((c.label for c in fact.choices if c.name == name), str(name))


def choice_labels(fact: Fact) -> tuple[str, ...]:
    """The labels of a fact's choices, in the order in which they are numbered."""
    return tuple(choice.label for choice in fact.choices)
