"""A meter shaft that is rolled: its turns per area.

Turns per m2 of the whole drill, for one width, one tyre and one gear. Distances in m.
"""

from dataclasses import dataclass

from assistant.calc.contract import Length, Turns, TurnsPerArea


class PerArea:
    """The turns that stand for ground."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In turns per m2."""

        turns_per_area: TurnsPerArea


def turns_by_roll(
    *, rolled_turns: Turns, rolled_distance: Length, working_width: Length
) -> PerArea.Worked:
    """Turns per area from a roll: turns of the crank or meter shaft over a distance (more than 0).

    Source: North Dakota State University, AE-1144, turns of the meter shaft over a measured
    distance, from memory.
    """
    return PerArea.Worked(rolled_turns / (rolled_distance * working_width))
