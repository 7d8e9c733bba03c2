"""Our own pint registries, built from an empty one when first needed.

Seed, plant, row, turn, pulse and mark are base dimensions, so that ground comes out as an area only
if every factor is there. The acre is exactly 43,560 square feet of 0.3048 m; pint's own is the
survey acre, 4 parts in a million larger. Factors from memory of NIST Handbook 44, appendix C
(pound, foot, acre, bushel of 2150.42 cubic inches).
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from assistant.quantities.kinds import KINDS

if TYPE_CHECKING:  # pint is slow to import: only when the first quantity is needed
    from pint import UnitRegistry

    Registry = UnitRegistry[Any]

BASES = {
    "m": "length",
    "kg": "mass",
    "s": "time",
    "seed": "seed",
    "plant": "plant",
    "row": "row",
    "turn": "turn",
    "pulse": "pulse",
    "mark": "mark",
}

DERIVED = {
    "km": "1000 * m",
    "cm": "m / 100",
    "mm": "m / 1000",
    "ft": "0.3048 * m",
    "in": "ft / 12",
    "yd": "3 * ft",
    "mi": "5280 * ft",
    "g": "kg / 1000",
    "mg": "kg / 1000000",
    "t": "1000 * kg",
    "lb": "0.45359237 * kg",
    "oz": "lb / 16",
    "short_ton": "2000 * lb",
    "long_ton": "2240 * lb",
    "ac": "43560 * ft ** 2",
    "ha": "10000 * m ** 2",
    "hL": "m ** 3 / 10",
    "bu": "2150.42 * in ** 3",
    "min": "60 * s",
    "h": "60 * min",
    "percent": "1 / 100",
}


def _registry(number: type) -> Registry:
    from pint import UnitRegistry

    registry: Registry = UnitRegistry(None, non_int_type=number, cache_folder=None)
    for name, dimension in BASES.items():
        registry.define(f"{name} = [{dimension}]")
    for name, definition in DERIVED.items():
        registry.define(f"{name} = {definition}")
    return registry


@lru_cache(maxsize=1)
def exact_registry() -> Registry:
    """The registry whose factors are exact fractions: for reading and showing."""
    return _registry(Fraction)


@lru_cache(maxsize=1)
def checking_registry() -> Registry:
    """The registry of floats: for the check of dimensions."""
    return _registry(float)


def quantity(value: float, unit: str) -> Any:
    """A pint quantity of floats in one of our units, such as `quantity(80, "lb/ac")`.

    Raises: pint.UndefinedUnitError for a unit that is not ours.
    """
    return checking_registry().Quantity(value, unit)


def checking_quantity(kind_name: str, value: float) -> Any:
    """The value as a pint quantity in the SI unit of its kind.

    Raises: KeyError for a name that is no kind, ValueError for words, which have no dimension.
    """
    unit = KINDS[kind_name].si
    if not unit:
        raise ValueError(kind_name)
    return quantity(value, "" if unit == "1" else unit)


def has_dimension(value: Any, kind_name: str) -> bool:
    """Whether a number or a quantity has the dimension of that kind.

    Raises: KeyError and ValueError as `checking_quantity` does.
    """
    wanted = checking_quantity(kind_name, 1.0).dimensionality
    return bool(checking_registry().Quantity(value).dimensionality == wanted)
