"""The speed that an electric meter goes by, checked with flags and a watch.

Lengths in m, times in s, speeds in m/s.
"""

from dataclasses import dataclass

from assistant.calc.contract import Length, Share, Speed, Time, TurnRate
from assistant.calc.figures import at_most


class Timed:
    """The true speed."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In m/s."""

        measured_speed: Speed


class Shown:
    """The speed shown against the true one: by how much of the true one it is off."""

    @dataclass(frozen=True, slots=True)
    class Agrees:
        """Near enough."""

        speed_off: Share

    @dataclass(frozen=True, slots=True)
    class ShowsFast:
        """The controller takes the drill for faster, and seeds as much too heavy."""

        speed_off: Share

    @dataclass(frozen=True, slots=True)
    class ShowsSlow:
        """The controller takes the drill for slower, and seeds as much too light."""

        speed_off: Share


class Order:
    """Two ends as they were told."""

    @dataclass(frozen=True, slots=True)
    class InOrder:
        """The lower end was told first."""

    @dataclass(frozen=True, slots=True)
    class TurnedRound:
        """The upper end was told first."""


def speeds_in_order(
    *, slowest_speed: Speed, fastest_speed: Speed
) -> Order.InOrder | Order.TurnedRound:
    """Whether the slowest speed (m/s) was told before the fastest. Common practice, no source."""
    return Order.InOrder() if at_most(slowest_speed, fastest_speed) else Order.TurnedRound()


def motor_in_order(
    *, motor_slowest: TurnRate, motor_fastest: TurnRate
) -> Order.InOrder | Order.TurnedRound:
    """The same for a motor, in turns a second. Common practice, no source."""
    return Order.InOrder() if at_most(motor_slowest, motor_fastest) else Order.TurnedRound()


def speed_by_time(*, timed_distance: Length, time_taken: Time) -> Timed.Worked:
    """The true speed: a distance (m) over the time for it (s, more than 0).

    Source: the units alone; 88 ft in a minute are 1 mph.
    """
    return Timed.Worked(timed_distance / time_taken)


def speed_shown(
    *, shown_speed: Speed, measured_speed: Speed, tolerance: Share
) -> Shown.Agrees | Shown.ShowsFast | Shown.ShowsSlow:
    """Whether the speed that the controller shows is the true one (m/s, more than 0).

    The meter turns with the speed shown, so the rate is off by the same share.
    Common practice, no source.
    """
    off = shown_speed / measured_speed - 1
    if at_most(abs(off), tolerance):
        return Shown.Agrees(off)
    return Shown.ShowsFast(off) if off > 0 else Shown.ShowsSlow(off)
