"""The factor of a controller, corrected by what was weighed against what it showed.

More weighed than shown: the machine puts out more than it thinks. A factor that is weight per turn
then goes up; one that is pulses or turns per weight goes down. Weights in kg, both more than 0.
"""

from dataclasses import dataclass

from assistant.calc.contract import Mass, MassPerTurn, PulsesPerMass, Share, TurnsPerMass
from assistant.calc.figures import at_most


class PerTurn:
    """A factor in weight per turn. New factor in kg per turn; by how much it moved, as a share."""

    @dataclass(frozen=True, slots=True)
    class Up:
        """More was weighed than shown."""

        new_weight_per_turn: MassPerTurn
        factor_change: Share

    @dataclass(frozen=True, slots=True)
    class Down:
        """Less was weighed than shown."""

        new_weight_per_turn: MassPerTurn
        factor_change: Share


class Pulses:
    """A factor in pulses per kg."""

    @dataclass(frozen=True, slots=True)
    class Up:
        """Less was weighed than shown."""

        new_pulses_per_weight: PulsesPerMass
        factor_change: Share

    @dataclass(frozen=True, slots=True)
    class Down:
        """More was weighed than shown."""

        new_pulses_per_weight: PulsesPerMass
        factor_change: Share


class Turns:
    """A factor in turns per kg."""

    @dataclass(frozen=True, slots=True)
    class Up:
        """Less was weighed than shown."""

        new_turns_per_weight: TurnsPerMass
        factor_change: Share

    @dataclass(frozen=True, slots=True)
    class Down:
        """More was weighed than shown."""

        new_turns_per_weight: TurnsPerMass
        factor_change: Share


@dataclass(frozen=True, slots=True)
class Stays:
    """Weighed and shown agree: the factor is left alone."""


class Corrected:
    """What a catch after the correction tells. Weighed over shown, less 1, before and now."""

    @dataclass(frozen=True, slots=True)
    class Mended:
        """Weighed and shown agree."""

        shown_off: Share

    @dataclass(frozen=True, slots=True)
    class WrongWay:
        """Off by the first miss twice over: the factor went the wrong way."""

        shown_off: Share
        first_off: Share

    @dataclass(frozen=True, slots=True)
    class NotMoved:
        """Off as before: the machine did not take the new factor."""

        shown_off: Share

    @dataclass(frozen=True, slots=True)
    class StillOff:
        """Off in some other way."""

        shown_off: Share


def correct_weight_per_turn(
    *, old_weight_per_turn: MassPerTurn, weighed: Mass, shown: Mass, repeat_tolerance: Share
) -> PerTurn.Up | PerTurn.Down | Stays:
    """A factor in weight per turn, corrected: old x weighed / shown.

    Within `repeat_tolerance` it stays. Source: what the factor means; direction, common practice,
    no source.
    """
    ratio = weighed / shown
    if at_most(abs(ratio - 1), repeat_tolerance):
        return Stays()
    way = PerTurn.Up if ratio > 1 else PerTurn.Down
    return way(old_weight_per_turn * ratio, ratio - 1)


def correct_pulses(
    *, old_pulses_per_weight: PulsesPerMass, weighed: Mass, shown: Mass, repeat_tolerance: Share
) -> Pulses.Up | Pulses.Down | Stays:
    """A factor in pulses per weight, corrected: old x shown / weighed.

    Source: as `correct_weight_per_turn`.
    """
    ratio = shown / weighed
    if at_most(abs(weighed / shown - 1), repeat_tolerance):
        return Stays()
    way = Pulses.Up if ratio > 1 else Pulses.Down
    return way(old_pulses_per_weight * ratio, ratio - 1)


def correct_turns(
    *, old_turns_per_weight: TurnsPerMass, weighed: Mass, shown: Mass, repeat_tolerance: Share
) -> Turns.Up | Turns.Down | Stays:
    """A factor in turns per weight, corrected: old x shown / weighed.

    Source: as `correct_weight_per_turn`.
    """
    ratio = shown / weighed
    if at_most(abs(weighed / shown - 1), repeat_tolerance):
        return Stays()
    way = Turns.Up if ratio > 1 else Turns.Down
    return way(old_turns_per_weight * ratio, ratio - 1)


def correction_worked(
    *,
    first_weighed: Mass,
    first_shown: Mass,
    weighed: Mass,
    shown: Mass,
    tolerance: Share,
    repeat_tolerance: Share,
) -> Corrected.Mended | Corrected.WrongWay | Corrected.NotMoved | Corrected.StillOff:
    """What the catch after a correction tells of the correction.

    Within `tolerance` it is mended. A factor moved the wrong way squares the ratio; one that was
    not taken leaves it; both judged within twice the `repeat_tolerance`, as two catches are in it.
    Source: the factor put in twice; common practice, no source.
    """
    first, now = first_weighed / first_shown, weighed / shown
    if at_most(abs(now - 1), tolerance):
        return Corrected.Mended(now - 1)
    squared, same = abs(now / first**2 - 1), abs(now / first - 1)
    if min(squared, same) > 2 * repeat_tolerance:
        return Corrected.StillOff(now - 1)
    if same < squared:
        return Corrected.NotMoved(now - 1)
    return Corrected.WrongWay(now - 1, first - 1)
