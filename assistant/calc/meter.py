"""The meter of an air drill: seed per turn of its shaft, and the turns that the ground needs.

Weights in kg, kg per turn; turns per m2, per kg or per second; width in m, speeds in m/s, rates
kg/m2. A turn is one of the meter shaft.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    Length,
    Mass,
    MassPerTurn,
    PulsesPerMass,
    PulsesPerTurn,
    Rate,
    Ratio,
    Share,
    Speed,
    TurnRate,
    Turns,
    TurnsPerArea,
    TurnsPerMass,
)
from assistant.calc.figures import at_least, at_most


class PerTurn:
    """What one turn of the meter brings."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg per turn."""

        weight_per_turn: MassPerTurn


class Steady:
    """Two catches of one meter, with few and with many turns."""

    @dataclass(frozen=True, slots=True)
    class Steady:
        """They bring as much per turn. In kg per turn, of all turns together."""

        weight_per_turn: MassPerTurn

    @dataclass(frozen=True, slots=True)
    class Unsteady:
        """They do not. In kg per turn, and how much more the second brings, as a share."""

        weight_per_turn: MassPerTurn
        turn_change: Share


class MeterRate:
    """The rate that the meter gives."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2."""

        meter_rate: Rate


class DriveRatio:
    """The gearing wanted."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Turns out for one turn in."""

        wanted_ratio: Ratio


class Pulses:
    """The factor of a controller that counts pulses."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In pulses per kg."""

        pulses_per_weight: PulsesPerMass


class TurnsFor:
    """The factor of a controller that counts turns."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In turns per kg."""

        turns_per_weight: TurnsPerMass


class Shaft:
    """The shaft speed that one working speed takes."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In turns per second."""

        shaft_speed: TurnRate


@dataclass(frozen=True, slots=True)
class Within:
    """The motor can do both. Turns per second at the slowest and the fastest working speed."""

    shaft_at_slowest: TurnRate
    shaft_at_fastest: TurnRate


@dataclass(frozen=True, slots=True)
class TooSlow:
    """At the slowest working speed the shaft would have to turn slower than the motor can."""

    shaft_at_slowest: TurnRate
    shaft_at_fastest: TurnRate
    speed_least: Speed


@dataclass(frozen=True, slots=True)
class TooFast:
    """At the fastest working speed the shaft would have to turn faster than the motor can."""

    shaft_at_slowest: TurnRate
    shaft_at_fastest: TurnRate
    speed_most: Speed


@dataclass(frozen=True, slots=True)
class Both:
    """Too slow and too fast: the range of speeds is wider than that of the motor."""

    shaft_at_slowest: TurnRate
    shaft_at_fastest: TurnRate
    speed_least: Speed
    speed_most: Speed


def weight_per_turn(*, meter_catch: Mass, meter_turns: Turns) -> PerTurn.Worked:
    """What one turn brings: the catch (kg) over its turns (more than 0).

    Source: North Dakota State University, AE-1144, Calibrating Drill Seed Meters.
    """
    return PerTurn.Worked(meter_catch / meter_turns)


def meter_steady(
    *,
    first_catch: Mass,
    first_turns: Turns,
    second_catch: Mass,
    second_turns: Turns,
    repeat_tolerance: Share,
) -> Steady.Steady | Steady.Unsteady:
    """Whether a second catch of the meter brings as much per turn as the first (both over 0 kg).

    They may differ by `repeat_tolerance` of the first. If not, seed bridges, a roller slips or the
    tank leaks. Common practice, no source.
    """
    together = (first_catch + second_catch) / (first_turns + second_turns)
    change = (second_catch / second_turns) / (first_catch / first_turns) - 1
    if at_most(abs(change), repeat_tolerance):
        return Steady.Steady(together)
    return Steady.Unsteady(together, change)


def meter_rate(*, weight_per_turn: MassPerTurn, turns_per_area: TurnsPerArea) -> MeterRate.Worked:
    """The rate of a ground-driven meter: seed per turn x turns per area.

    Source: as `weight_per_turn`.
    """
    return MeterRate.Worked(weight_per_turn * turns_per_area)


def gearbox_ratio(*, drive_ratio: Ratio, meter_rate: Rate, bulk_rate: Rate) -> DriveRatio.Worked:
    """The ratio that should bring the target: ratio x target / found (more than 0).

    A meter gives in proportion to its turns. Driver and driven changed round give the inverse, off
    by the ratio twice over. Common practice, no source.
    """
    return DriveRatio.Worked(drive_ratio * bulk_rate / meter_rate)


def shaft_speed(
    *, bulk_rate: Rate, working_width: Length, working_speed: Speed, weight_per_turn: MassPerTurn
) -> Shaft.Worked:
    """How fast the shaft must turn: rate x width x speed over seed per turn.

    Source: the units alone; lb/ac x mph x ft / (495 x lb per turn) gives turns per minute.
    """
    return Shaft.Worked(bulk_rate * working_width * working_speed / weight_per_turn)


def shaft_range(
    *,
    bulk_rate: Rate,
    working_width: Length,
    weight_per_turn: MassPerTurn,
    slowest_speed: Speed,
    fastest_speed: Speed,
    motor_slowest: TurnRate,
    motor_fastest: TurnRate,
) -> Within | TooSlow | TooFast | Both:
    """Whether the motor can turn the shaft as slow and as fast as the working speeds take.

    Where it can't, `speed_least` and `speed_most` are what it can keep up with. An end that is just
    met is met. Source: as `shaft_speed`.
    """
    turns_per_length = bulk_rate * working_width / weight_per_turn
    slow, fast = turns_per_length * slowest_speed, turns_per_length * fastest_speed
    least, most = motor_slowest / turns_per_length, motor_fastest / turns_per_length
    too_slow, too_fast = not at_least(slow, motor_slowest), not at_most(fast, motor_fastest)
    if too_slow and too_fast:
        return Both(slow, fast, least, most)
    if too_slow:
        return TooSlow(slow, fast, least)
    return TooFast(slow, fast, most) if too_fast else Within(slow, fast)


def pulses_by_turn(
    *, pulses_per_turn: PulsesPerTurn, weight_per_turn: MassPerTurn
) -> Pulses.Worked:
    """Pulses per kg, from pulses and seed per turn. Source: the units alone."""
    return Pulses.Worked(pulses_per_turn / weight_per_turn)


def turns_by_weight(*, weight_per_turn: MassPerTurn) -> TurnsFor.Worked:
    """Turns per kg: the inverse of seed per turn. Source: the units alone."""
    return TurnsFor.Worked(1 / weight_per_turn)
