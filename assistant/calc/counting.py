"""Where no scale is at hand: the seeds of a catch, counted."""

from dataclasses import dataclass

from assistant.calc.contract import (
    Area,
    ManySeeds,
    Rate,
    RowSpacing,
    SeedsPerArea,
    SeedsPerRowLength,
    SeedsPerWeight,
)


class Counted:
    """What fell on the ground that the catch stands for."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Seeds per m2, and seeds per metre of row."""

        caught_seeds_per_area: SeedsPerArea
        caught_seeds_per_row: SeedsPerRowLength

    @dataclass(frozen=True, slots=True)
    class NoSeeds:
        """None were counted."""


class CountedRate:
    """The rate by count."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2."""

        counted_rate: Rate


def counted_catch(
    *, seeds_caught: ManySeeds, ground_covered: Area, row_spacing: RowSpacing
) -> Counted.Worked | Counted.NoSeeds:
    """Seeds per area and per length of row, from the seeds of each row caught.

    The ground (m2, more than 0) is that of these rows. Source: as `row_seeds_to_area`.
    """
    seeds = sum(seeds_caught)
    if seeds <= 0:
        return Counted.NoSeeds()
    return Counted.Worked(seeds / ground_covered, seeds / ground_covered * row_spacing)


def rate_by_count(
    *, caught_seeds_per_area: SeedsPerArea, seeds_per_weight: SeedsPerWeight
) -> CountedRate.Worked:
    """The rate by weight, from seeds per m2 and seeds per kg; as good as the seeds per weight.

    Source: as `rate_from_seeds`.
    """
    return CountedRate.Worked(caught_seeds_per_area / seeds_per_weight)
