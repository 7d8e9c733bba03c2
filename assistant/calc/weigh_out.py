"""Weigh-out: the seed that is gone over the ground that it went on.

Weights in kg, lengths in m, ground m2, rates kg/m2.
"""

from dataclasses import dataclass

from assistant.calc.contract import Area, Count, Length, Mass, Rate, Share
from assistant.calc.figures import at_most


class SeedIn:
    """The seed that went in."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg."""

        seed_in: Mass


class Seeded:
    """The ground that was driven over."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In m2: what the drill seeded, overlap twice, and the field, overlap once."""

        seeded_ground: Area
        field_ground: Area

    @dataclass(frozen=True, slots=True)
    class OverlapTooWide:
        """The overlap is as wide as the drill or wider."""


class WeighOut:
    """The rate over the ground."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2, and the seed used in kg."""

        weigh_out_rate: Rate
        seed_used: Mass

    @dataclass(frozen=True, slots=True)
    class NothingUsed:
        """As much is left as went in, or more."""


class RowsGave:
    """What the rows dropped."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2, and the share over or under the card."""

        rows_rate: Rate
        rows_off: Share


class Against:
    """A rate over the field against the one on the card."""

    @dataclass(frozen=True, slots=True)
    class Agrees:
        """Within the tolerance. The share over or under the card, here and below."""

        field_off: Share

    @dataclass(frozen=True, slots=True)
    class More:
        """More seed went on the ground."""

        field_off: Share

    @dataclass(frozen=True, slots=True)
    class Less:
        """Less seed went on the ground."""

        field_off: Share


def seed_in_bags(*, bags: Count, bag_weight: Mass, loose_seed: Mass) -> SeedIn.Worked:
    """The seed that went in: whole bags, and what was poured from an open one (kg).

    Common practice, no source.
    """
    return SeedIn.Worked(bags * bag_weight + loose_seed)


def ground_by_distance(
    *, driven_distance: Length, working_width: Length, overlap: Length
) -> Seeded.Worked | Seeded.OverlapTooWide:
    """The ground from the distance driven (m) with seed running, passes overlapping (m).

    Acres of a boundary hold the overlap once, acres of a counter twice. Common practice, no source.
    """
    if overlap >= working_width:
        return Seeded.OverlapTooWide()
    return Seeded.Worked(
        driven_distance * working_width, driven_distance * (working_width - overlap)
    )


def weigh_out(
    *, seed_in: Mass, seed_left: Mass, field_ground: Area
) -> WeighOut.Worked | WeighOut.NothingUsed:
    """The rate over a whole field or its first acres: what went in less what is left (kg).

    The ground (m2, more than 0) by the boundary, or as driven. Source: the idea of a bag and its
    acres, University of Wisconsin Extension as reported in Hay & Forage.
    """
    seed_used = seed_in - seed_left
    if seed_used <= 0:
        return WeighOut.NothingUsed()
    return WeighOut.Worked(seed_used / field_ground, seed_used)


def rows_gave(*, weigh_out_rate: Rate, card_rate: Rate, twice_per_swath: Share) -> RowsGave.Worked:
    """What the rows dropped where a boundary holds each strip once that was seeded twice.

    `twice_per_swath` (0 to under 1) of each swath lies on the last one; `card_rate` is more than 0.
    Common practice, no source.
    """
    rows_rate = weigh_out_rate * (1 - twice_per_swath)
    return RowsGave.Worked(rows_rate, rows_rate / card_rate - 1)


def against_card(
    *, weigh_out_rate: Rate, card_rate: Rate, tolerance: Share
) -> Against.Agrees | Against.More | Against.Less:
    """How a weigh-out stands to the rate that was caught, which is more than 0.

    Just at the tolerance is near enough. Common practice, no source.
    """
    field_off = weigh_out_rate / card_rate - 1
    if at_most(abs(field_off), tolerance):
        return Against.Agrees(field_off)
    return Against.More(field_off) if field_off > 0 else Against.Less(field_off)
