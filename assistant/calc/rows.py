"""Rows of one catch against each other.

Weights are kg each, in the order of the rows across the drill. Patterns come before limits: where
every second row is 14 % low, each row may still lie inside its limits.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.calc.chance import student_reach
from assistant.calc.contract import ManyMasses, ManyRows, ManyShares, Rows, Share
from assistant.calc.figures import (
    at_least,
    at_most,
    mean,
    median,
    relative_spread,
    root,
    same,
)

ROWS_LEAST = 3
"""Of two rows none can be called the odd one."""
PATTERN_LEAST = 4
"""Two rows on each side: fewer show no pattern."""


@dataclass(frozen=True, slots=True)
class EveryOther:
    """Every second row gives less: the numbers of the light ones from 1, and how much less.

    Spread, rows against the median and how much less as shares, here and below.
    """

    row_cv: Share
    row_offs: ManyShares
    light_rows: ManyRows
    light_off: Share


@dataclass(frozen=True, slots=True)
class OneHalf:
    """One half gives less."""

    row_cv: Share
    row_offs: ManyShares
    light_rows: ManyRows
    light_off: Share


@dataclass(frozen=True, slots=True)
class BothEnds:
    """The rows at both ends give less or more than those between."""

    row_cv: Share
    row_offs: ManyShares
    light_rows: ManyRows
    light_off: Share


@dataclass(frozen=True, slots=True)
class OnePlugged:
    """A single row lies far from the median, and it is light: its number, and all odd ones.

    How far a row is off is a share of the median, here and below.
    """

    row_cv: Share
    row_offs: ManyShares
    odd_rows: ManyRows
    far_row: Rows
    far_row_off: Share


@dataclass(frozen=True, slots=True)
class OneHot:
    """A single row lies far from the median, and it is heavy: told as a light one is."""

    row_cv: Share
    row_offs: ManyShares
    odd_rows: ManyRows
    far_row: Rows
    far_row_off: Share


@dataclass(frozen=True, slots=True)
class SomeOdd:
    """Some rows lie outside their limits, in no pattern, and none is far off alone."""

    row_cv: Share
    row_offs: ManyShares
    odd_rows: ManyRows
    odd_offs: ManyShares


@dataclass(frozen=True, slots=True)
class Even:
    """No pattern, and every row inside its limits."""

    row_cv: Share
    row_offs: ManyShares


@dataclass(frozen=True, slots=True)
class TooFew:
    """Fewer than three rows, or half of them without seed: nothing can be said."""


Pattern = type[EveryOther] | type[OneHalf] | type[BothEnds]


@dataclass(frozen=True, slots=True)
class Parted:
    """Two groups of rows: the light one (from 0), how much less, and the spread (kg) in both."""

    light: tuple[int, ...]
    off: float
    spread_within: float


def row_pattern(
    *,
    row_weights: ManyMasses,
    row_low: Share,
    row_high: Share,
    plugged_under: Share,
    hot_over: Share,
    pattern_least: Share,
    pattern_sure: Share,
    one_row: Rows,
) -> EveryOther | OneHalf | BothEnds | OnePlugged | OneHot | SomeOdd | Even | TooFew:
    """What the rows of one catch show: a pattern first, then rows outside their limits.

    The rows are neighbours or all of the drill, in order. A pattern is two groups whose means are
    at least `pattern_least` of the heavier apart, and further than chance brings in `pattern_sure`
    of cases; of several the one that leaves least spread in its groups. Rows outside `row_low` to
    `row_high` of the median are odd; one alone outside `plugged_under` to `hot_over` is far. The
    spread is the coefficient of variation, divisor n - 1. Rows alike to the last digit show
    nothing: one weight was told for all, or the scale is too coarse.
    `one_row` is 1, with its kind. Source: comparing two means, Student's t with pooled spread
    (Snedecor and Cochran, Statistical Methods, from memory); drills compared by the variation
    between outlets, ISO 7256-2, from memory; the limit of 10 %, University of Kentucky news on
    drill calibration. That pattern comes before limits: common practice, no source.
    """
    middle = median(row_weights or (0.0,))
    if len(row_weights) < ROWS_LEAST or middle <= 0 or max(row_weights) <= min(row_weights):
        return TooFew()
    row_cv = relative_spread(row_weights)
    row_offs = tuple(weight / middle - 1 for weight in row_weights)
    shown = _clearest(row_weights, pattern_least, pattern_sure)
    if shown:
        pattern, groups = shown
        return pattern(row_cv, row_offs, _numbers(groups.light, one_row), groups.off)
    odd = _outside(row_weights, row_low * middle, row_high * middle)
    far = _outside(row_weights, plugged_under * middle, hot_over * middle)
    if not odd:
        return Even(row_cv, row_offs)
    odd_rows = _numbers(odd, one_row)
    if len(far) > 1 or not far:
        return SomeOdd(row_cv, row_offs, odd_rows, tuple(row_offs[row] for row in odd))
    alone = OneHot if row_offs[far[0]] > 0 else OnePlugged
    return alone(row_cv, row_offs, odd_rows, _numbers(far, one_row)[0], row_offs[far[0]])


def _numbers(rows: Sequence[int], one_row: float) -> tuple[float, ...]:
    """The numbers of rows as people count them, from 1."""
    return tuple((row + 1) * one_row for row in rows)


def _outside(weights: Sequence[float], low: float, high: float) -> tuple[int, ...]:
    """The rows that lie outside both limits, from 0."""
    return tuple(
        row
        for row, weight in enumerate(weights)
        if not (at_least(weight, low) and at_most(weight, high))
    )


def _clearest(weights: Sequence[float], least: float, sure: float) -> tuple[Pattern, Parted] | None:
    """The pattern that shows, if one does."""
    if len(weights) < PATTERN_LEAST:
        return None
    numbers, half = range(len(weights)), len(weights) // 2
    ways: tuple[tuple[Pattern, Sequence[int], Sequence[int]], ...] = (
        (EveryOther, numbers[::2], numbers[1::2]),
        (OneHalf, numbers[:half], numbers[-half:]),
        (BothEnds, (numbers[0], numbers[-1]), numbers[1:-1]),
    )
    shown = [
        (pattern, found)
        for pattern, one, other in ways
        if (found := parted(weights, (one, other), least, sure))
    ]
    return min(shown, key=lambda each: each[1].spread_within, default=None)


def parted(
    weights: Sequence[float],
    groups: tuple[Sequence[int], Sequence[int]],
    least: float,
    sure: float,
) -> Parted | None:
    """Two groups of weights (numbers from 0), if their means lie far enough apart.

    At least the share `least` of the heavier, and further than chance brings in the share `sure` of
    cases: three or more weights in all. Source: as `row_pattern`.
    """
    light, heavy = sorted(groups, key=lambda group: mean([weights[row] for row in group]))
    low, high = (mean([weights[row] for row in group]) for group in (light, heavy))
    degrees = len(light) + len(heavy) - 2
    squares = [(weights[row] - low) ** 2 for row in light]
    squares += [(weights[row] - high) ** 2 for row in heavy]
    within = root(sum(squares) / degrees)
    chance = student_reach(float(sure), degrees) * within * root(1 / len(light) + 1 / len(heavy))
    if not at_least(high - low, least * high) or high - low <= chance:
        return None
    return Parted(tuple(light), low / high - 1, within)


class Told:
    """As many weights as rows."""

    @dataclass(frozen=True, slots=True)
    class EachRow:
        """Each row has its own."""

    @dataclass(frozen=True, slots=True)
    class OtherNumber:
        """A weight was forgotten, or some are of several rows: how many there are."""

        weights_told: Rows


def rows_told(
    *, row_weights: ManyMasses, rows_caught: Rows, one_row: Rows
) -> Told.EachRow | Told.OtherNumber:
    """Whether each row caught has a weight of its own. `one_row` is 1, with its kind.

    Common practice, no source.
    """
    weights_told = len(row_weights) * one_row
    if same(weights_told, rows_caught):
        return Told.EachRow()
    return Told.OtherNumber(weights_told)
