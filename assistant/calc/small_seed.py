"""Small seed: a catch that a scale can weigh, and coating that is counted once.

Rates kg/m2, spacings m per row, distances m and m per turn, weights kg, seeds per kg, shares
between 0 and 1.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    DistancePerTurn,
    Length,
    Mass,
    Rate,
    Ratio,
    Rows,
    RowSpacing,
    SeedsPerWeight,
    Share,
    Turns,
)
from assistant.calc.figures import at_least, at_most, up_to_step
from assistant.calc.plan import ProposedCatch, propose_catch


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


class Size:
    """Seed by its size."""

    @dataclass(frozen=True, slots=True)
    class Small:
        """As small as clover, or smaller."""

    @dataclass(frozen=True, slots=True)
    class Large:
        """Larger."""


class CoatedSeed:
    """Seeds per weight of what is in the bag."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In seeds per kg of coated seed."""

        coated_seed_size: SeedsPerWeight


def propose_small_catch(
    *,
    bulk_rate: Rate,
    row_spacing: RowSpacing,
    distance_per_turn: DistancePerTurn,
    scale_step: Mass,
    drive_rows: Rows,
    marks_wanted: Ratio,
    small_rows_wanted: Rows,
    small_distance: Length,
    even_turns: Turns,
    tolerance: Share,
    one_row: Rows,
    one_turn: Turns,
    turns_most: Turns,
) -> ProposedCatch.Worked | ProposedCatch.Coarse:
    """Rows and turns for small seed: more rows and more ground, by the rule of `propose_catch`.

    The turns cover at least `small_distance` (m), such as 200 ft. Common practice, no source.
    """
    return propose_catch(
        bulk_rate=bulk_rate,
        row_spacing=row_spacing,
        distance_per_turn=distance_per_turn,
        scale_step=scale_step,
        drive_rows=drive_rows,
        marks_wanted=marks_wanted,
        turns_wanted=up_to_step(small_distance / distance_per_turn, one_turn),
        even_turns=even_turns,
        tolerance=tolerance,
        rows_wanted=small_rows_wanted,
        one_row=one_row,
        one_turn=one_turn,
        turns_most=turns_most,
    )


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


def often_coated(
    *, seeds_per_weight: SeedsPerWeight, coated_from: SeedsPerWeight
) -> Size.Small | Size.Large:
    """Whether seed is so small that it is often sold coated. Both in seeds per kg.

    Common practice, no source.
    """
    return Size.Small() if at_least(seeds_per_weight, coated_from) else Size.Large()
