"""How a value is shown, decided by its kind in this one place.

Three digits are what a tape or a field scale can say; whole digits are all kept, except in large
numbers of seeds and plants, which keep four.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import floor, log10

from assistant.quantities.kinds import KINDS, Kind
from assistant.quantities.settled import decimal, is_thousand_seed_weight, members, parts
from assistant.quantities.units import factor

OUNCES = 16  # in a pound
DIGITS = 3
COUNTED_DIGITS = 4
GROUPED_FROM = 10_000
TWO_GROUPS_FROM = 1_000_000
_NUDGE = 1 + Fraction(1, 10**12)  # a float may come out a hair under where it should be
LONG_INCHES = 144  # from here on a tape is read in feet and inches

THOUSAND_SEEDS = " per 1,000 seeds"
UNIT_WORDS = {
    "ft^2": "sq ft",
    "m^2": "sq m",
    "seed/lb": "per lb",
    "seed/kg": "per kg",
    "seed/ft^2": "seeds per sq ft",
    "seed/ac": "seeds per ac",
    "seed/m^2": "seeds per sq m",
    "seed/ha": "seeds per ha",
    "plant/ft^2": "plants per sq ft",
    "plant/ac": "plants per ac",
    "plant/m^2": "plants per sq m",
    "plant/ha": "plants per ha",
    "seed/ft": "seeds per ft",
    "seed/m": "seeds per m",
    "plant/ft": "plants per ft",
    "plant/m": "plants per m",
    "turn/ac": "turns per ac",
    "turn/ha": "turns per ha",
    "turn/m^2": "turns per sq m",
    "turn/lb": "turns per lb",
    "turn/kg": "turns per kg",
    "turn/min": "rpm",
    "pulse": "pulses",
    "pulse/lb": "pulses per lb",
    "pulse/kg": "pulses per kg",
    "mi/h": "mph",
    "short_ton": "short ton",
    "long_ton": "long ton",
}


def unit_words(kind: str, unit: str) -> str:
    """The unit as people read it: "sq ft", "plants per sq ft", "lb PLS/ac"."""
    words = UNIT_WORDS.get(unit, unit)
    if is_weight_of_thousand(kind, unit):
        return words + THOUSAND_SEEDS
    if not KINDS[kind].live:
        return words
    return words.replace("seeds", "PLS") if "seeds" in words else words.replace("/", " PLS/", 1)


def is_weight_of_thousand(kind: str, unit: str) -> bool:
    """Whether the unit tells seeds per weight by the weight of a thousand seeds."""
    return bool(unit) and is_thousand_seed_weight(kind, unit)


def show(
    kind: str,
    value: float | str | tuple[float, ...],
    system: str = "us",
    unit: str | None = None,
    step: str | Fraction | None = None,
) -> str:
    """The value (SI unit of its kind) as people read it: "36.2 lb/ac", "92 %", "12,500 per lb".

    `system` is "us" or "metric"; `unit` fixes the unit; `step` ("0.01", in that unit) is the
    tool's own smallest mark: the value is shown at the nearest mark, with the mark's digits.
    Words stay as they are.
    """
    if isinstance(value, str):
        return value
    its = KINDS[kind]
    largest = max(map(abs, value), default=0.0) if isinstance(value, tuple) else abs(value)
    unit = unit or _unit_for(its, largest, system)
    if unit == "oz" and step and not isinstance(value, tuple):
        marks = _half_up(value / float(factor("oz")), Fraction(step))
        if marks >= OUNCES:
            return _pounds_and_ounces(marks, lambda ounces: _at_mark(float(ounces), Fraction(step)))
    values = value if isinstance(value, tuple) else (value,)
    numbers = [_number(its, each, unit, step) for each in values]
    return _with_unit(numbers, unit_words(kind, unit))


def show_settled(kind: str, settled: str) -> str:
    """A settled value as people read it, with the digits that were typed.

    Read again at the same question it settles to the same. Raises: NotSettled, UnknownUnit.
    """
    its = KINDS[kind]
    if its.form == "words":
        return settled
    listed = members(settled)
    told = [parts(kind, each) for each in (listed if listed is not None else (settled,))]
    units = {unit for _, unit in told}
    if kind == "length" and units == {"in"} and len(told) == 1 and told[0][0] >= LONG_INCHES:
        feet, inches = divmod(told[0][0], 12)
        return f"{feet} ft" + (f" {_kept(its, inches, 'in')} in" if inches else "")
    if kind == "mass" and units == {"oz"} and len(told) == 1 and told[0][0] >= OUNCES:
        return _pounds_and_ounces(told[0][0], lambda ounces: _kept(its, ounces, "oz"))
    if len(units) > 1:  # a list told in mixed units keeps each its own
        return ", ".join(f"{_kept(its, n, u)} {unit_words(kind, u)}".strip() for n, u in told)
    return _with_unit(
        [_kept(its, number, unit) for number, unit in told], unit_words(kind, told[0][1])
    )


def _pounds_and_ounces(ounces: Fraction, written: Callable[[Fraction], str]) -> str:
    """Ounces from a pound on, as a scale shows them: "8 lb 8 oz"."""
    pounds, rest = divmod(ounces, OUNCES)
    return f"{pounds} lb" + (f" {written(rest)} oz" if rest else "")


def _with_unit(numbers: list[str], words: str) -> str:
    return f"{', '.join(numbers)} {words}".strip()


def _unit_for(kind: Kind, value: float, system: str) -> str:
    if kind.form == "percent":
        return "%"
    choices = kind.metric if system == "metric" else kind.us
    nearly = value * float(_NUDGE)
    return next((unit for unit, least in choices if nearly >= least), "")


def _number(kind: Kind, value: float, unit: str, step: str | Fraction | None) -> str:
    size = float(factor(unit)) if kind.form != "number" else 1.0
    if is_weight_of_thousand(kind.name, unit):
        return _rounded(1000 / value / size)
    if step:
        return _at_mark(value / size, Fraction(step))
    if kind.whole:
        return _grouped(Fraction(round(value)))
    return _rounded(value / size, counted=kind.counted)


def _rounded(number: float, *, counted: bool = False) -> str:
    return _grouped(rounded(number, counted=counted))


def rounded(number: float, *, counted: bool = False) -> Fraction:
    """The number to three digits; whole digits are dropped only from large counts."""
    if number == 0:
        return Fraction(0)
    large = counted and abs(number) >= GROUPED_FROM
    places = (COUNTED_DIGITS if large else DIGITS) - 1 - floor(log10(abs(number)))
    places = places if large else max(places, 0)
    return _half_up(number, Fraction(10) ** -places)


def _half_up(number: float, step: Fraction) -> Fraction:
    """The nearest multiple of a step; what lies half-way goes up, as people round."""
    steps = floor(abs(Fraction(number)) / step * _NUDGE + Fraction(1, 2))
    return (steps if number > 0 else -steps) * step


def _at_mark(number: float, step: Fraction) -> str:
    marks = _half_up(number, step)
    written = decimal(step)
    places = len(written.partition(".")[2]) if written else DIGITS
    return (
        f"{float(marks):,.{places}f}"
        if abs(marks) >= GROUPED_FROM
        else f"{float(marks):.{places}f}"
    )


def _grouped(number: Fraction) -> str:
    text = decimal(number) or f"{float(number):.{DIGITS}g}"
    whole, dot, part = text.partition(".")
    return (f"{int(whole):,}" if abs(number) >= GROUPED_FROM else whole) + dot + part


def _kept(kind: Kind, number: Fraction, unit: str) -> str:
    """All digits of a number."""
    if decimal(number) is None:
        whole, rest = divmod(abs(number), 1)
        sign = "-" if number < 0 else ""
        return sign + (f"{whole} " if whole else "") + f"{rest.numerator}/{rest.denominator}"
    return _grouped(number) if _plainly_grouped(kind, number, unit) else decimal(number) or ""


def _plainly_grouped(kind: Kind, number: Fraction, unit: str) -> bool:
    """Whether a comma before three digits can not be taken for a decimal comma."""
    if kind.whole or number >= TWO_GROUPS_FROM:
        return True
    if kind.least is None or kind.most is None or is_weight_of_thousand(kind.name, unit):
        return False
    size = number * factor(unit)
    return size / 1000 < kind.least and size <= kind.most
