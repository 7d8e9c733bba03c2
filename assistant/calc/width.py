"""The width that is seeded: what overlap, a clutch, tramlines and shut rows do to the field.

Live rows keep what they drop; only what is divided by the ground changes. Lengths in m, spacings m
per row, ground m2, rates kg/m2, changes as shares.
"""

from dataclasses import dataclass

from assistant.calc.contract import Area, Count, Length, Rate, Rows, RowSpacing, Share
from assistant.calc.figures import at_most


class WidthSet:
    """The width that a powered meter goes by, against that of the rows."""

    @dataclass(frozen=True, slots=True)
    class Right:
        """The same, near enough."""

    @dataclass(frozen=True, slots=True)
    class TooWide:
        """The meter turns for more ground: the field gets as much too much. A share over 0."""

        width_off: Share

    @dataclass(frozen=True, slots=True)
    class TooNarrow:
        """The meter turns for less ground: the field gets as much too little. A share over 0."""

        width_off: Share


class Overlap:
    """What overlap adds."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """More seed on each acre of the field; that part of each swath that is seeded twice."""

        more_per_field: Share
        twice_per_swath: Share
        field_rate: Rate

    @dataclass(frozen=True, slots=True)
    class TooWide:
        """As wide as the drill, or wider."""


class Clutch:
    """Part of the drill shut off."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """The ground that was seeded, and the rate that the counter's ground would make of it."""

        real_ground: Area
        counter_rate: Rate


class Tramlines:
    """Rows shut for the wheels of a later machine."""

    @dataclass(frozen=True, slots=True)
    class EachMeter:
        """Live rows keep the rate, the field gets less; the rate to set if it is to be made up."""

        live_row_rate: Rate
        field_rate: Rate
        field_change: Share
        made_up_rate: Rate

    @dataclass(frozen=True, slots=True)
    class SharedMeter:
        """The field keeps the rate; live rows of a pass with tramlines get more."""

        live_row_rate: Rate
        field_rate: Rate
        live_row_change: Share

    @dataclass(frozen=True, slots=True)
    class NoRowLeft:
        """All rows are shut, or more."""


class Dropping:
    """Rows that are left to drop seed."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """The rows, the space between just these, and what the field gets less at one setting."""

        dropping_rows: Rows
        dropping_spacing: RowSpacing
        field_change: Share

    @dataclass(frozen=True, slots=True)
    class NoRowLeft:
        """All rows are shut, or more."""


def width_as_set(
    *, width_set: Length, working_width: Length, width_agreement: Share
) -> WidthSet.Right | WidthSet.TooWide | WidthSet.TooNarrow:
    """Whether the width set (m) is that of the rows, as a powered meter turns in proportion to it.

    Common practice, no source.
    """
    off = width_set / working_width - 1
    if at_most(abs(off), width_agreement):
        return WidthSet.Right()
    return WidthSet.TooWide(off) if off > 0 else WidthSet.TooNarrow(-off)


def overlap_more(
    *, bulk_rate: Rate, working_width: Length, overlap: Length
) -> Overlap.Worked | Overlap.TooWide:
    """What an overlap (m) of each pass on the last does to the field.

    Each pass covers width - overlap of new ground. So 6 in on 15 ft is 3.4 in 100 more per acre of
    field (0.5 / 14.5), and 3.3 in 100 of each swath lie double (0.5 / 15).
    Common practice, no source.
    """
    if overlap >= working_width:
        return Overlap.TooWide()
    new_ground = working_width - overlap
    return Overlap.Worked(
        overlap / new_ground, overlap / working_width, bulk_rate * working_width / new_ground
    )


def part_shut_off(
    *, counter_ground: Area, live_rows: Rows, row_count: Rows, bulk_rate: Rate
) -> Clutch.Worked:
    """The real ground where a counter driven by the wheel went on at full width.

    Real acres fall with the live rows (1 or more); the counter's do not until it is told. Live rows
    drop as before. Common practice, no source.
    """
    live = live_rows / row_count
    return Clutch.Worked(counter_ground * live, bulk_rate * live)


def tramlines_each_meter(
    *, bulk_rate: Rate, row_count: Rows, tram_rows: Rows, tram_passes: Count
) -> Tramlines.EachMeter | Tramlines.NoRowLeft:
    """Rows shut in one of so many passes (1 or more), where each row has its own meter.

    2 of 24 rows in every third pass: 2.8 in 100 less per field. Common practice, no source.
    """
    if tram_rows >= row_count:
        return Tramlines.NoRowLeft()
    kept = 1 - tram_rows / (row_count * tram_passes)
    return Tramlines.EachMeter(bulk_rate, bulk_rate * kept, kept - 1, bulk_rate / kept)


def tramlines_shared_meter(
    *, bulk_rate: Rate, row_count: Rows, tram_rows: Rows
) -> Tramlines.SharedMeter | Tramlines.NoRowLeft:
    """Rows shut where one meter feeds them all and goes on as before: the others get their seed.

    In the pass that has the tramlines; a meter that slows down is as `tramlines_each_meter`. Common
    practice, no source.
    """
    if tram_rows >= row_count:
        return Tramlines.NoRowLeft()
    return shut_on_shared_meter(
        bulk_rate=bulk_rate, row_count=row_count, dropping_rows=row_count - tram_rows
    )


def shut_on_shared_meter(
    *, bulk_rate: Rate, row_count: Rows, dropping_rows: Rows
) -> Tramlines.SharedMeter:
    """What rows that drop (1 or more) get where one meter feeds all and goes on as before.

    They get the seed of those that are shut, and the field keeps its rate.
    Common practice, no source.
    """
    more = row_count / dropping_rows
    return Tramlines.SharedMeter(bulk_rate * more, bulk_rate, more - 1)


def rows_shut(
    *, row_count: Rows, shut_rows: Rows, row_spacing: RowSpacing
) -> Dropping.Worked | Dropping.NoRowLeft:
    """Rows shut on purpose, evenly across the drill, as every second one for beans.

    The width stays, so that the space between the rows that drop grows. At one setting each of them
    drops as before, and the field gets less. Common practice, no source.
    """
    if shut_rows >= row_count:
        return Dropping.NoRowLeft()
    dropping_rows = row_count - shut_rows
    spacing = row_spacing * row_count / dropping_rows
    return Dropping.Worked(dropping_rows, spacing, dropping_rows / row_count - 1)
