"""The settled spelling of a value: what the log keeps, and all that replay reads.

"81.5 in", "163/3 in", "92 %", "24"; a list is joined by "; " and a list of one ends with ";".
The number is a decimal if it ends, else a fraction. A thousand-seed weight stays as told: "30 g".
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from assistant.quantities.kinds import KINDS
from assistant.quantities.units import factor, same_dimension

_SPELLING = re.compile(r"(-?\d+(?:\.\d+|/\d+)?)(?: (\S+))?")
_LIST = ";"
_KEPT = 4096


class NotSettled(ValueError):  # noqa: N818  # named for what the text is
    """A text that is no settled spelling of its kind."""


def decimal(number: Fraction) -> str | None:
    """The number as a decimal if it ends ("81.5"), else None."""
    places = 0
    rest = number.denominator
    for prime in (2, 5):
        power = 0
        while rest % prime == 0:
            rest //= prime
            power += 1
        places = max(places, power)
    if rest != 1:
        return None
    digits = str(abs(number.numerator) * 10**places // number.denominator).rjust(places + 1, "0")
    sign = "-" if number < 0 else ""
    return sign + (f"{digits[:-places]}.{digits[-places:]}" if places else digits)


def spell(number: Fraction, unit: str) -> str:
    """The settled spelling of a number in one of our units; "" for a plain number."""
    text = decimal(number) or f"{number.numerator}/{number.denominator}"
    return f"{text} {unit}" if unit else text


def join(spellings: Sequence[str]) -> str:
    """The settled spelling of a list."""
    return f"{_LIST} ".join(spellings) + (_LIST if len(spellings) == 1 else "")


def members(settled: str) -> tuple[str, ...] | None:
    """The members of a settled list, or None for a single value."""
    if _LIST not in settled:
        return None
    return tuple(part.strip() for part in settled.split(_LIST) if part.strip())


def parts(kind: str, settled: str) -> tuple[Fraction, str]:
    """The number and the unit of a settled value.

    Raises: NotSettled if it is not spelled so or the unit is of another kind; UnknownUnit.
    """
    found = _SPELLING.fullmatch(settled)
    if not found:
        raise NotSettled(settled)
    number, unit = found[1], found[2] or ""
    if re.search(r"/0+$", number) or not _takes(kind, unit):
        raise NotSettled(settled)
    return Fraction(number), unit


def _takes(kind: str, unit: str) -> bool:
    form = KINDS[kind].form
    if form == "unit":
        return bool(unit) and (same_dimension(unit, kind) or is_thousand_seed_weight(kind, unit))
    return {"percent": unit == "%", "number": unit == ""}.get(form, False)


def is_thousand_seed_weight(kind: str, unit: str) -> bool:
    """Whether this unit, of weight, tells seeds per weight by the weight of a thousand."""
    return kind == "seeds_per_weight" and same_dimension(unit, "mass")


@lru_cache(maxsize=_KEPT)
def exact(kind: str, settled: str) -> Fraction:
    """The value of one settled spelling in the SI unit of its kind, exactly.

    Raises: NotSettled, UnknownUnit; ZeroDivisionError for a thousand seeds that weigh nothing.
    """
    number, unit = parts(kind, settled)
    if KINDS[kind].form == "number":
        return number
    size = number * factor(unit)
    return 1000 / size if is_thousand_seed_weight(kind, unit) else size


def si_value(kind: str, settled: str) -> float | str | tuple[float, ...]:
    """The value in the SI unit of its kind; words as they are; a tuple for a list.

    Raises: as `exact` does.
    """
    if KINDS[kind].form == "words":
        return settled
    listed = members(settled)
    if listed is None:
        return float(exact(kind, settled))
    return tuple(float(exact(kind, each)) for each in listed)
