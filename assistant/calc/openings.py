"""The next opening: a length with a true zero, so one catch already tells where to go."""

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.calc.aiming import best_mark, bracket, nearest, on_line, rising
from assistant.calc.catches import Scale, Tried, agree, settings_tried
from assistant.calc.contract import Length, Mass, Rate, Share, Trial
from assistant.calc.figures import at_least, at_most, down_to_step, same, to_step, up_to_step


@dataclass(frozen=True, slots=True)
class SetNext:
    """Another opening, in metres, on a mark of the ruler."""

    next_opening: Length


@dataclass(frozen=True, slots=True)
class AsNear:
    """No mark is nearer than the present opening, in metres."""

    next_opening: Length


@dataclass(frozen=True, slots=True)
class SetAgain:
    """The present opening, in metres: of two openings the smaller one gave more, so one lies."""

    next_opening: Length


@dataclass(frozen=True, slots=True)
class TooWide:
    """It would have to open past its widest."""


@dataclass(frozen=True, slots=True)
class TooNarrow:
    """It would be narrower than seed can pass evenly."""


class Foreseen:
    """Where to set the opening next, in m; what it should drop there, give or take a share."""

    @dataclass(frozen=True, slots=True)
    class SetNext:
        """A mark of the ruler."""

        next_opening: Length
        foreseen_rate: Rate
        foreseen_within: Share

    @dataclass(frozen=True, slots=True)
    class SetBetween:
        """Midway between two marks of the ruler."""

        next_opening: Length
        foreseen_rate: Rate
        foreseen_within: Share

    @dataclass(frozen=True, slots=True)
    class SetAgain:
        """The same mark: a lever does not come back to quite the same place."""

        next_opening: Length
        foreseen_rate: Rate
        foreseen_within: Share


def next_opening(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    opening_step: Length,
    widest_opening: Length,
    narrowest_opening: Length,
    repeat_tolerance: Share,
) -> SetNext | AsNear | SetAgain | TooWide | TooNarrow:
    """Where to set the opening next. Lengths in m, weights in kg, all but the tare more than 0.

    Only catches that brought seed in the drive range of the last one count. A first catch at an
    opening that goes against an earlier one by more than the repeat tolerance is made again. Else
    those count that rise with the opening from the present one outwards. From one opening: in
    proportion to the catch. From several: on the straight line through the nearest light and the
    nearest heavy catch, else through the two catches nearest the target. Then the nearest mark of
    the ruler that lies inside. Raises ValueError when the last catch has no opening or no seed.

    Source: fluted rollers give in proportion to their opening, common practice, no source.
    """
    scale = Scale(tare, catch_step)
    all_tried = settings_tried(trials, scale, lambda trial: trial.opening, repeat_tolerance)
    present = all_tried[-1]
    if present.catches <= 1 and _against(present, all_tried, repeat_tolerance):
        return SetAgain(present.setting)
    tried = rising(all_tried)
    aim = _aim(tried, target_catch)
    goal = to_step(aim, opening_step)
    if not at_most(goal, widest_opening):
        if not at_most(aim, widest_opening):
            return TooWide()
        goal = down_to_step(widest_opening, opening_step)
    if not at_least(goal, narrowest_opening):
        if not at_least(aim, narrowest_opening):
            return TooNarrow()
        goal = up_to_step(narrowest_opening, opening_step)
    best = best_mark(goal, tried, target_catch, opening_step)
    return AsNear(best) if same(best, present.setting) else SetNext(best)


def _against(present: Tried, tried: Sequence[Tried], repeat_tolerance: float) -> bool:
    """Whether a smaller opening gave more than the present one, or a larger one less."""
    return any(
        (each.setting - present.setting) * (each.seed - present.seed) < 0
        and not agree(each.seed, present.seed, repeat_tolerance)
        for each in tried
    )


def _aim(tried: Sequence[Tried], target_catch: float) -> float:
    """The opening that should bring the target catch, before any mark is chosen.

    Between catches on both sides the line is trusted. Beyond them a short line is mostly noise: it
    is trusted only if it moves the opening at least half and at most twice as far as proportion
    would. Else the nearest catch decides, in proportion.
    """
    close = nearest(tried, target_catch)
    by_share = close[0].setting * target_catch / close[0].seed
    if len(tried) <= 1:
        return by_share
    both_sides = bracket(tried, target_catch)
    one, other = both_sides or (close[0], close[1])
    by_line = on_line(one, other, target_catch)
    if both_sides:
        return by_line
    far, usual = abs(by_line - close[0].setting), abs(by_share - close[0].setting)
    return by_line if usual / 2 <= far <= 2 * usual else by_share
