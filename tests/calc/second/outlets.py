"""The outlets of an air drill once more."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from statistics import mean, median, stdev, variance

from tests.calc.second.exact import Exact, Given, not_over
from tests.calc.second.row_patterns import differing
from tests.calc.second.rows import by_these

Halves = tuple[list[int], list[int]]
"""Outlets that may have a cause of their own, and all others, by their numbers from 0."""
Cause = tuple[Fraction, Exact]
"""The square of the spread that is left without it, and what it is."""


def compare_outlets(of: Given) -> Exact:
    weights = of["outlet_weights"]
    if len(weights) < 3 or not any(weights):
        return {"outcome": "too_few"}
    if len(weights) % int(of["outlet_towers"]):
        return {"outcome": "not_by_tower"}
    spread = stdev(weights) / mean(weights)
    return {
        "outcome": "even" if not_over(spread, of["outlet_spread_most"]) else "uneven",
        "outlet_cv": spread,
        "outlet_least": min(weights),
        "outlet_most": max(weights),
        "outlets_caught": len(weights),
    }


def outlet_pattern(of: Given) -> Exact:
    weights = of["outlet_weights"]
    causes = [*_evened_out(of), *_left_out(weights)]
    if not causes:
        return {"outcome": "no_pattern"}
    left, told = min(causes, key=lambda cause: cause[0])
    return told if not_over(left, of["outlet_spread_most"] ** 2) else {"outcome": "no_pattern"}


def outlet_groups(of: Given) -> Exact:
    rules = {"pattern_least": of["pattern_least"], "pattern_sure": of["pattern_sure"]}
    weights = of["outlet_weights"]
    shown = [
        (within, _told(weights, which, halves))
        for which, halves in _halves(of)
        for within, _, _ in differing(rules, weights, {number + 1 for number in halves[0]})
    ]
    return min(shown, key=lambda each: each[0])[1] if shown else {"outcome": "no_pattern"}


def outlets_left_open(of: Given) -> Exact:
    caught, of_all = of["outlets_caught"], of["row_count"]
    if caught >= of_all:
        return {"outcome": "all_caught"}
    left = by_these(of["outlet_cv"], caught, of_all, of["sure"])
    return {"outcome": "worked", "rows_left_open": left}


def _halves(of: Given) -> Iterator[tuple[Exact, Halves]]:
    """Each tower and all others, the lightest first; then the longer half of the hoses."""
    weights, towers = of["outlet_weights"], int(of["outlet_towers"])
    numbers, hoses = range(len(weights)), len(weights) // towers
    by_tower = [[n for n in numbers if n // hoses == tower] for tower in range(towers)]
    for some in sorted(by_tower, key=lambda some: mean(weights[n] for n in some)):
        others = [n for n in numbers if n not in some]
        if others:
            yield {"outcome": "one_tower", "far_tower": some[0] // hoses + 1}, (some, others)
    long = [n for n in numbers if n % hoses >= hoses - hoses // 2]
    if long:
        yield {"outcome": "long_hoses"}, (long, [n for n in numbers if n not in long])


def _told(weights: Sequence[Fraction], which: Exact, halves: Halves) -> Exact:
    """What lies apart, and by which share of the others' mean."""
    some, others = (mean(weights[n] for n in half) for half in halves)
    off = "tower_off" if "far_tower" in which else "hose_off"
    return {**which, off: some / others - 1}


def _evened_out(of: Given) -> Iterator[Cause]:
    """Each half of the outlets brought to the mean of the others, all by one share."""
    for which, halves in _halves(of):
        own, rest = ([of["outlet_weights"][n] for n in half] for half in halves)
        if any(own) and any(rest):
            evened = [each * mean(rest) / mean(own) for each in own]
            yield _spread(evened + rest), _told(of["outlet_weights"], which, halves)


def _left_out(weights: Sequence[Fraction]) -> Iterator[Cause]:
    """Each single outlet left out."""
    for number, weight in enumerate(weights):
        rest = [*weights[:number], *weights[number + 1 :]]
        if any(rest) and median(weights):
            off = weight / median(weights) - 1
            told = {"outcome": "one_outlet", "far_outlet": number + 1, "far_outlet_off": off}
            yield _spread(rest), told


def _spread(weights: Sequence[Fraction]) -> Fraction:
    """The square of the coefficient of variation: without a root it stays exact."""
    return Fraction(variance(weights) / mean(weights) ** 2)
