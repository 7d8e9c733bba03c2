"""The next lever mark: a place and not an amount. It may be interpolated, never multiplied."""

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.calc.aiming import best_mark, bracket, on_line
from assistant.calc.catches import Tried, settings_tried
from assistant.calc.contract import Choice, Mark, Mass, Share, Trial
from assistant.calc.figures import down_to_step, same, to_step

LOWER_OPENS = "lower"
"""The choice of `lever_opens` for a lever on which a lower number gives more."""


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
    target_catch: Mass,
    lever_step: Mark,
    lever_top: Mark,
    lever_lowest: Mark,
    probe: Share,
    lever_opens: Choice,
) -> SetNext | Probe | AsNear | TooWide | TooNarrow:
    """Where to set the lever next. Marks as on its scale, weights in kg, the probe a share.

    Only catches that brought seed in the drive range of the last one count. Between a light and a
    heavy catch: on the straight line through the nearest of each, then the nearest mark. Else a
    probe: one share of the whole scale past what was tried, the way that more or less seed lies.
    That way is `lever_opens` (`higher` or `lower` gives more) until two marks tell it. Raises
    ValueError when the last catch has no mark or no seed. Common practice, no source.
    """
    tried = settings_tried(trials, tare, lambda trial: trial.lever_mark)
    scale = _Scale(lever_lowest, lever_top, lever_step)
    both_sides = bracket(tried, target_catch)
    if both_sides:
        goal = scale.nearest(on_line(*both_sides, target_catch))
        best = best_mark(goal, tried, target_catch, lever_step)
        return AsNear(best) if same(best, tried[-1].setting) else SetNext(best)
    light = tried[-1].seed <= target_catch
    upward = _higher_gives_more(tried, lever_opens) is light
    stretch = max(lever_step, to_step(probe * (lever_top - lever_lowest), lever_step))
    goal, farthest = _probe(tried, scale, stretch, upward=upward)
    if abs(goal - farthest) < lever_step / 2:
        return TooWide() if light else TooNarrow()
    return Probe(goal)


def _higher_gives_more(tried: Sequence[Tried], lever_opens: str) -> bool:
    """As the two outermost marks show it; as told while they do not."""
    low = min(tried, key=lambda each: each.setting)
    high = max(tried, key=lambda each: each.setting)
    if not same(high.seed, low.seed):
        return high.seed > low.seed
    return lever_opens != LOWER_OPENS


def _probe(
    tried: Sequence[Tried], scale: _Scale, stretch: float, *, upward: bool
) -> tuple[float, float]:
    """The mark one stretch past the outermost one tried, and that outermost mark."""
    if upward:
        farthest = max(each.setting for each in tried)
        return scale.nearest(farthest + stretch), farthest
    farthest = min(each.setting for each in tried)
    return scale.nearest(farthest - stretch), farthest
