"""Pure live seed: how much of the bag is seed of the kind, and alive.

Hard seed is alive and counts here, and nowhere else: it gives no plants this season.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    LiveSeedsPerArea,
    Rate,
    Ratio,
    SeedsPerArea,
    SeedsPerWeight,
    Share,
)
from assistant.calc.figures import at_most


class LiveShare:
    """What part of the bag is pure live seed."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """The share, more than 0 and at most 1, and its inverse."""

        live_seed_share: Share
        bulk_per_live_seed: Ratio


class LiveSeeds:
    """What is dropped for a count of pure live seeds."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """The seed to drop in kg/m2, and the seeds in it per m2, live or not."""

        bulk_rate: Rate
        seeds_per_area: SeedsPerArea


@dataclass(frozen=True, slots=True)
class Over_100:  # noqa: N801  # its name in small letters is the outcome
    """Germination and hard seed add up to more than all seeds."""


@dataclass(frozen=True, slots=True)
class NothingLive:
    """No pure live seed in the bag."""


def live_share(
    *, purity: Share, germination: Share, hard_seed: Share
) -> LiveShare.Worked | Over_100 | NothingLive:
    """The part of the bag that is pure live seed: purity x (germination + hard seed).

    All three between 0 and 1; hard seed is not inside germination (7 CFR 201.21). Source: Texas
    Department of Transportation, pure live seed; dormant seed counted as live as in the wheat
    production guide of University of Georgia Cooperative Extension.
    """
    alive = germination + hard_seed
    share = purity * alive
    if not at_most(alive, 1):
        return Over_100()
    if share <= 0:
        return NothingLive()
    return LiveShare.Worked(share, 1 / share)


def rate_from_live_seeds(
    *,
    target_live_seeds: LiveSeedsPerArea,
    bulk_per_live_seed: Ratio,
    seeds_per_weight: SeedsPerWeight,
) -> LiveSeeds.Worked:
    """The seed to drop from pure live seeds per m2 and seeds per kg.

    Source: as `live_share`; seeds to weight as in `rate_from_seeds`.
    """
    seeds_per_area = target_live_seeds * bulk_per_live_seed
    return LiveSeeds.Worked(seeds_per_area / seeds_per_weight, seeds_per_area)
