"""The ground that one turn of the drive wheel covers, in metres per turn."""

from dataclasses import dataclass
from math import pi

from assistant.calc.contract import DistancePerTurn, Length, Turns


@dataclass(frozen=True, slots=True)
class Worked:
    """In metres per turn."""

    distance_per_turn: DistancePerTurn


def rolled_distance_per_turn(*, rolled_turns: Turns, rolled_distance: Length) -> Worked:
    """Distance per turn from a roll: how far (m) it went in how many turns (more than 0).

    The best way: squat and skid are in it. Source: Southeast Farm Press, field count of turns over
    a measured distance.
    """
    return Worked(rolled_distance / rolled_turns)


def axle_distance_per_turn(*, axle_height: Length, one_turn: Turns) -> Worked:
    """Distance per turn from the height (m) of the loaded axle: 2 x pi x height.

    A last resort. Source: the circle; University of Maryland Extension takes pi x diameter, which
    leaves the squat of the tyre out. `one_turn` is 1, with its kind.
    """
    return Worked(2 * pi * axle_height / one_turn)
