"""Mean, spread, median, root, rounding and comparing, on floats and on quantities alike.

Python's `statistics` drops the units of a quantity without a word, so these are our own.
"""

from collections.abc import Sequence
from math import ceil, floor

DUST = 1e-9
"""The share of a value by which binary arithmetic may miss it; far below what any tool reads."""


def mean(values: Sequence[float]) -> float:
    """The mean of one value or more. Raises ZeroDivisionError for none."""
    return sum(values) / len(values)


def spread(values: Sequence[float]) -> float:
    """The standard deviation of a sample of two or more, with divisor n - 1.

    Source: GUM (JCGM 100:2008), 4.2.2, from memory. Raises ZeroDivisionError for fewer than two.
    """
    if len(values) > 1 and at_least(min(values), max(values)):
        return min(values) - min(values)  # the mean of equal values may miss them by a bit
    middle = mean(values)
    squares = [(value - middle) * (value - middle) for value in values]
    return root(sum(squares) / (len(values) - 1))


def relative_spread(values: Sequence[float]) -> float:
    """The coefficient of variation: the spread as a share of the mean, which must not be zero."""
    return spread(values) / mean(values)


def median(values: Sequence[float]) -> float:
    """The middle value, or the mean of the middle two. Raises ZeroDivisionError for none."""
    ordered = sorted(values)
    return mean(ordered[(len(ordered) - 1) // 2 : len(ordered) // 2 + 1])


def error_of_part(spread: float, taken: float, of: float) -> float:
    """The standard error of the mean of so many taken out of all, each one or more.

    `spread` has divisor n - 1, so the correction for a finite number is 1 - taken / of. Source:
    Cochran, Sampling Techniques, 2.6, from memory.
    """
    return spread * root((1 - taken / of) / taken)


def root(value: float) -> float:
    """The square root of a value that is zero or more; of an area it is a length."""
    result: float = value**0.5
    return result


def to_step(value: float, step: float) -> float:
    """The nearest whole number of steps, a half one upwards."""
    return _steps(floor(_ratio(value, step) + 0.5), step)


def up_to_step(value: float, step: float) -> float:
    """The least whole number of steps that is not under the value."""
    ratio = _ratio(value, step)
    return _steps(ceil(ratio - 2 * abs(ratio) * DUST), step)


def down_to_step(value: float, step: float) -> float:
    """The greatest whole number of steps that is not over the value."""
    return _steps(floor(_ratio(value, step)), step)


def _ratio(value: float, step: float) -> float:
    """How many steps the value holds, a hair more: dust must not cost a whole step."""
    ratio = float(value / step)
    return ratio + abs(ratio) * DUST


def _steps(number: int, step: float) -> float:
    # Divided by steps per unit, so that 29 half millimetres are 0.0145 m to the last bit.
    return number / (1 / step)


def at_most(value: float, limit: float) -> bool:
    """Whether the value is not over the limit, the limit itself included."""
    return value <= limit + abs(limit) * DUST


def at_least(value: float, limit: float) -> bool:
    """Whether the value is not under the limit, the limit itself included."""
    return value >= limit - abs(limit) * DUST


def same(one: float | str | None, other: float | str | None) -> bool:
    """Whether two settings are one: both not there, the same choice, or the same number."""
    if one is None or other is None:
        return one is other
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return at_most(one, other) and at_least(one, other)
