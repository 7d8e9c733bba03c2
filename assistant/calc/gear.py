"""The gearing of a meter that is driven from the ground: the rate that it gives, and where to go.

Marks as on the scale of the gearbox; distances and widths in m, rates kg/m2, kg a turn of the
meter shaft.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.calc.aiming import best_mark, bracket, nearest, on_line
from assistant.calc.catches import Tried
from assistant.calc.contract import Length, Mark, MassPerTurn, Rate, Roll, Share
from assistant.calc.figures import at_most, down_to_step, mean, same, to_step


class Rolled:
    """The rate by the last roll, against the target."""

    @dataclass(frozen=True, slots=True)
    class Light:
        """Under it by more than the tolerance. A share under 0."""

        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class Heavy:
        """Over it by more than the tolerance. A share over 0."""

        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class OnTarget:
        """Near enough. A share."""

        percent_off: Share


class Gear:
    """Where the gearbox goes next."""

    @dataclass(frozen=True, slots=True)
    class SetNext:
        """Another mark of its scale."""

        next_gear_mark: Mark

    @dataclass(frozen=True, slots=True)
    class AsNear:
        """No mark is nearer than the present one."""

    @dataclass(frozen=True, slots=True)
    class OffScale:
        """The scale ends before it."""


def judge_roll(
    *, caught_rate: Rate, bulk_rate: Rate, tolerance: Share
) -> Rolled.Light | Rolled.Heavy | Rolled.OnTarget:
    """Whether the gear that was rolled brings the target, by the tolerance.

    Common practice, no source.
    """
    off = caught_rate / bulk_rate - 1
    if at_most(abs(off), tolerance):
        return Rolled.OnTarget(off)
    return Rolled.Heavy(off) if off > 0 else Rolled.Light(off)


def next_gear(
    *,
    rolls: tuple[Roll, ...],
    bulk_rate: Rate,
    working_width: Length,
    weight_per_turn: MassPerTurn,
    gear_top: Mark,
    gear_step: Mark,
) -> Gear.SetNext | Gear.AsNear | Gear.OffScale:
    """Where to set a gearbox with a scale, by what was rolled at the marks tried so far.

    The first time in proportion, as if the scale began at a true zero: so the next roll comes near,
    and tells. Then on the straight line through the nearest light and the nearest heavy mark, or
    through the nearest two, whichever way the scale runs. Then the nearest step, none under one
    step or past the top. Raises ValueError when the last roll names no mark. Source: straight
    interpolation, as `on_line`; proportion, common practice, no source.
    """
    wanted = bulk_rate * working_width / weight_per_turn
    tried = _by_mark(rolls)
    present = tried[-1]
    pair = bracket(tried, wanted) or nearest(tried, wanted)[:2]
    if len(pair) > 1 and not same(pair[0].seed, pair[1].seed):
        aim = on_line(pair[0], pair[1], wanted)
    else:
        aim = present.setting * wanted / present.seed
    last = max(gear_step, down_to_step(gear_top, gear_step))
    goal = max(gear_step, min(last, to_step(aim, gear_step)))
    if same(goal, present.setting) and abs(aim - goal) > gear_step / 2:
        return Gear.OffScale()
    best = best_mark(goal, tried, wanted, gear_step)
    return Gear.AsNear() if same(best, present.setting) else Gear.SetNext(best)


def _by_mark(rolls: Sequence[Roll]) -> list[Tried]:
    """Each mark with the mean of its turns a distance, and how often it was tried; present last."""
    found: list[Tried] = []
    for roll in reversed(rolls):
        mark = roll.gear_mark
        if mark is None:
            raise ValueError(roll)
        if any(same(mark, each.setting) for each in found):
            continue
        turns = [r.shaft_turns / r.shaft_distance for r in rolls if same(r.gear_mark, mark)]
        found.insert(0, Tried(mark, mean(turns), len(turns), len(turns)))
    return found
