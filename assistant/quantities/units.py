"""The exact size of a unit, by its exact name. Never given what a person typed."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from assistant.quantities.kinds import KINDS
from assistant.quantities.registry import BASES, DERIVED, exact_registry

Dimension = frozenset[tuple[str, object]]

_NUMBERS = {"": Fraction(1), "1": Fraction(1), "%": Fraction(1, 100)}
_WORD = re.compile(r"[A-Za-z_]+")
_SHAPE = re.compile(r"(?:1/)?[A-Za-z_]+(?:\^\d)?(?:/(?:[A-Za-z_]+(?:\^\d)?|\([A-Za-z_*]+\)))?")


class UnknownUnit(ValueError):  # noqa: N818  # named for what the text is
    """A name that our registry does not know."""


@lru_cache(maxsize=256)
def _in_base_units(unit: str) -> tuple[Fraction, Dimension]:
    """The unit's exact factor and its dimension; "" and "%" count as numbers."""
    if unit in _NUMBERS:
        return _NUMBERS[unit], frozenset()
    names = set(_WORD.findall(unit))
    if not _SHAPE.fullmatch(unit) or not names <= BASES.keys() | DERIVED.keys():
        raise UnknownUnit(unit)
    base = exact_registry().Quantity(Fraction(1), unit).to_base_units()
    return Fraction(base.magnitude), frozenset(base.dimensionality.items())


def factor(unit: str) -> Fraction:
    """How many SI base units one of this unit is, exactly: `factor("in")` is 127/5000.

    Composite names are written like "lb/ac", "seed/lb", "plant/ft^2".

    Raises: UnknownUnit.
    """
    return _in_base_units(unit)[0]


def same_dimension(unit: str, kind: str) -> bool:
    """Whether a value of that kind can be written in this unit ("in" for a row spacing too).

    Raises: UnknownUnit for the unit, KeyError for the kind.
    """
    if (kind == "bushel_rate") != unit.startswith(("bu/", "hL/")):
        return False  # a volume per area is a length, but nobody says so
    return _in_base_units(unit)[1] == _in_base_units(KINDS[kind].plain)[1]
