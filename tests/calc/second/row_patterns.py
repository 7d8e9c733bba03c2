"""The pattern of rows once more: two groups that differ, then rows outside their limits."""

from collections.abc import Sequence
from fractions import Fraction
from statistics import mean, median, pvariance, stdev

from scipy.stats import ttest_ind

from tests.calc.second.exact import Exact, Given, exact, not_over, not_under


def row_pattern(of: Given) -> Exact:
    weights = of["row_weights"]
    if len(weights) < 3 or not median(weights):
        return {"outcome": "too_few"}
    middle = median(weights)
    offs = tuple((each - middle) / middle for each in weights)
    told = {"row_cv": stdev(weights) / mean(weights), "row_offs": offs}
    shown = [
        (spread, name, light, off)
        for name, group in groups(len(weights)).items()
        for spread, light, off in differing(of, weights, group)
    ]
    if shown:
        _, name, light, off = min(shown, key=lambda each: each[0])
        return {"outcome": name, "light_rows": light, "light_off": off, **told}
    odd = _outside(offs, of["row_low"], of["row_high"])
    if not odd:
        return {"outcome": "even", **told}
    far = _outside(offs, of["plugged_under"], of["hot_over"])
    if len(far) != 1:
        apart = tuple(offs[row - 1] for row in odd)
        return {"outcome": "some_odd", "odd_rows": odd, "odd_offs": apart, **told}
    outcome = "one_plugged" if offs[far[0] - 1] < 0 else "one_hot"
    alone = {"far_row": far[0], "far_row_off": offs[far[0] - 1]}
    return {"outcome": outcome, "odd_rows": odd, **alone, **told}


def groups(rows: int) -> dict[str, set[int]]:
    """One of the two groups of each pattern, from 1; none with fewer than four rows."""
    if rows < 4:
        return {}
    return {
        "every_other": set(range(1, rows + 1, 2)),
        "one_half": set(range(1, rows // 2 + 1)),
        "both_ends": {1, rows},
    }


def differing(
    of: Given, weights: Sequence[Fraction], group: set[int]
) -> list[tuple[Fraction, tuple[int, ...], Fraction]]:
    """The spread in both groups, the light one and how much it is less; none where it is chance.

    Raises ValueError where no case may be chance, or all.
    """
    numbers = range(1, len(weights) + 1)
    sides = [tuple(n for n in numbers if (n in group) is there) for there in (True, False)]
    light, heavy = sorted(sides, key=lambda side: mean(weights[n - 1] for n in side))
    less, more = ([weights[n - 1] for n in side] for side in (light, heavy))
    off = 1 - mean(less) / mean(more)
    within = sum(pvariance(side) * len(side) for side in (less, more))
    if not within:
        return []
    if not 0 < of["pattern_sure"] < 1:
        raise ValueError(of["pattern_sure"])
    if not not_under(off, of["pattern_least"]):
        return []
    by_chance = ttest_ind([float(w) for w in less], [float(w) for w in more]).pvalue
    sure = exact(1 - by_chance) > of["pattern_sure"]
    return [(within, light, -off)] if sure else []


def _outside(offs: Sequence[Fraction], low: Fraction, high: Fraction) -> tuple[int, ...]:
    return tuple(
        number
        for number, off in enumerate(offs, 1)
        if not (not_under(1 + off, low) and not_over(1 + off, high))
    )
