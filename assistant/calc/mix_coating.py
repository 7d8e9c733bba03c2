"""Coating in a mix: it weighs and holds no seed, so it is taken off once, kind by kind.

Lists run side by side, one place for each species. Seeds per kg, shares between 0 and 1.
"""

from dataclasses import dataclass

from assistant.calc.contract import ManySeedSizes, ManyShares, SeedsPerWeight
from assistant.calc.figures import at_most
from assistant.calc.mixes import NotPaired, paired
from assistant.calc.small_seed import Size, Uncoated, live_share_uncoated, often_coated


class MixUncoated:
    """How much of each species is pure and alive, its coating left out."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """A share of each, of what is not coating."""

        species_live_uncoated: ManyShares

    @dataclass(frozen=True, slots=True)
    class AllBare:
        """None of them is coated."""

    @dataclass(frozen=True, slots=True)
    class Over_100:  # noqa: N801  # its name in small letters is the outcome
        """Purity and coating of one add up to more than its bag."""


class MixSizes:
    """Seeds per weight of each species as it lies in its bag."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In seeds per kg, coated where it is coated."""

        coated_seed_sizes: ManySeedSizes


def kinds_often_coated(
    *, species_seed_sizes: ManySeedSizes, coated_from: SeedsPerWeight
) -> Size.Small | Size.Large:
    """Whether the smallest seed of a mix is so small that it is often sold coated.

    Common practice, no source.
    """
    return often_coated(seeds_per_weight=max(species_seed_sizes), coated_from=coated_from)


def mix_live_uncoated(
    *, species_live_shares: ManyShares, species_purity: ManyShares, species_coating: ManyShares
) -> MixUncoated.Worked | MixUncoated.AllBare | MixUncoated.Over_100 | NotPaired:
    """The live share of each species, its coating (under 1, 0 where bare) taken out of the bag.

    Source: as `live_share_uncoated`, for each species by itself.
    """
    if not paired(species_live_shares, species_purity, species_coating):
        return NotPaired()
    if at_most(max(species_coating), 0):
        return MixUncoated.AllBare()
    columns = zip(species_live_shares, species_purity, species_coating, strict=True)
    each = [
        live_share_uncoated(live_seed_share=live, purity=purity, coating=coating)
        for live, purity, coating in columns
    ]
    worked = tuple(one.live_share_uncoated for one in each if isinstance(one, Uncoated.Worked))
    return MixUncoated.Worked(worked) if len(worked) >= len(each) else MixUncoated.Over_100()


def mix_coated_sizes(
    *, bare_seed_sizes: ManySeedSizes, species_coating: ManyShares
) -> MixSizes.Worked | NotPaired:
    """Seeds per kg of each species in its bag, from those of bare seed.

    Source: as `coated_seed_size`, for each species by itself.
    """
    if not paired(bare_seed_sizes, species_coating):
        return NotPaired()
    pairs = zip(bare_seed_sizes, species_coating, strict=True)
    return MixSizes.Worked(tuple(size * (1 - coating) for size, coating in pairs))
