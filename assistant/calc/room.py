"""What a meter will drop of other seed: it gives room, not weight, so the same room at each turn.

Rates in kg/m2, spacings in m per row, distances in m per turn, densities in kg/m3; all more than 0.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    BulkDensity,
    Choice,
    DistancePerTurn,
    Length,
    ManyMasses,
    Mark,
    Rate,
    Ratio,
    RowSpacing,
    SeedsPerArea,
    SeedsPerWeight,
    Share,
    Text,
)
from assistant.calc.figures import at_least, at_most, same, to_step

OLD_AND_NEW = 2


class Room:
    """How heavy the new seed is for its room, against the old."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """New over old, and how good what is foretold from it can be, as a share."""

        density_ratio: Ratio
        foretold_within: Share


class Foretold:
    """What the drill will drop at its old setting."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2, and the change against the old rate as a share."""

        foretold_rate: Rate
        weight_change: Share


class FirstOpening:
    """The opening to start at."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In m, on a mark of the ruler that lies inside its range."""

        foretold_opening: Length

    @dataclass(frozen=True, slots=True)
    class OutOfReach:
        """What it would take, and the end of the range that is nearest to it, in m."""

        foretold_opening: Length
        needed_opening: Length


class OtherHalf:
    """The opening of the half that was not caught."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In m, on a mark of the ruler."""

        other_opening: Length


