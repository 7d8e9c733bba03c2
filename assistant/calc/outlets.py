"""What came at the outlets of an air drill, fan on: each against the others.

Weights are kg each, tower by tower, in each from the shortest hose to the longest.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias, TypeVar

from assistant.calc.chance import student_reach
from assistant.calc.contract import Count, ManyMasses, Mass, Rows, Share
from assistant.calc.figures import (
    at_least,
    at_most,
    error_of_part,
    mean,
    median,
    relative_spread,
    to_step,
)
from assistant.calc.rows import parted
from assistant.calc.rows_left import LeftOpen

OUTLETS_LEAST = 3
"""Two outlets show no spread worth the name."""
PAIR = 2
"""Two hoses of a tower: one short, one long."""


@dataclass(frozen=True, slots=True)
class Even:
    """They differ little. The spread as a share of the mean; the lightest and heaviest, in kg."""

    outlet_cv: Share
    outlet_least: Mass
    outlet_most: Mass
    outlets_caught: Rows


@dataclass(frozen=True, slots=True)
class Uneven:
    """They differ much."""

    outlet_cv: Share
    outlet_least: Mass
    outlet_most: Mass
    outlets_caught: Rows


@dataclass(frozen=True, slots=True)
class TooFew:
    """Under three outlets, or no seed at all: nothing can be said."""


@dataclass(frozen=True, slots=True)
class NotByTower:
    """The weights can't be shared out among the towers, as many to each."""


class Pattern:
    """What the uneven ones have in common."""

    @dataclass(frozen=True, slots=True)
    class OneTower:
        """A tower, by its number from 1, and how far its mean is from the others', as a share."""

        far_tower: Count
        tower_off: Share

    @dataclass(frozen=True, slots=True)
    class LongHoses:
        """The longer half of the hoses, against the shorter half, as a share."""

        hose_off: Share

    @dataclass(frozen=True, slots=True)
    class OneOutlet:
        """An outlet, by its place in the list from 1, against the middle one, as a share."""

        far_outlet: Count
        far_outlet_off: Share

    @dataclass(frozen=True, slots=True)
    class NoPattern:
        """Nothing of the kind makes the rest even."""


def compare_outlets(
    *,
    outlet_weights: ManyMasses,
    outlet_towers: Count,
    outlet_spread_most: Share,
    one_row: Rows,
) -> Even | Uneven | TooFew | NotByTower:
    """Whether outlets get seed alike: their coefficient of variation, divisor n - 1.

    Source: ISO 7256-2, drills compared by the variation between outlets, from memory. The limit, a
    spread of 10 % or less that has been called very good, is common practice, no source.
    `one_row` is 1, with its kind.
    """
    if len(outlet_weights) < OUTLETS_LEAST or max(outlet_weights) <= 0:
        return TooFew()
    each = len(outlet_weights) // int(outlet_towers)
    if each * int(outlet_towers) < len(outlet_weights):
        return NotByTower()
    cv = relative_spread(outlet_weights)
    alike = Even if at_most(cv, outlet_spread_most) else Uneven
    return alike(cv, min(outlet_weights), max(outlet_weights), len(outlet_weights) * one_row)


def outlet_pattern(
    *, outlet_weights: ManyMasses, outlet_towers: Count, outlet_spread_most: Share
) -> Pattern.OneTower | Pattern.LongHoses | Pattern.OneOutlet | Pattern.NoPattern:
    """What one cause would leave the rest even, within the limit: the one that leaves least.

    A tower or the longer hoses are evened out to the mean of the others; a single outlet is left
    out. As many weights to each tower. Common practice, no source.
    """
    towers = _by_tower(outlet_weights, outlet_towers)
    causes = [*_one_tower(towers), *_long_hoses(towers), *_one_outlet(outlet_weights)]
    even = [each for each in causes if at_most(each[0], outlet_spread_most)]
    return min(even, key=lambda each: each[0])[1] if even else Pattern.NoPattern()


def outlet_groups(
    *, outlet_weights: ManyMasses, outlet_towers: Count, pattern_least: Share, pattern_sure: Share
) -> Pattern.OneTower | Pattern.LongHoses | Pattern.NoPattern:
    """A tower, or the longer hoses, that lie apart though all outlets are even within the limit.

    The pattern comes before the limit, as with rows, and by the same test. As many weights to each
    tower. Source: as `row_pattern`.
    """
    towers = _by_tower(range(len(outlet_weights)), outlet_towers)
    shown = [
        (found.spread_within, cause)
        for group, cause in _groups(outlet_weights, towers)
        if (found := parted(outlet_weights, group, pattern_least, pattern_sure))
    ]
    return min(shown, key=lambda each: each[0])[1] if shown else Pattern.NoPattern()


