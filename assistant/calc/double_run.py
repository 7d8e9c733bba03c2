"""A double run: its rate goes with the turns of its shaft, so it moves in steps of sprockets.

Teeth are of the one sprocket that is swapped; the other one of the chain stays, so it drops out.
Rates kg/m2.
"""

from dataclasses import dataclass

from assistant.calc.contract import Choice, Count, ManyCounts, Rate, Share
from assistant.calc.figures import same
from assistant.calc.steps import Sprockets, nearest_sprockets

DRIVER, LIGHTER = "driver", "lighter"
"""Choices of `swapped_sprocket` and of `take_teeth`."""


class Teeth:
    """Which of the sprockets that can be put in comes nearest, and what it misses by, a share."""

    @dataclass(frozen=True, slots=True)
    class Between:
        """One is light and one is heavy."""

        lighter_teeth: Count
        lighter_off: Share
        heavier_teeth: Count
        heavier_off: Share

    @dataclass(frozen=True, slots=True)
    class Meets:
        """One brings the target."""

        next_teeth: Count

    @dataclass(frozen=True, slots=True)
    class OneSide:
        """All are light or all are heavy; this one least."""

        next_teeth: Count
        next_off: Share

    @dataclass(frozen=True, slots=True)
    class AsNear:
        """All are light or all are heavy, and the one that is in is off least."""


class Taken:
    """What the choice between two sprockets comes to."""

    @dataclass(frozen=True, slots=True)
    class Stays:
        """The one that is in."""

    @dataclass(frozen=True, slots=True)
    class Changes:
        """Another is put in."""

        next_teeth: Count


def nearest_teeth(
    *,
    teeth_offered: ManyCounts,
    teeth: Count,
    swapped_sprocket: Choice,
    caught_rate: Rate,
    bulk_rate: Rate,
) -> Teeth.Between | Teeth.Meets | Teeth.OneSide | Teeth.AsNear:
    """The sprockets on both sides of the target, the one that is in (`teeth`) among those on offer.

    More teeth on the driver turn the shaft faster, on the driven one slower. All numbers are over
    0. Source: `nearest_sprockets`.
    """
    found = nearest_sprockets(
        sprocket_ratios=tuple(_turned(each, swapped_sprocket) for each in (*teeth_offered, teeth)),
        present_ratio=_turned(teeth, swapped_sprocket),
        caught_rate=caught_rate,
        bulk_rate=bulk_rate,
    )
    match found:
        case Sprockets.Between(light, light_off, heavy, heavy_off):
            lighter, heavier = _turned(light, swapped_sprocket), _turned(heavy, swapped_sprocket)
            return Teeth.Between(lighter, light_off, heavier, heavy_off)
        case Sprockets.Meets(wanted):
            return Teeth.Meets(_turned(wanted, swapped_sprocket))
        case Sprockets.AllHeavy(ratio, off) | Sprockets.AllLight(ratio, off):
            least = _turned(ratio, swapped_sprocket)
            return Teeth.AsNear() if same(least, teeth) else Teeth.OneSide(least, off)


def _turned(number: float, swapped_sprocket: Choice) -> float:
    """What the shaft turns by so many teeth, but for the other sprocket; and back again."""
    return number if same(swapped_sprocket, DRIVER) else 1 / number


def teeth_taken(
    *, take_teeth: Choice, teeth: Count, lighter_teeth: Count, heavier_teeth: Count
) -> Taken.Stays | Taken.Changes:
    """The sprocket that was picked: the one that is in, or another. Common practice, no source."""
    taken = lighter_teeth if same(take_teeth, LIGHTER) else heavier_teeth
    return Taken.Stays() if same(taken, teeth) else Taken.Changes(taken)
