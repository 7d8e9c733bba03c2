"""What the settings tried so far tell about the next one: shared by openings and lever marks."""

from collections.abc import Sequence

from assistant.calc.catches import Tried


def on_line(one: Tried, other: Tried, target_catch: float) -> float:
    """The setting at which the straight line through two catches brings the target catch (kg).

    Raises ZeroDivisionError for two equal catches. Source: straight interpolation.
    """
    slope = (other.setting - one.setting) / (other.seed - one.seed)
    return one.setting + (target_catch - one.seed) * slope


def bracket(tried: Sequence[Tried], target_catch: float) -> tuple[Tried, Tried] | None:
    """The nearest catch that is light or just right, and the nearest that is heavy, if both are."""
    light = [each for each in tried if each.seed <= target_catch]
    heavy = [each for each in tried if each.seed > target_catch]
    if not light or not heavy:
        return None
    return max(light, key=lambda each: each.seed), min(heavy, key=lambda each: each.seed)


def rising(tried: Sequence[Tried], *, upward: bool = True) -> list[Tried]:
    """The settings, in their order, that give more seed the further they are open.

    From the present one (the last of `tried`) outwards: one that gave no more than a setting nearer
    by that is less open, or no less than one that is more open, tells nothing and is left out. With
    `upward` a larger number is more open.
    """
    present, kept = tried[-1], {tried[-1]}
    for way in (1, -1):
        side = way if upward else -way
        beyond = [each for each in tried if (each.setting - present.setting) * side > 0]
        edge = present
        for each in sorted(beyond, key=lambda each: each.setting * side):
            if (each.seed - edge.seed) * way > 0:
                edge = each
                kept.add(each)
    return [each for each in tried if each in kept]


def nearest(tried: Sequence[Tried], target_catch: float) -> list[Tried]:
    """The settings in order of how near their catch came to the target (kg)."""
    return sorted(tried, key=lambda each: abs(each.seed - target_catch))


def best_mark(goal: float, tried: Sequence[Tried], target_catch: float, step: float) -> float:
    """The mark to set: the goal, or the present setting (the last of `tried`) if it is as near.

    A goal less than half a step from the present setting is the present setting. A goal that was
    tried before is worth another catch only if it came nearer than the present setting, and not if
    one stands beside it and has been back and forth already: so two marks on either side of the
    target are never tried in turn for ever.
    """
    present = tried[-1]
    there = nearest_to(goal, tried, step)
    if there is None:
        return goal
    nearer = abs(there.seed - target_catch) < abs(present.seed - target_catch)
    beside = abs(goal - present.setting) < 1.5 * step
    if not nearer or (beside and present.visits > 1):
        return present.setting
    return goal


def nearest_to(goal: float, tried: Sequence[Tried], step: float) -> Tried | None:
    """The setting tried that stands for the goal: less than half a step away, if any does."""
    close = min(tried, key=lambda each: abs(each.setting - goal))
    return close if abs(close.setting - goal) < step / 2 else None