def outlets_left_open(
    *, outlet_cv: Share, outlets_caught: Rows, row_count: Rows, one_row: Rows, sure: Share
) -> LeftOpen.Worked | LeftOpen.AllCaught:
    """What the outlets without a bag leave open, as `rows_left_open_by_these`, of three or more.

    Source: Cochran, Sampling Techniques, 2.6, from memory, with Student's t. `one_row` is 1, with
    its kind.
    """
    if at_least(outlets_caught, row_count):
        return LeftOpen.AllCaught()
    error = error_of_part(outlet_cv, outlets_caught / one_row, row_count / one_row)
    freedom = int(to_step(float(outlets_caught / one_row), 1)) - 1
    return LeftOpen.Worked(student_reach(float(sure), freedom) * error)


Cause: TypeAlias = tuple[float, Pattern.OneTower | Pattern.LongHoses | Pattern.OneOutlet]
"""What spread is left without it, and the cause."""


T = TypeVar("T")


def _by_tower(outlets: Sequence[T], towers: float) -> list[Sequence[T]]:
    """The outlets of each tower, as many to each."""
    size = len(outlets) // int(towers)
    return [outlets[at : at + size] for at in range(0, len(outlets), size)]


def _by_hose(towers: Sequence[Sequence[T]]) -> tuple[list[T], list[T]]:
    """The shorter and the longer half of each tower's hoses; one in the middle is short."""
    short = len(towers[0]) - len(towers[0]) // PAIR
    halves = [(tower[:short], tower[short:]) for tower in towers]
    return [at for one, _ in halves for at in one], [at for _, other in halves for at in other]


Group: TypeAlias = tuple[tuple[Sequence[int], Sequence[int]], Pattern.OneTower | Pattern.LongHoses]
"""Two groups of outlets, by their places from 0, and what it would be if they lie apart."""


def _groups(weights: Sequence[float], towers: Sequence[Sequence[int]]) -> Iterable[Group]:
    """Each tower against the others, light ones first; then long hoses against short ones."""
    means = [mean([weights[at] for at in tower]) for tower in towers]
    for number in sorted(range(len(towers)), key=means.__getitem__):
        tower = towers[number]
        rest = [at for other in towers if other is not tower for at in other]
        if rest:
            off = _against([weights[at] for at in tower], [weights[at] for at in rest])
            yield (tower, rest), Pattern.OneTower(float(number + 1), off)
    short, long = _by_hose(towers)
    if long:
        off = _against([weights[at] for at in long], [weights[at] for at in short])
        yield (long, short), Pattern.LongHoses(off)


def _against(some: Sequence[float], others: Sequence[float]) -> float:
    return mean(some) / mean(others) - 1


def _one_tower(towers: Sequence[Sequence[float]]) -> Iterable[Cause]:
    means = [mean(each) for each in towers]
    if len(towers) < PAIR or min(means) <= 0:
        return
    of_two = [means.index(min(means))]  # the light one: the other may be as it should
    for far in range(len(towers)) if len(towers) > PAIR else of_two:
        others = [weight for tower in (*towers[:far], *towers[far + 1 :]) for weight in tower]
        off = means[far] / mean(others)
        evened = [*others, *(weight / off for weight in towers[far])]
        yield relative_spread(evened), Pattern.OneTower(float(far + 1), off - 1)


def _long_hoses(towers: Sequence[Sequence[float]]) -> Iterable[Cause]:
    short, long = _by_hose(towers)
    if not long or min(mean(short), mean(long)) <= 0:
        return
    off = mean(long) / mean(short)
    yield relative_spread([*short, *(each / off for each in long)]), Pattern.LongHoses(off - 1)


def _one_outlet(weights: Sequence[float]) -> Iterable[Cause]:
    middle = median(weights)
    for far, weight in enumerate(weights if middle > 0 else ()):
        rest = [*weights[:far], *weights[far + 1 :]]
        yield relative_spread(rest), Pattern.OneOutlet(float(far + 1), weight / middle - 1)