class FirstMark:
    """The lever mark to start at."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """The old mark in its range, and how far off the target it should be, as a share."""

        start_mark: Mark
        start_range: Choice
        foretold_off: Share


@dataclass(frozen=True, slots=True)
class NotTwo:
    """Not just two weights above zero."""


@dataclass(frozen=True, slots=True)
class Odd:
    """One weighs so much more than the other that one of them is a slip."""


@dataclass(frozen=True, slots=True)
class Same:
    """The crop of the card."""


@dataclass(frozen=True, slots=True)
class Other:
    """Another crop."""


class Seeds:
    """How pounds and seeds move at the old setting. Seeds per m2, changes as shares."""

    @dataclass(frozen=True, slots=True)
    class FewerPounds:
        """Pounds fall, seeds rise."""

        last_seeds: SeedsPerArea
        foretold_seeds: SeedsPerArea

    @dataclass(frozen=True, slots=True)
    class MorePounds:
        """Pounds rise, seeds fall."""

        last_seeds: SeedsPerArea
        foretold_seeds: SeedsPerArea

    @dataclass(frozen=True, slots=True)
    class Together:
        """Both the same way, or one of them stays."""

        last_seeds: SeedsPerArea
        foretold_seeds: SeedsPerArea


def same_crop(*, crop: Text, last_crop: Text) -> Same | Other:
    """Whether the crop is the one of the card, capitals aside."""
    return Same() if same(crop.casefold(), last_crop.casefold()) else Other()


def room_by_tubs(
    *, tub_weights: ManyMasses, weighed_within: Share, room_least: Ratio, room_most: Ratio
) -> Room.Worked | NotTwo | Odd:
    """From one level tub of the old seed and one of the new (kg): their ratio.

    `weighed_within` is how good it can be; `room_least` and `room_most` bound a ratio that is no
    slip. Source: test weight is the weight of a fixed volume,
    7 CFR 810.102; that a tub may stand for the bushel: common practice, no source.
    """
    if len(tub_weights) != OLD_AND_NEW or min(tub_weights) <= 0:
        return NotTwo()
    old, new = tub_weights
    if not (at_least(new / old, room_least) and at_most(new / old, room_most)):
        return Odd()
    return Room.Worked(new / old, weighed_within)


def room_by_test_weight(
    *, last_test_weight: BulkDensity, test_weight: BulkDensity, weighed_within: Share
) -> Room.Worked:
    """From the test weight of both lots: their ratio.

    Source: North Dakota State University, AE-1144: drill meters are volumetric.
    """
    return Room.Worked(test_weight / last_test_weight, weighed_within)


def room_by_trade(
    *, last_crop_weight: BulkDensity, crop_weight: BulkDensity, by_crop_within: Share
) -> Room.Worked:
    """From what the trade takes a bushel of each crop to weigh: rough.

    Common practice, no source.
    """
    return Room.Worked(crop_weight / last_crop_weight, by_crop_within)


def room_as_before(*, one_to_one: Ratio, unweighed_within: Share) -> Room.Worked:
    """The new seed taken as heavy as the old: rougher still. Common practice, no source."""
    return Room.Worked(one_to_one, unweighed_within)


def foretell_rate(
    *,
    last_rate: Rate,
    last_spacing: RowSpacing,
    last_distance: DistancePerTurn,
    row_spacing: RowSpacing,
    distance_per_turn: DistancePerTurn,
    density_ratio: Ratio,
) -> Foretold.Worked:
    """What the old setting drops of the new seed: the same room per turn and row.

    Source: North Dakota State University, AE-1144: drill meters are volumetric.
    """
    room_and_ground = (last_spacing * last_distance) / (row_spacing * distance_per_turn)
    foretold_rate = last_rate * density_ratio * room_and_ground
    return Foretold.Worked(foretold_rate, foretold_rate / last_rate - 1)


def foretell_seeds(
    *,
    last_rate: Rate,
    foretold_rate: Rate,
    last_seed_size: SeedsPerWeight,
    seeds_per_weight: SeedsPerWeight,
) -> Seeds.FewerPounds | Seeds.MorePounds | Seeds.Together:
    """The seeds that fall at the old setting, before and now, and whether pounds go the other way.

    Source: as `foretell_rate`.
    """
    last_seeds, foretold_seeds = last_rate * last_seed_size, foretold_rate * seeds_per_weight
    heavier, more = foretold_rate / last_rate - 1, foretold_seeds / last_seeds - 1
    if heavier < 0 < more:
        return Seeds.FewerPounds(last_seeds, foretold_seeds)
    if more < 0 < heavier:
        return Seeds.MorePounds(last_seeds, foretold_seeds)
    return Seeds.Together(last_seeds, foretold_seeds)


class StartByCard:
    """A start that a card of this drill foretells."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """A share."""

        start_may_miss: Share


def start_by_card(*, foretold_within: Share) -> StartByCard.Worked:
    """How far a start may miss that is foretold to within a share at best: twice as far.

    Common practice, no source.
    """
    return StartByCard.Worked(2 * foretold_within)


def foretell_opening(
    *,
    last_opening: Length,
    foretold_rate: Rate,
    bulk_rate: Rate,
    opening_step: Length,
    widest_opening: Length,
    narrowest_opening: Length,
) -> FirstOpening.Worked | FirstOpening.OutOfReach:
    """The opening that should drop the target, in proportion, on a mark of the ruler.

    Where that lies outside it is told, with the end of the range. Source: fluted rollers give in
    proportion to their opening, common practice, no source.
    """
    aim = to_step(last_opening * bulk_rate / foretold_rate, opening_step)
    inside = max(narrowest_opening, min(widest_opening, aim))
    if same(inside, aim):
        return FirstOpening.Worked(aim)
    return FirstOpening.OutOfReach(inside, aim)


def foretell_mark(
    *, last_mark: Mark, last_range: Choice, foretold_rate: Rate, bulk_rate: Rate
) -> FirstMark.Worked:
    """The old mark: a mark is a place, so one card tells no other. Common practice, no source."""
    return FirstMark.Worked(last_mark, last_range, foretold_rate / bulk_rate - 1)


def opening_by_same_share(
    *, last_other_opening: Length, last_opening: Length, final_opening: Length, opening_step: Length
) -> OtherHalf.Worked:
    """The opening of the other half, moved by the same share as the half that was caught.

    Source: as `foretell_opening`.
    """
    moved = last_other_opening * final_opening / last_opening
    return OtherHalf.Worked(to_step(moved, opening_step))
