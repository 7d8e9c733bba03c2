"""A crank or a meter shaft: the ground that its turns stand for.

Turns per area are turns per m2 of the whole drill, for one width, one tyre and one gear. Distances
in m, m per turn; ground m2; weights kg; rates kg/m2.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    Area,
    DistancePerTurn,
    Length,
    Mass,
    Rate,
    Ratio,
    Rows,
    Turns,
    TurnsPerArea,
)
from assistant.calc.figures import to_step, up_to_step
from assistant.calc.plan import Ground


class PerArea:
    """The turns that stand for ground."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In turns per m2."""

        turns_per_area: TurnsPerArea


class WholeTurns:
    """Turns that can be counted."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Whole turns, and the ground of the whole drill (m2) that just these stand for."""

        proposed_turns: Turns
        turns_ground: Area


def turns_by_plate(*, plate_turns: Turns, plate_ground: Area) -> PerArea.Worked:
    """Turns per area from the plate or the manual of the machine: so many turns are so much ground.

    Common practice, no source.
    """
    return PerArea.Worked(plate_turns / plate_ground)


def turns_by_roll(
    *, rolled_turns: Turns, rolled_distance: Length, working_width: Length
) -> PerArea.Worked:
    """Turns per area from a roll: turns of the crank or meter shaft over a distance (more than 0).

    Source: North Dakota State University, AE-1144, turns of the meter shaft over a measured
    distance, from memory.
    """
    return PerArea.Worked(rolled_turns / (rolled_distance * working_width))


def turns_by_distance(
    *, distance_per_turn: DistancePerTurn, working_width: Length
) -> PerArea.Worked:
    """Turns per area from the distance that one turn drives. Common practice, no source."""
    return PerArea.Worked(1 / (distance_per_turn * working_width))


def turns_for_ground(
    *, wanted_ground: Area, turns_per_area: TurnsPerArea, one_turn: Turns
) -> WholeTurns.Worked:
    """The whole turns nearest to the ground wanted, and the ground that they stand for.

    66.7 turns can't be made: 67 stand for a little more. `one_turn` is 1, with its kind; at least
    one is made. Common practice, no source.
    """
    turns = max(one_turn, to_step(wanted_ground * turns_per_area, one_turn))
    return WholeTurns.Worked(turns, turns / turns_per_area)


def turns_to_weigh(
    *,
    bulk_rate: Rate,
    turns_per_area: TurnsPerArea,
    rows_caught: Rows,
    row_count: Rows,
    scale_step: Mass,
    marks_wanted: Ratio,
    turns_wanted: Turns,
    turns_most: Turns,
    one_turn: Turns,
) -> WholeTurns.Worked:
    """The turns that bring a catch heavy enough for the scale, by the rule of `propose_catch`.

    `row_count` rows make the ground of a turn, `rows_caught` of them are caught. Common practice,
    no source.
    """
    catch_of_a_turn = bulk_rate / turns_per_area * rows_caught / row_count
    turns = up_to_step(marks_wanted * scale_step / catch_of_a_turn, one_turn)
    turns = min(turns_most, max(turns_wanted, turns))
    return WholeTurns.Worked(turns, turns / turns_per_area)


def ground_of_turns(
    *, turns: Turns, turns_per_area: TurnsPerArea, rows_caught: Rows, row_count: Rows
) -> Ground.Worked:
    """The ground that a catch stands for, by the turns that were made, not those proposed.

    Of all rows the catch may hold some. Source: as `ground`.
    """
    return Ground.Worked(turns / turns_per_area * (rows_caught / row_count))
