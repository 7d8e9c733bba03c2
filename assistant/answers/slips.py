"""Whether a settled value is possible and usual, and what slip would explain one that is not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import pairwise
from math import log

from assistant.answers.expect import About, Expect, Refusal, Settled, Unusual
from assistant.answers.rank import is_usual, settled
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import decimal, exact, join, members, parts, si_value, spell
from assistant.quantities.units import same_dimension

NEAR = tuple(Fraction(10) ** power for power in (-1, 1, -2, 2))
FAR = tuple(Fraction(10) ** power for power in (-3, 3))
"""How far a decimal point slips: before a wrong unit is likelier, and after."""

OTHER_UNITS = {
    "m": ("in", "ft", "cm", "m", "mm"),
    "kg": ("lb", "oz", "g", "kg"),
    "kg/m^2": ("lb/ac", "kg/ha"),
    "seed/kg": ("seed/lb", "seed/kg"),
    "seed/m^2": ("seed/ft^2", "seed/m^2", "seed/ac", "seed/ha"),
    "plant/m^2": ("plant/ft^2", "plant/m^2", "plant/ac", "plant/ha"),
    "m^2": ("ac", "ha", "ft^2", "m^2"),
    "kg/m^3": ("lb/bu", "kg/hL"),
}
"""The same number in a unit that is taken for another, by what the kind is written in."""


ACROSS = {"distance_per_turn": (Fraction("3.1416"), Fraction("6.2832"))}
"""How many times what was told the wanted thing is: round a wheel, where that across it was told,
or half of it."""
UNIT_MORE = 0.22
"""By so much nearer (a logarithm) a wrong unit must bring a weight than a point that slipped."""
TENTHS, HUNDREDTHS, EIGHTHS = 10, 100, 8
"""What people type behind a point, what a scale shows there, and what a tape shows."""


def judge(expect: Expect, told: Settled) -> Refusal | Unusual | None:
    """Whether a settled value lies in the possible range (else a Refusal) and the usual one.

    The refusal is too_small or too_big, with the range ("least", "most" in SI) and the likeliest
    slip if one explains it. Words, and facts without ranges, are never judged.
    """
    expect = variant(expect, told.fact)
    if KINDS[expect.kind].form == "words":
        return None
    values = [exact(expect.kind, each) for each in members(told.settled) or (told.settled,)]
    if expect.as_many and not expect.order and len(values) == 1:  # all rows in one tub
        expect = together(expect)
    likely = likeliest_slip(expect, told)
    about = _ranges(expect) + ((("likely", likely.settled),) if likely else ())
    if expect.least is not None and min(values) < expect.least:
        return Refusal("too_small", told.settled, about)
    if expect.most is not None and max(values) > expect.most:
        return Refusal("too_big", told.settled, about)
    whole = {expect.as_many} if expect.order else {1, expect.as_many}
    if expect.as_many and len(values) not in whole:
        return Unusual(about=(("told", str(len(values))), ("wanted", str(expect.as_many))))
    usual = all(not value or _in_usual(expect, value) for value in values)  # 0 is no slip
    return None if usual else Unusual(likely, _usual_range(expect))


def variant(expect: Expect, fact: str) -> Expect:
    """The variant that a settled value belongs to, or the fact itself."""
    return next((each for each in expect.variants if each.fact == fact), expect)


def together(expect: Expect) -> Expect:
    """The same fact where one figure is told for as many: their usual ranges add up."""
    low, high, times = expect.usual_least, expect.usual_most, expect.as_many
    return replace(
        expect,
        usual_least=None if low is None else low * times,
        usual_most=None if high is None else high * times,
    )


def likeliest_slip(expect: Expect, told: Settled) -> Settled | None:
    """The first slip that brings a value into its usual range.

    Unit, decimal point, two digits swapped, across for round; of a list only its unit. What a scale
    shows has a weight to come near to: there it is the slip that comes nearest.
    """
    if (expect.usual_least, expect.usual_most) == (None, None):
        return None
    if told_each := members(told.settled):
        return _in_another_unit(expect, told_each)
    here = exact(expect.kind, told.settled)
    explained = [
        settled(expect, spelling, clear=False)
        for spelling in _slips(expect, told.settled)
        if is_usual(expect, spelling) and exact(expect.kind, spelling) != here
    ]
    if expect.decimal and expect.usual_least and expect.usual_most:
        explained.sort(key=partial(_misses, expect, parts(expect.kind, told.settled)[1]))
    return explained[0] if explained else None


def _misses(expect: Expect, unit: str, likely: Settled) -> float:
    """How far what was likely meant lies from the middle of the usual range, as a logarithm."""
    value = exact(expect.kind, likely.settled)
    middle = float((expect.usual_least or value) * (expect.usual_most or value)) ** 0.5
    same_unit = parts(expect.kind, likely.settled)[1] == unit
    return abs(log(float(value) / middle)) + (0 if same_unit else UNIT_MORE)


def _in_another_unit(expect: Expect, told: Sequence[str]) -> Settled | None:
    """The same numbers in the first unit in which all of them are usual, if none is as told."""
    if any(is_usual(expect, each) for each in told):
        return None
    numbers = [parts(expect.kind, each)[0] for each in told]
    for unit in _other_units(expect):
        spellings = [spell(number, unit) for number in numbers]
        weighed = [each for each, number in zip(spellings, numbers, strict=True) if number]
        if weighed and all(is_usual(expect, each) for each in weighed):
            spelling = join(spellings)
            return Settled(expect.fact, spelling, si_value(expect.kind, spelling), clear=False)
    return None


def _other_units(expect: Expect) -> list[str]:
    units = OTHER_UNITS.get(KINDS[expect.kind].plain, ())
    return [each for each in units if same_dimension(each, expect.kind)]


def _slips(expect: Expect, told: str) -> Iterator[str]:
    number, unit = parts(expect.kind, told)
    moved = {times: number * times for times in (*NEAR, *FAR)}
    moved = {t: n for t, n in moved.items() if n and (not expect.whole or n.denominator == 1)}
    near = [moved[times] for times in NEAR if times in moved]
    finest = HUNDREDTHS if expect.decimal else TENTHS
    typed_so = [n for n in near if number.denominator == 1 or (n * finest).denominator == 1]
    plain = [spell(each, unit) for each in typed_so]
    in_others = [spell(number, each) for each in _other_units(expect)] if number else []
    own = not expect.bare or unit == expect.bare[0]  # in another unit, the unit is likelier wrong
    across = ACROSS.get(expect.kind, ()) if (number * EIGHTHS).denominator == 1 else ()
    yield from (spell(_tenths(number * times), unit) for times in across)
    yield from (*plain, *in_others) if own else (*in_others, *plain)
    yield from (spell(each, unit) for each in _swapped(number))
    yield from (spell(each, unit) for each in near)
    yield from (spell(moved[times], unit) for times in FAR if times in moved)
    for other in expect.bare:
        yield from (spell(moved[times], other) for times in NEAR if times in moved)


def _swapped(number: Fraction) -> Iterator[Fraction]:
    """The number with two digits that stand side by side the other way round: 81.5 for 18.5."""
    told = decimal(number) or ""
    at = [n for n, mark in enumerate(told) if mark.isdigit() and (n or mark != "0")]
    for left, right in pairwise(at):
        marks = list(told)
        marks[left], marks[right] = marks[right], marks[left]
        yield Fraction("".join(marks))


def _tenths(number: Fraction) -> Fraction:
    return Fraction(round(number * TENTHS), TENTHS)


def _in_usual(expect: Expect, value: Fraction) -> bool:
    low, high = expect.usual_least, expect.usual_most
    return (low is None or value >= low) and (high is None or value <= high)


def _ranges(expect: Expect) -> About:
    return _named(("least", expect.least), ("most", expect.most))


def _usual_range(expect: Expect) -> About:
    return _named(("usual_least", expect.usual_least), ("usual_most", expect.usual_most))


def _named(*limits: tuple[str, Fraction | None]) -> About:
    return tuple((name, str(float(limit))) for name, limit in limits if limit is not None)
