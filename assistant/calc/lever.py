"""The next lever mark: a place and not an amount. It may be interpolated, never multiplied."""

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.calc.aiming import best_mark, bracket, on_line, rising
from assistant.calc.catches import Scale, Tried, agree, settings_tried
from assistant.calc.contract import Choice, Mark, Mass, Share, Trial
from assistant.calc.figures import down_to_step, same, to_step

HIGHER_OPENS, LOWER_OPENS = "higher", "lower"
"""The choices of `lever_opens`: which number gives more."""


@dataclass(frozen=True, slots=True)
class SetNext:
    """Another mark, between two that were tried."""

    next_lever_mark: Mark


@dataclass(frozen=True, slots=True)
class Probe:
    """Another mark, only to learn how much a mark is worth."""

    next_lever_mark: Mark


@dataclass(frozen=True, slots=True)
class AsNear:
    """No mark is nearer than the present one."""

    next_lever_mark: Mark


@dataclass(frozen=True, slots=True)
class OtherWay:
    """The present mark: two marks show that the lever opens the other way than was told."""

    next_lever_mark: Mark


@dataclass(frozen=True, slots=True)
class TooWide:
    """It would have to open past the end of its scale."""


@dataclass(frozen=True, slots=True)
class TooNarrow:
    """It would have to close past the end of its scale."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """The marks that a lever can stand at: whole steps from the lowest, none past the top."""

    lowest: float
    top: float
    step: float

    def nearest(self, aim: float) -> float:
        last = self.lowest + down_to_step(self.top - self.lowest, self.step)
        mark = self.lowest + to_step(aim - self.lowest, self.step)
        return max(self.lowest, min(last, mark))


def next_lever_mark(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    lever_step: Mark,
    lever_top: Mark,
    lever_lowest: Mark,
    probe: Share,
    lever_opens: Choice,
    repeat_tolerance: Share,
) -> SetNext | Probe | AsNear | OtherWay | TooWide | TooNarrow:
    """Where to set the lever next. Marks as on its scale, weights in kg, the probe a share.

    Only catches that brought seed in the drive range of the last one count. Where they show another
    way than `lever_opens` (`higher` or `lower` gives more), that comes first. Else those count that
    rise that way from the present mark outwards. Between a light and a heavy catch: on the straight
    line through the nearest of each, then the nearest mark. Else a probe: one share of the whole
    scale past what was tried, the way that more or less seed lies. Raises ValueError when the last
    catch has no mark or no seed. Common practice, no source.
    """
    weighed_by = Scale(tare, catch_step)
    all_tried = settings_tried(trials, weighed_by, lambda trial: trial.lever_mark, repeat_tolerance)
    present = all_tried[-1].setting
    if not same(way_shown(all_tried, lever_opens, repeat_tolerance), lever_opens):
        return OtherWay(present)
    higher = upward(lever_opens)
    tried = rising(all_tried, upward=higher)
    scale = _Scale(lever_lowest, lever_top, lever_step)
    both_sides = bracket(tried, target_catch)
    if both_sides:
        goal = scale.nearest(on_line(*both_sides, target_catch))
        best = best_mark(goal, tried, target_catch, lever_step)
        return AsNear(best) if same(best, present) else SetNext(best)
    light = tried[-1].seed <= target_catch
    stretch = max(lever_step, to_step(probe * (lever_top - lever_lowest), lever_step))
    goal, past = _probe(all_tried, scale, stretch, upward=higher is light)
    if past < lever_step / 2:
        return TooWide() if light else TooNarrow()
    return Probe(goal)


def upward(lever_opens: Choice) -> bool:
    """Whether a higher number gives more."""
    return lever_opens != LOWER_OPENS


def way_shown(tried: Sequence[Tried], lever_opens: Choice, repeat_tolerance: float) -> Choice:
    """Which number gives more, as the two outermost marks show it; as told while they agree."""
    low = min(tried, key=lambda each: each.setting)
    high = max(tried, key=lambda each: each.setting)
    if agree(low.seed, high.seed, repeat_tolerance):
        return lever_opens
    return HIGHER_OPENS if high.seed > low.seed else LOWER_OPENS


def _probe(
    tried: Sequence[Tried], scale: _Scale, stretch: float, *, upward: bool
) -> tuple[float, float]:
    """The mark one stretch past the outermost one tried, and by how much it lies past that.

    Nothing or less where the scale ends: the outermost may lie past its last whole step.
    """
    way = 1 if upward else -1
    farthest = way * max(way * each.setting for each in tried)
    goal = scale.nearest(farthest + way * stretch)
    return goal, way * (goal - farthest)
