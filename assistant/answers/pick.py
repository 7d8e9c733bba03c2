"""Which reading of a doubt a person means: by its number, its unit, or as it was shown."""

from __future__ import annotations

from assistant.answers.by_number import by_number
from assistant.answers.expect import Doubt, Expect, Settled, Trouble
from assistant.answers.read import read
from assistant.answers.slips import variant
from assistant.answers.text import plain, unaccented, words_only
from assistant.answers.unit_words import UNITS
from assistant.quantities.show import show_settled


def pick(expect: Expect, doubt: Doubt, text: str) -> Settled | None:
    """The reading meant by "2", "inches", or the value typed as it was shown; None if none is."""
    try:
        said = plain(text)
    except Trouble:
        return None
    shown = [_shown(expect, each) for each in doubt.readings]
    if said in shown:
        return doubt.readings[shown.index(said)]
    at = by_number(said, len(doubt.readings))
    if at is not None:
        return doubt.readings[at]
    by_unit = _by_unit(doubt, unaccented(said))
    if by_unit:
        return by_unit
    again = read(expect, text)
    meant = [each for each in doubt.readings if isinstance(again, Settled) and _same(each, again)]
    return meant[0] if len(meant) == 1 else None


def _same(one: Settled, other: Settled) -> bool:
    return (one.fact, one.value) == (other.fact, other.value)


def _shown(expect: Expect, reading: Settled) -> str:
    return show_settled(variant(expect, reading.fact).kind, reading.settled).lower()


def _by_unit(doubt: Doubt, said: str) -> Settled | None:
    unit = UNITS.get(said) or UNITS.get(words_only(said), "")
    fits = [
        each
        for each in doubt.readings
        if unit and (each.settled.split(" ", 1)[-1] == unit or _noun(each) == unit)
    ]
    return fits[0] if len(fits) == 1 else None


def _noun(reading: Settled) -> str:
    return reading.settled.split(" ", 1)[-1].split("/")[0]
