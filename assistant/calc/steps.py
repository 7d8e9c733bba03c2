"""Drives that move in steps: the sprockets of a double run.

Ratios are shaft turns for one turn of the wheel; rates kg/m2.
"""

from dataclasses import dataclass

from assistant.calc.contract import ManyRatios, Rate, Ratio, Share
from assistant.calc.figures import same


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
