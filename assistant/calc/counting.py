"""Where no scale is at hand: the seeds of a catch, counted.

A count is a scale whose step is one seed, so that what is judged by weight is judged here too.
"""

from dataclasses import dataclass

from assistant.calc.chance import normal_reach
from assistant.calc.contract import (
    Area,
    Count,
    DistancePerTurn,
    ManyMasses,
    Mass,
    Rate,
    Ratio,
    Rows,
    RowSpacing,
    Seeds,
    SeedsPerRowLength,
    SeedsPerWeight,
    Share,
    Trial,
    Turns,
)
from assistant.calc.figures import at_least, at_most, mean, root, same, up_to_step
from assistant.calc.plan import ProposedCatch


@dataclass(frozen=True, slots=True)
class Counted:
    """Seed is counted: one seed is the step (kg), and no tub (kg) is weighed with it."""

    catch_step: Mass
    tare: Mass


class ExpectedCount:
    """What the count should come to."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Seeds in all and in each row, and the fewest and the most that are near enough."""

        expected_seeds: Count
        expected_row_seeds: Count
        count_low: Count
        count_high: Count


@dataclass(frozen=True, slots=True)
class Enough:
    """Enough seeds and turns, and not too many to count."""


@dataclass(frozen=True, slots=True)
class FewTurns:
    """One turn miscounted would matter much."""


@dataclass(frozen=True, slots=True)
class FewSeeds:
    """So few seeds that chance matters much."""


@dataclass(frozen=True, slots=True)
class TooMany:
    """So many seeds that nobody counts them right."""


class RowsCounted:
    """Whether each row caught has a count of its own."""

    @dataclass(frozen=True, slots=True)
    class EachRow:
        """As many counts as rows were caught."""

    @dataclass(frozen=True, slots=True)
    class InAll:
        """One count of all rows."""

    @dataclass(frozen=True, slots=True)
    class OtherNumber:
        """Several counts, but not one for each row: how many."""

        counts_told: Rows


class CountsByRow:
    """Rows that were counted, to be set against each other."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """What each row weighs (kg), and how far off the median one may be, as few seeds differ."""

        counted_weights: ManyMasses
        counted_low: Share
        counted_high: Share


class CountedCatch:
    """Seeds along the row, as they are dug for behind the drill."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Per metre of row."""

        caught_seeds_per_row: SeedsPerRowLength


def count_for_scale(*, seeds_per_weight: SeedsPerWeight, one_seed: Seeds, no_tub: Mass) -> Counted:
    """One seed's weight (kg) as the step of a count. `one_seed` is 1, with its kind.

    Source: as `rate_from_seeds`.
    """
    return Counted(one_seed / seeds_per_weight, no_tub)


def propose_count(
    *,
    bulk_rate: Rate,
    row_spacing: RowSpacing,
    distance_per_turn: DistancePerTurn,
    catch_step: Mass,
    drive_rows: Rows,
    rows_to_count: Rows,
    seeds_to_count: Ratio,
    turns_to_count: Turns,
    turns_most: Turns,
    one_turn: Turns,
) -> ProposedCatch.Worked:
    """Rows to catch and turns to make, so that there is seed enough, and no more, to count.

    Rows: as many as wanted, but no more than there are. Turns: those wanted, or as many as bring
    the seeds wanted, but no more than the most. Common practice, no source.
    """
    rows = min(drive_rows, rows_to_count)
    seeds_of_a_turn = bulk_rate * rows * row_spacing * distance_per_turn / catch_step
    turns = up_to_step(seeds_to_count / seeds_of_a_turn, one_turn)
    return ProposedCatch.Worked(rows, min(turns_most, max(turns_to_count, turns)))


def expected_count(
    *, target_catch: Mass, catch_step: Mass, rows_caught: Rows, one_row: Rows, tolerance: Share
) -> ExpectedCount.Worked:
    """The seeds that a catch (kg) should hold, in all and in each row, and those near enough.

    Source: as `seeds_from_rate`; near enough by the tolerance, common practice, no source.
    """
    seeds = target_catch / catch_step
    each = seeds / rows_caught * one_row
    return ExpectedCount.Worked(seeds, each, seeds * (1 - tolerance), seeds * (1 + tolerance))


def enough_to_count(
    *,
    expected_seeds: Count,
    turns: Turns,
    turns_to_count: Turns,
    count_least: Ratio,
    count_most: Ratio,
) -> Enough | FewTurns | FewSeeds | TooMany:
    """Whether the catch holds seed enough for a judgement, and not too much to count it.

    A limit that is just met is met. Common practice, no source: of seeds that fall by chance alone,
    200 have a standard deviation of a fourteenth, and a drill spaces them more evenly than chance.
    """
    if not at_least(expected_seeds, count_least):
        return FewSeeds()
    if not at_most(expected_seeds, count_most):
        return TooMany()
    return Enough() if at_least(turns, turns_to_count) else FewTurns()


def rows_counted(
    *, trials: tuple[Trial, ...], rows_caught: Rows, one_row: Rows
) -> RowsCounted.EachRow | RowsCounted.InAll | RowsCounted.OtherNumber:
    """Whether the last catch was counted row by row. `one_row` is 1, with its kind.

    Raises IndexError without a trial, ValueError where nothing was counted.
    Common practice, no source.
    """
    counts_told = len(_counts(trials)) * one_row
    if same(counts_told, rows_caught):
        return RowsCounted.EachRow()
    return RowsCounted.InAll() if counts_told <= one_row else RowsCounted.OtherNumber(counts_told)


def counted_catch(
    *, trials: tuple[Trial, ...], ground_covered: Area, row_spacing: RowSpacing, one_seed: Seeds
) -> CountedCatch.Worked:
    """Seeds per length of row in the last catch; its ground (m2, more than 0) is that of its rows.

    Raises IndexError without a trial, ValueError where nothing was counted. Source: as
    `row_seeds_to_area`.
    """
    return CountedCatch.Worked(sum(_counts(trials)) * one_seed / ground_covered * row_spacing)


def counts_by_row(
    *,
    trials: tuple[Trial, ...],
    catch_step: Mass,
    plugged_under: Share,
    hot_over: Share,
    sure: Share,
) -> CountsByRow.Worked:
    """The counts of the last catch as weights, and what they are called far off by.

    `catch_step` is the weight of one seed (kg). Seeds that fall by chance alone have a standard
    deviation of the root of their number, so that a mean row of n may differ by z / root n in
    `sure` of cases; the limits are so much wider. A drill spaces more evenly than chance.
    Raises IndexError without a trial, ValueError where nothing was counted.
    Source: the law of Poisson, from memory; the limits, common practice, no source.
    """
    counts = _counts(trials)
    by_chance = normal_reach(float(sure)) / root(max(1, mean(counts)))
    return CountsByRow.Worked(
        tuple(seeds * catch_step for seeds in counts),
        plugged_under * max(0, 1 - by_chance),
        hot_over * (1 + by_chance),
    )


def _counts(trials: tuple[Trial, ...]) -> tuple[float, ...]:
    """The counts of the last catch."""
    seeds = trials[-1].seeds_caught
    if seeds is None:
        raise ValueError(trials)
    return seeds
