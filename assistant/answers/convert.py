"""A typed wish to see a value in another unit: "convert 19 cm to in", "80 kg/ha in lb/ac"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from assistant.answers.expect import Expect, Settled, Trouble
from assistant.answers.phrase import phrase
from assistant.answers.read import read
from assistant.answers.text import listed, one_of, plain, unaccented
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import exact, parts
from assistant.quantities.show import show, show_settled

OPENS = listed("convert|what_is|what's|whats|how_much_is|cuanto_es|cuanto_son|cuantos_son")
_OPENS = re.compile(rf"(?:{one_of(*OPENS)})\s+(?=[\d.])")
_HOW_MANY = re.compile(r"how many ([a-z/ ]+?) (?:is|are|in|make|equals?) (.*\d.*)")
_INTO = re.compile(r"(.*\d.*)\s+(?:in|to|into|as|=|en|a)\s+([a-z%][a-z0-9/^ ]*)")
_KINDS = tuple(
    name for name, kind in KINDS.items() if kind.form == "unit" and not kind.per and not kind.live
)
"""Lengths, weights, rates and so on: each unit belongs to one of them."""


@dataclass(frozen=True, slots=True)
class Converted:
    """A value as typed and in the unit wished for; `shown` is empty where it can't be had so."""

    given: str
    shown: str = ""


def converted(text: str) -> Converted | None:
    """What a line wants to see in another unit, or None if it is no such line.

    A value and a unit alone ("19 cm in inches") are one only if the two belong together.
    """
    try:
        said = unaccented(plain(text)).strip(" ?.!")
    except Trouble:
        return None
    opened = _OPENS.match(said)
    turned = _HOW_MANY.fullmatch(said)
    if turned:
        value, unit = turned[2], turned[1]
    else:
        found = _INTO.fullmatch(said[opened.end() :] if opened else said)
        if not found:
            return None
        value, unit = found[1], found[2]
    wished = bool(opened and said.startswith("convert"))
    return between(value.strip(), unit.strip(), wished=wished)


def between(value: str, unit: str, *, wished: bool) -> Converted | None:
    """The value in the unit; where a conversion was `wished` for in words, also that there is none.

    Only a unit that we know counts as one, so that an answer is never taken for a wish.
    """
    if not is_unit(unit):
        return Converted(value) if wished else None
    for kind in _KINDS:
        expect = Expect("", kind)
        given, one = read(expect, value), read(expect, f"1 {unit}")
        if isinstance(given, Settled) and isinstance(one, Settled):
            return Converted(show_settled(kind, given.settled), in_unit(kind, given, one))
    return Converted(value) if wished else None


def is_unit(text: str) -> bool:
    """Whether words are a unit and nothing else."""
    try:
        return bool(phrase(text).above)
    except Trouble:
        return False


def in_unit(kind: str, given: Settled, one: Settled) -> str:
    """A value in the unit that another is told in, as it is shown."""
    _, unit = parts(kind, one.settled)
    return show(kind, float(exact(kind, given.settled)), unit=unit)
