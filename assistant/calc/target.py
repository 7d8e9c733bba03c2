"""From what is wanted on the ground to the seed to drop.

Rates are kg/m2, seeds and plants per m2 or per metre of row, seeds per kg, spacings m per row;
shares lie between 0 and 1 and are more than 0 wherever something is divided by them.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    BulkDensity,
    BushelRate,
    Emergence,
    LiveRate,
    PlantsPerArea,
    PlantsPerRowLength,
    Rate,
    Ratio,
    RowSpacing,
    SeedsPerArea,
    SeedsPerRowLength,
    SeedsPerWeight,
    Share,
)
from assistant.calc.figures import at_least


class BulkRate:
    """The seed to drop, out of the bag."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2."""

        bulk_rate: Rate


class SeedsWanted:
    """The seeds to drop on an area."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In seeds per m2."""

        seeds_per_area: SeedsPerArea


class PlantsWanted:
    """The plants wanted on an area."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In plants per m2."""

        plants_per_area: PlantsPerArea


class SeedsAlong:
    """The seeds along one row."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In seeds per metre of row."""

        seeds_per_row_length: SeedsPerRowLength


class PlantsAlong:
    """The plants along one row."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In plants per metre of row."""

        plants_per_row_length: PlantsPerRowLength


@dataclass(frozen=True, slots=True)
class Clean:
    """So pure that chaff does not matter."""


@dataclass(frozen=True, slots=True)
class Low:
    """So much chaff that it matters what seeds per weight was counted from."""


def rate_as_told(*, target_weight: Rate) -> BulkRate.Worked:
    """The seed to drop when it was told by weight: the same, in kg/m2."""
    return BulkRate.Worked(target_weight)


def seeds_as_told(*, target_seeds: SeedsPerArea) -> SeedsWanted.Worked:
    """The seeds to drop when they were told: the same, per m2."""
    return SeedsWanted.Worked(target_seeds)


def plants_as_told(*, target_plants: PlantsPerArea) -> PlantsWanted.Worked:
    """The plants wanted when they were told: the same, per m2."""
    return PlantsWanted.Worked(target_plants)


def row_seeds_to_area(
    *, target_row_seeds: SeedsPerRowLength, row_spacing: RowSpacing
) -> SeedsWanted.Worked:
    """Seeds per m2 from seeds per metre of row and metres per row.

    Source: Iowa State University, Agronomy 212, seeds per foot of row and seeds per acre.
    """
    return SeedsWanted.Worked(target_row_seeds / row_spacing)


def row_plants_to_area(
    *, target_row_plants: PlantsPerRowLength, row_spacing: RowSpacing
) -> PlantsWanted.Worked:
    """Plants per m2 from plants per metre of row and metres per row.

    Source: as `row_seeds_to_area`, for plants.
    """
    return PlantsWanted.Worked(target_row_plants / row_spacing)


def seeds_on_the_row(*, seeds_per_area: SeedsPerArea, row_spacing: RowSpacing) -> SeedsAlong.Worked:
    """Seeds per metre of row from seeds per m2 and metres per row.

    Source: University of Kentucky Cooperative Extension, seeding rate and drill calibration for
    wheat, table of seeds per foot of row.
    """
    return SeedsAlong.Worked(seeds_per_area * row_spacing)


def plants_on_the_row(
    *, plants_per_area: PlantsPerArea, row_spacing: RowSpacing
) -> PlantsAlong.Worked:
    """Plants per metre of row from plants per m2 and metres per row.

    Source: Texas A&M AgriLife Research, rice production guidelines, plants per foot of row.
    """
    return PlantsAlong.Worked(plants_per_area * row_spacing)


def seeds_for_plants(
    *, plants_per_area: PlantsPerArea, germination: Share, emergence: Emergence
) -> SeedsWanted.Worked:
    """Seeds per m2 to drop for plants per m2.

    Emergence is plants per seed able to germinate, so the two shares are multiplied, as Manitoba
    Agriculture's extension staff do (Crop Chatter, seeding rate). Teagasc subtracts the loss
    instead, which gives another answer. Hard seed gives no plants this season and is left out.
    """
    return SeedsWanted.Worked(plants_per_area / (germination * emergence))


def rate_from_seeds(
    *, seeds_per_area: SeedsPerArea, seeds_per_weight: SeedsPerWeight
) -> BulkRate.Worked:
    """The seed to drop, in kg/m2, from seeds per m2 and seeds per kg.

    Source: University of Kentucky Cooperative Extension, seeding rate and drill calibration for
    wheat, table of pounds per acre.
    """
    return BulkRate.Worked(seeds_per_area / seeds_per_weight)


def rate_from_pure_seeds(
    *, seeds_per_area: SeedsPerArea, seeds_per_weight: SeedsPerWeight, purity: Share
) -> BulkRate.Worked:
    """The seed to drop, in kg/m2, when seeds per kg was counted in pure seed.

    The bag holds purity (more than 0, at most 1) of pure seed. Common practice, no source.
    """
    return BulkRate.Worked(seeds_per_area / seeds_per_weight / purity)


def seeds_from_rate(*, bulk_rate: Rate, seeds_per_weight: SeedsPerWeight) -> SeedsWanted.Worked:
    """Seeds per m2 that a rate in kg/m2 drops, at seeds per kg.

    Source: Iowa State University, Agronomy 212, pounds of seed per acre.
    """
    return SeedsWanted.Worked(bulk_rate * seeds_per_weight)


def rate_from_live_weight(
    *, target_live_weight: LiveRate, bulk_per_live_seed: Ratio
) -> BulkRate.Worked:
    """The seed to drop, in kg/m2, from pure live seed in kg/m2.

    Source: Texas Department of Transportation, pure live seed.
    """
    return BulkRate.Worked(target_live_weight * bulk_per_live_seed)


def rate_from_bushels(*, target_bushels: BushelRate, bushel_weight: BulkDensity) -> BulkRate.Worked:
    """The seed to drop, in kg/m2, from bushels per area (m3/m2) and what a bushel weighs (kg/m3).

    Source: the bushel as a measure of volume, 7 CFR 810.102.
    """
    return BulkRate.Worked(target_bushels * bushel_weight)


def purity_matters(*, purity: Share, purity_low: Share) -> Clean | Low:
    """Whether so much of the bag is no pure seed that the person must be asked.

    Both between 0 and 1; purity at the limit is clean. Common practice, no source.
    """
    return Clean() if at_least(purity, purity_low) else Low()
