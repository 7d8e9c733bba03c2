"""The ground that one turn of the drive wheel covers, in metres per turn."""

from dataclasses import dataclass
from math import pi

from assistant.calc.contract import DistancePerTurn, Length, Turns
from assistant.calc.figures import at_least, at_most


@dataclass(frozen=True, slots=True)
class Worked:
    """In metres per turn."""

    distance_per_turn: DistancePerTurn


class Turn:
    """What one turn covers, against what most cover."""

    @dataclass(frozen=True, slots=True)
    class Usual:
        """As most."""

    @dataclass(frozen=True, slots=True)
    class Unusual:
        """Less or more than most: look for a slip."""


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


def turn_against_usual(
    *, distance_per_turn: DistancePerTurn, turn_least: DistancePerTurn, turn_most: DistancePerTurn
) -> Turn.Usual | Turn.Unusual:
    """Whether one turn covers what most do, ends included. All in m per turn.

    Common practice, no source.
    """
    small = not at_least(distance_per_turn, turn_least)
    large = not at_most(distance_per_turn, turn_most)
    return Turn.Unusual() if small or large else Turn.Usual()
