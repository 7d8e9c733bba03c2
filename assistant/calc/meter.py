"""The meter of an air drill: seed per turn of its shaft, and the turns that the ground needs.

Weights in kg, kg per turn; turns per m2, per kg or per second; width in m, speeds in m/s, rates
kg/m2. A turn is one of the meter shaft.
"""

from dataclasses import dataclass

from assistant.calc.catches import agree
from assistant.calc.contract import (
    Length,
    Mass,
    MassPerTurn,
    MeterCatch,
    PulsesPerMass,
    PulsesPerTurn,
    Rate,
    Ratio,
    Share,
    Speed,
    TurnRate,
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


class MeterJudged:
    """Catches of one meter. In kg a turn, of those that agree."""

    @dataclass(frozen=True, slots=True)
    class First:
        """One catch alone."""

        weight_per_turn: MassPerTurn

    @dataclass(frozen=True, slots=True)
    class Agree:
        """The last brings as much a turn as one before it."""

        weight_per_turn: MassPerTurn

    @dataclass(frozen=True, slots=True)
    class Apart:
        """None before brings as much a turn as the last; of the last alone."""

        weight_per_turn: MassPerTurn

    @dataclass(frozen=True, slots=True)
    class NothingCame:
        """No seed came with the last."""


class OnScale:
    """A weight against what a scale can tell."""

    @dataclass(frozen=True, slots=True)
    class Enough:
        """One step of the scale matters little."""

    @dataclass(frozen=True, slots=True)
    class Light:
        """It depends on the scale. In kg."""

        light_weight: Mass


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


def heavy_enough(*, weighed: Mass, heavy_from: Mass) -> OnScale.Enough | OnScale.Light:
    """Whether a weight (kg) tells enough on any scale that is used for it, from `heavy_from` on.

    No seed at all needs no scale. Common practice, no source.
    """
    heavy = weighed <= 0 or at_least(weighed, heavy_from)
    return OnScale.Enough() if heavy else OnScale.Light(weighed)


def judge_meter(
    *, meter_catches: tuple[MeterCatch, ...], repeat_tolerance: Share
) -> MeterJudged.First | MeterJudged.Agree | MeterJudged.Apart | MeterJudged.NothingCame:
    """Whether catches of the meter bring as much a turn, whatever turns each was made with.

    Two agree if their weights a turn differ by no more than `repeat_tolerance` of their mean; the
    last and all that agree with it count, all turns together. If none does, seed bridges, a roller
    slips or the tank leaks. Raises IndexError without a catch. Source: North Dakota State
    University, AE-1144, weight over turns; that catches must agree, common practice, no source.
    """
    *earlier, last = meter_catches
    if last.meter_catch <= 0:
        return MeterJudged.NothingCame()
    before = [each for each in earlier if each.meter_catch > 0]
    agreed = [each for each in before if agree(a_turn(each), a_turn(last), repeat_tolerance)]
    counted = [*agreed, last]
    together = sum(each.meter_catch for each in counted) / sum(each.meter_turns for each in counted)
    if agreed:
        return MeterJudged.Agree(together)
    return MeterJudged.Apart(together) if before else MeterJudged.First(together)


def a_turn(catch: MeterCatch) -> float:
    """What one turn brought, in kg."""
    return catch.meter_catch / catch.meter_turns


def meter_rate(*, weight_per_turn: MassPerTurn, turns_per_area: TurnsPerArea) -> MeterRate.Worked:
    """The rate of a ground-driven meter: seed per turn x turns per area.

    Source: as `judge_meter`.
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


def turn_by_pulses(
    *, pulses_per_turn: PulsesPerTurn, set_pulses_per_weight: PulsesPerMass
) -> PerTurn.Worked:
    """What a turn brings by a factor in pulses a weight. Source: the units alone."""
    return PerTurn.Worked(pulses_per_turn / set_pulses_per_weight)


def turn_by_turns(*, set_turns_per_weight: TurnsPerMass) -> PerTurn.Worked:
    """What a turn brings by a factor in turns a weight. Source: the units alone."""
    return PerTurn.Worked(1 / set_turns_per_weight)


def turn_by_factor(*, set_weight_per_turn: MassPerTurn) -> PerTurn.Worked:
    """What a turn brings by a factor that tells just that. Source: the units alone."""
    return PerTurn.Worked(set_weight_per_turn)
