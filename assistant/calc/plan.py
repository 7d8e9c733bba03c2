"""The catch before anyone turns: rows, turns, the ground they stand for, and its weight.

Spacings are m per row, distances m per turn, ground m2, weights kg, rates kg/m2.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    Area,
    DistancePerTurn,
    Mass,
    MassPerRow,
    Rate,
    Ratio,
    Rows,
    RowSpacing,
    Share,
    Turns,
)
from assistant.calc.figures import at_least, down_to_step, up_to_step


class DriveRows:
    """The rows that one drive wheel turns."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Whole rows."""

        drive_rows: Rows


class ProposedCatch:
    """Rows to catch and turns to make."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Whole rows and whole turns."""

        proposed_rows_caught: Rows
        proposed_turns: Turns

    @dataclass(frozen=True, slots=True)
    class Coarse:
        """The scale asks for more turns than the feed: what more rows would need instead."""

        proposed_rows_caught: Rows
        proposed_turns: Turns
        rows_instead: Rows
        turns_instead: Turns


class Ground:
    """The ground that a catch stands for."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In m2."""

        ground_covered: Area


class ExpectedCatch:
    """What the catch should weigh."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg, and in kg per row."""

        target_catch: Mass
        target_catch_per_row: MassPerRow


class ExpectedReading:
    """What the scale should show, tub on."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg, with the lowest and the highest reading that are near enough."""

        expected_reading: Mass
        reading_low: Mass
        reading_high: Mass


@dataclass(frozen=True, slots=True)
class SeedAlone:
    """The scale will show the seed alone. Its step, in kg."""

    catch_step: Mass


@dataclass(frozen=True, slots=True)
class SeedAndTub:
    """The scale will show seed and tub. Its step, in kg."""

    catch_step: Mass


@dataclass(frozen=True, slots=True)
class Enough:
    """Turns and steps of the scale are enough."""

    scale_marks: Ratio


@dataclass(frozen=True, slots=True)
class FewTurns:
    """One turn miscounted would matter much."""

    scale_marks: Ratio


@dataclass(frozen=True, slots=True)
class FewMarks:
    """Fewer steps of the scale than wanted, but enough to go on."""

    scale_marks: Ratio


@dataclass(frozen=True, slots=True)
class TooFewMarks:
    """So few steps of the scale that one of them matters much."""

    scale_marks: Ratio


def whole_rows(*, row_count: Rows) -> DriveRows.Worked:
    """The rows of a drill whose one wheel turns every row."""
    return DriveRows.Worked(row_count)


def half_rows(*, row_count: Rows, one_row: Rows) -> DriveRows.Worked:
    """The rows of one half of a drill, an odd one counted to it. `one_row` is 1, with its kind."""
    return DriveRows.Worked(up_to_step(row_count / 2, one_row))


def tub_on_scale(*, tare: Mass, scale_step: Mass) -> SeedAlone | SeedAndTub:
    """What the scale shows, by steps of its own (kg): a tub of no weight (kg) was zeroed away."""
    return SeedAndTub(scale_step) if tare > 0 else SeedAlone(scale_step)


def propose_catch(
    *,
    bulk_rate: Rate,
    row_spacing: RowSpacing,
    distance_per_turn: DistancePerTurn,
    scale_step: Mass,
    drive_rows: Rows,
    marks_wanted: Ratio,
    turns_wanted: Turns,
    even_turns: Turns,
    tolerance: Share,
    rows_wanted: Rows,
    one_row: Rows,
    one_turn: Turns,
    turns_most: Turns,
) -> ProposedCatch.Worked | ProposedCatch.Coarse:
    """Rows to catch and turns to make, so that the catch is heavy enough to weigh, and even.

    Rows: those wanted or a quarter of what the wheel turns, whichever is more, but no more than
    there are. Turns: those wanted, or as many as bring the wanted steps of the scale, or
    `even_turns` over the tolerance, but no more than the most. A feed throws in pulses, so that a
    catch scatters by half a turn or so; at 2 over the tolerance that is a quarter of it. Where the
    scale asks for more turns than the feed, more rows would need fewer of them. All are
    whole; `one_row` and `one_turn` are 1, with their kinds. Rate, spacing and
    distance are more than 0. Common practice, no source.
    """
    quarter = up_to_step(drive_rows / 4, one_row)
    rows = min(drive_rows, max(rows_wanted, quarter))
    turns_of_a_row = marks_wanted * scale_step / (bulk_rate * row_spacing * distance_per_turn)
    even = max(turns_wanted, up_to_step(even_turns / tolerance, one_turn))
    turns = max(even, up_to_step(turns_of_a_row / rows, one_turn))
    if turns <= even or at_least(rows, drive_rows):
        return ProposedCatch.Worked(rows, min(turns_most, turns))
    instead = min(drive_rows, up_to_step(turns_of_a_row / even, one_row))
    fewer = max(even, up_to_step(turns_of_a_row / instead, one_turn))
    return ProposedCatch.Coarse(rows, min(turns_most, turns), instead, min(turns_most, fewer))


def ground(
    *,
    rows_caught: Rows,
    row_spacing: RowSpacing,
    turns: Turns,
    distance_per_turn: DistancePerTurn,
) -> Ground.Worked:
    """The ground in m2 that the catch stands for.

    The rows are those that were caught, not those on the drill. Source: the same sum gives the
    grams per row for a 150 ft course credited to University of Kentucky (No-Till Farmer).
    """
    return Ground.Worked(rows_caught * row_spacing * turns * distance_per_turn)


def expected_catch(
    *, bulk_rate: Rate, ground_covered: Area, rows_caught: Rows
) -> ExpectedCatch.Worked:
    """What the catch should weigh, in kg, and each of its rows.

    Source: as `ground`.
    """
    target_catch = bulk_rate * ground_covered
    return ExpectedCatch.Worked(target_catch, target_catch / rows_caught)


def expected_reading(
    *, target_catch: Mass, tare: Mass, tolerance: Share, scale_step: Mass
) -> ExpectedReading.Worked:
    """What the scale should show with the tub on, in kg, and the range that is near enough.

    The tolerance is of the seed alone, between 0 and 1. Its ends are steps that the scale shows
    (kg, more than 0), the low one up and the high one down, so that each of them is near enough;
    where no step lies between, they are left as they are. Common practice, no source.
    """
    miss = target_catch * tolerance
    reading = target_catch + tare
    low, high = reading - miss, reading + miss
    lowest, highest = up_to_step(low, scale_step), down_to_step(high, scale_step)
    if at_least(highest, lowest):
        low, high = lowest, highest
    return ExpectedReading.Worked(reading, low, high)


def enough_to_weigh(
    *,
    target_catch: Mass,
    scale_step: Mass,
    turns: Turns,
    turns_wanted: Turns,
    marks_wanted: Ratio,
    marks_least: Ratio,
) -> Enough | FewTurns | FewMarks | TooFewMarks:
    """Whether the catch (kg) is big enough for the scale and for the count of turns.

    The worst comes first: too few steps of the scale, then few turns, then few steps. A limit that
    is just met is met. Common practice, no source: half a step of 100 is 0.5 %.
    """
    scale_marks = target_catch / scale_step
    if not at_least(scale_marks, marks_least):
        return TooFewMarks(scale_marks)
    if not at_least(turns, turns_wanted):
        return FewTurns(scale_marks)
    if not at_least(scale_marks, marks_wanted):
        return FewMarks(scale_marks)
    return Enough(scale_marks)
