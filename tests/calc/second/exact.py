"""What second opinions are written in: the facts of a calculation, each number a fraction."""

from collections.abc import Callable, Mapping
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

from assistant.calc.calculation import ROWS

Given = Mapping[str, Any]
"""The facts that a calculation takes, by name; numbers as fractions, also those in rows."""
Exact = Mapping[str, Any]
"""The facts that come out, by name, and under `outcome` which outcome it is where there are many.

Numbers are fractions, or floats where a root or a quantile is no fraction.
"""
Opinion = Callable[[Given], Exact]

DUST = Fraction(1, 10**9)
"""A limit counts as met to this share of it, as in the calculations: no tool reads so much."""


def exact(value: Any) -> Any:
    """A value with each number in it as a fraction; words and what is missing stay."""
    if isinstance(value, ROWS):
        return replace(
            value, **{each.name: exact(getattr(value, each.name)) for each in fields(value)}
        )
    if isinstance(value, tuple):
        return tuple(exact(each) for each in value)
    return value if value is None or isinstance(value, str) else Fraction(value)


def exact_all(inputs: Given) -> dict[str, Any]:
    """All inputs of a calculation so."""
    return {name: exact(value) for name, value in inputs.items()}


def not_over(value: Fraction, limit: Fraction) -> bool:
    """Whether a value keeps a limit that itself is allowed."""
    return value - limit <= abs(limit) * DUST


def not_under(value: Fraction, limit: Fraction) -> bool:
    """The same for a least value."""
    return limit - value <= abs(limit) * DUST


def same(one: Fraction, other: Fraction) -> bool:
    """Whether two numbers are one, but for what no tool reads."""
    return not_over(one, other) and not_under(one, other)
