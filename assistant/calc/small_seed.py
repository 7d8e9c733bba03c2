"""Small seed: coating that is counted once.

Seeds per kg, shares between 0 and 1.
"""

from dataclasses import dataclass

from assistant.calc.contract import Ratio, SeedsPerWeight, Share
from assistant.calc.figures import at_most


class Uncoated:
    """What is pure live seed, with the coating taken out of the bag."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """A share of what is not coating, and 1 over it."""

        live_share_uncoated: Share
        seeds_per_live_seed: Ratio

    @dataclass(frozen=True, slots=True)
    class Over_100:  # noqa: N801  # its name in small letters is the outcome
        """Purity and coating add up to more than the bag."""


class CoatedSeed:
    """Seeds per weight of what is in the bag."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In seeds per kg of coated seed."""

        coated_seed_size: SeedsPerWeight


def live_share_uncoated(
    *, live_seed_share: Share, purity: Share, coating: Share
) -> Uncoated.Worked | Uncoated.Over_100:
    """Pure live seed where seeds per weight was told for coated seed, which carries the coating.

    The tag lists coating (under 1) by itself or within inert matter, so that purity is low by it;
    left in, the coating would be taken off twice. Common practice, no source.
    """
    if not at_most(purity + coating, 1):
        return Uncoated.Over_100()
    share = live_seed_share / (1 - coating)
    return Uncoated.Worked(share, 1 / share)


def coated_seed_size(*, bare_seeds_per_weight: SeedsPerWeight, coating: Share) -> CoatedSeed.Worked:
    """Seeds per kg of coated seed from those of bare seed: the coating weighs and holds no seed.

    For seed that is counted out of the bag, chaff apart. Common practice, no source.
    """
    return CoatedSeed.Worked(bare_seeds_per_weight * (1 - coating))
