"""Drives that move in steps: sprockets of a double run, positions of a gearbox.

Ratios are shaft turns for one turn of the wheel; rates kg/m2.
"""

from dataclasses import dataclass

from assistant.calc.aiming import on_line
from assistant.calc.catches import Tried
from assistant.calc.contract import Count, ManyRatios, Mark, Rate, Ratio, Share
from assistant.calc.figures import same, to_step


class ByTeeth:
    """The ratio of two sprockets."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Turns of the driven one for a turn of the driver."""

        sprocket_ratio: Ratio


class Sprockets:
    """The ratios nearest to the target, and what each misses it by, as shares."""

    @dataclass(frozen=True, slots=True)
    class Between:
        """One is light and one is heavy."""

        light_ratio: Ratio
        light_off: Share
        heavy_ratio: Ratio
        heavy_off: Share

    @dataclass(frozen=True, slots=True)
    class Meets:
        """One brings the target."""

        wanted_ratio: Ratio

    @dataclass(frozen=True, slots=True)
    class AllHeavy:
        """The smallest is still heavy."""

        heavy_ratio: Ratio
        heavy_off: Share

    @dataclass(frozen=True, slots=True)
    class AllLight:
        """The largest is still light."""

        light_ratio: Ratio
        light_off: Share


class Position:
    """The position of a gearbox."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """On its scale, between the two that were tried."""

        next_position: Mark

    @dataclass(frozen=True, slots=True)
    class Outside:
        """Not between the two: where the line would have it."""

        next_position: Mark

    @dataclass(frozen=True, slots=True)
    class NoLine:
        """Both positions are one, or both bring as much."""


def ratio_by_teeth(*, driver_teeth: Count, driven_teeth: Count) -> ByTeeth.Worked:
    """The ratio of two sprockets by their teeth: driver over driven (more than 0).

    Source: the chain moves as many teeth on both, common practice, no source.
    """
    return ByTeeth.Worked(driver_teeth / driven_teeth)


def nearest_sprockets(
    *, sprocket_ratios: ManyRatios, present_ratio: Ratio, caught_rate: Rate, bulk_rate: Rate
) -> Sprockets.Between | Sprockets.Meets | Sprockets.AllHeavy | Sprockets.AllLight:
    """The ratios on offer (one or more) on both sides of the target.

    A double run gives in proportion to the turns of its shaft. Source: present ratio x target /
    caught, common practice, no source; that the rate of a double run is set by shaft speed, an
    agricultural engineering teaching page on seed metering.
    """
    wanted = present_ratio * bulk_rate / caught_rate
    if any(same(each, wanted) for each in sprocket_ratios):
        return Sprockets.Meets(wanted)
    light = [each for each in sprocket_ratios if each < wanted]
    heavy = [each for each in sprocket_ratios if each > wanted]
    if not light:
        return Sprockets.AllHeavy(min(heavy), min(heavy) / wanted - 1)
    under = max(light)
    if not heavy:
        return Sprockets.AllLight(under, under / wanted - 1)
    return Sprockets.Between(under, under / wanted - 1, min(heavy), min(heavy) / wanted - 1)


def position_between(
    *,
    first_position: Mark,
    first_rate: Rate,
    second_position: Mark,
    second_rate: Rate,
    bulk_rate: Rate,
    position_step: Mark,
) -> Position.Worked | Position.Outside | Position.NoLine:
    """The gearbox position on the straight line through two catches, at the nearest step.

    A position is a place on a scale, so it is interpolated and never multiplied; past the two it is
    a guess that wants a catch nearer by. Source: straight interpolation, as `on_line`.
    """
    if same(first_position, second_position) or same(first_rate, second_rate):
        return Position.NoLine()
    tried = (
        Tried(first_position, first_rate, 1, 1),
        Tried(second_position, second_rate, 1, 1),
    )
    position = to_step(on_line(*tried, bulk_rate), position_step)
    inside = min(first_rate, second_rate) <= bulk_rate <= max(first_rate, second_rate)
    return Position.Worked(position) if inside else Position.Outside(position)
