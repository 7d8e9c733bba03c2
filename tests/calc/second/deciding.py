"""What follows from the catches at an opening once more."""

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import floor, log, sqrt
from typing import NamedTuple

import numpy as np
from scipy import special, stats

from assistant.calc import assumed
from tests.calc.second.beliefs import Catch, Drills, Known, Law, Numbers, drills
from tests.calc.second.exact import DUST, same

CLOSE = 1e-9
"""Plans whose worth differs by no more are left to the last bits of floats."""


class Wish(NamedTuple):
    """What is wanted, the marks (mm) there are for it, and what is known beforehand."""

    tolerance: float
    sure: float
    step: Fraction
    narrowest: Fraction
    widest: Fraction
    known: Known

    def near_by(self, aim: float, step: Fraction) -> list[Fraction]:
        """The two marks under an aim and the two over it, or the end of the scale."""
        under = floor(Fraction(aim) / step * (1 + DUST))
        marks = [number * step for number in range(under - 1, under + 3)]
        return [min(max(mark, self.narrowest), self.widest) for mark in marks]


class Plan(NamedTuple):
    """What comes next: where (mm), whether the lever is set for it, its worth.

    `hits` is the chance that it throws what is wanted there.
    """

    opening: Fraction
    moved: bool
    worth: float
    hits: float


class Heard(NamedTuple):
    """The catches that tell of the drill, those of this stay that count, those put aside.

    The drill was begun at an opening (mm).
    """

    begun: Fraction
    telling: tuple[Catch, ...]
    stay: tuple[Catch, ...]
    aside: tuple[Catch, ...] = ()
    odd: bool = False

    def drills(self, wish: Wish) -> Drills:
        """What they tell."""
        return drills(self.begun, self.telling, wish.known)


def heard(catches: Sequence[Catch], wish: Wish) -> Heard:
    """All catches, in their order; IndexError for none.

    A first catch that was more likely short than not counts no more once another is beside it.
    """
    found = _as_they_came(tuple(catches), wish)
    of_all = found.drills(wish)
    if len(found.stay) > 1 and found.stay[0].first and of_all.share @ of_all.short > 1 / 2:
        return found._replace(stay=found.stay[1:], aside=(found.stay[0], *found.aside))
    return found


@lru_cache(maxsize=256)
def _as_they_came(catches: tuple[Catch, ...], wish: Wish) -> Heard:
    catch = catches[-1]
    if len(catches) == 1:
        anew = catch._replace(moved=True)
        return Heard(catch.opening, (anew,), (anew,))
    so_far = _as_they_came(catches[:-1], wish)
    if catch.moved or set_again(so_far, len(catches) - 1, wish):
        so_far = so_far._replace(stay=(), aside=())
    of_all, catch = so_far.drills(wish), catch._replace(moved=not so_far.stay)
    mean, variance = of_all.next_catch(float(catch.opening), moved=catch.moved)
    if abs(log(catch.share) - mean) <= assumed.ODD * sqrt(variance):
        telling, stay = (*so_far.telling, catch), (*so_far.stay, catch)
        return so_far._replace(telling=telling, stay=stay, odd=False)
    # Two catches differ by the root of twice what one scatters.
    apart = assumed.ODD * sqrt(2 * of_all.usual_scatter)
    like = [each for each in so_far.aside if abs(log(each.share / catch.share)) <= apart]
    if not like:
        return so_far._replace(aside=(*so_far.aside, catch), odd=True)
    begun = (like[-1]._replace(moved=True), catch._replace(moved=False))
    others = [each for each in so_far.aside if each not in like]
    return Heard(catch.opening, begun, (*like, catch), (*so_far.stay, *others))


def set_again(so_far: Heard, made: int, wish: Wish) -> bool:
    """Whether after so many catches the lever was to be set anew at the same opening.

    Not where it is as near as it goes, nor where the scale ends.
    """
    if so_far.odd or not so_far.stay:
        return False
    here = so_far.stay[-1].opening
    plan, near = next_plan(so_far, here, made, wish)
    held = near or past(plan, so_far.drills(wish), wish)
    return plan.moved and same(plan.opening, here) and not held


def next_plan(so_far: Heard, here: Fraction, made: int, wish: Wish) -> tuple[Plan, bool]:
    """What comes next, and whether it is only as near as it goes: nothing promises an end."""
    plan = best_plan(so_far, here, wish)
    if plan.worth < assumed.HOPELESS and made >= assumed.TRIES:
        nearest = nearest_plan(so_far, wish)
        if nearest.hits < 1 / 2:
            return nearest, True
    return plan, False


def past(plan: Plan, of_all: Drills, wish: Wish) -> str:
    """Past which end the opening would have to be that should throw what is wanted."""
    if plan.hits > 1 / 2:
        return ""
    aim, half = of_all.aim, float(wish.step / 2)
    if aim > wish.widest + half:
        return "too_wide"
    return "too_narrow" if aim < wish.narrowest - half else ""


@lru_cache(maxsize=256)
def best_plan(so_far: Heard, here: Fraction, wish: Wish) -> Plan:
    """The plan that most likely ends on target per catch."""
    of_all = so_far.drills(wish)
    mean, variance = of_all.together(of_all.stands)
    worth, hits = _weighed(Law(np.array([mean]), np.array([variance])), of_all, wish, 0)
    marks, halves = (_moves(of_all, wish, step) for step in (wish.step, wish.step / 2))
    stay = Plan(here, False, worth[0], hits[0])
    best = max(stay, *marks, key=_worth)
    if (half := max(halves, key=_worth)).worth > assumed.HALF_MARKS * best.worth:
        best = half
    if best.worth > 0:
        return best
    if log(1 - wish.tolerance) < mean < log(1 + wish.tolerance):
        return stay
    aim = of_all.aim
    return min(marks, key=lambda each: abs(float(each.opening) - aim))


def nearest_plan(so_far: Heard, wish: Wish) -> Plan:
    """The mark or half mark that most likely throws what is wanted."""
    return max(_moves(so_far.drills(wish), wish, wish.step / 2), key=lambda each: each.hits)


def left_open(catches: Sequence[Catch], wish: Wish) -> bool:
    """Whether after any of the catches the last bits of floats decide between two plans."""
    so_far = [_as_they_came(tuple(catches[:many]), wish) for many in range(1, len(catches) + 1)]
    return any(
        _close(each, catch.opening, wish) for each, catch in zip(so_far, catches, strict=True)
    )


def _close(so_far: Heard, here: Fraction, wish: Wish) -> bool:
    of_all, best = so_far.drills(wish), best_plan(so_far, here, wish)
    marks, halves = (_moves(of_all, wish, step) for step in (wish.step, wish.step / 2))
    others = [each for each in (*marks, *halves) if not _one_plan(each, best)]
    if best.worth < assumed.HOPELESS:
        near = nearest_plan(so_far, wish)
        apart = [abs(near.hits - each.hits) for each in halves if not _one_plan(each, near)]
        if min(apart, default=1) <= CLOSE:
            return True
    return (
        best.worth > 0
        and min([best.worth, *(abs(best.worth - each.worth) for each in others)]) <= CLOSE
    )


def _one_plan(one: Plan, other: Plan) -> bool:
    return one.moved == other.moved and same(one.opening, other.opening)


def worths(law: Law, scatter: float, wish: Wish, cost: float) -> Numbers:
    """The best chance per catch that 1 to 4 catches at a setting end on target.

    After so many catches the output there is known to a variance that does not hang on what they
    bring; then it is on target where the mean they show is so far inside the tolerance that it is
    sure. That mean is normal about the present one. Source: section 5 of the decision rule.
    """
    more = np.arange(1, assumed.LOOK_AHEAD + 1)
    low, high = log(1 - wish.tolerance), log(1 + wish.tolerance)
    mean, variance = law.mean[:, np.newaxis], law.variance[:, np.newaxis]
    left = 1 / (1 / variance + more / scatter)
    inside = float(special.ndtri(wish.sure)) * np.sqrt(left)
    # On the side where a float holds the tail of the law.
    off = np.abs(mean - (low + high) / 2)
    shown = np.sqrt(variance * left * more / scatter)
    room = (high - low) / 2 - inside
    chance = np.where(
        room > 0, stats.norm.cdf((room - off) / shown) - stats.norm.cdf((-room - off) / shown), 0
    )
    best: Numbers = np.max(chance / (more + cost), axis=1)
    return best


def _moves(of_all: Drills, wish: Wish, step: Fraction) -> list[Plan]:
    places = wish.near_by(of_all.aim, step)
    laws = [of_all.together(of_all.at(float(place))) for place in places]
    worth, hits = _weighed(Law(*np.array(laws).T), of_all, wish, assumed.MOVING)
    return [Plan(*each) for each in zip(places, [True] * len(places), worth, hits, strict=True)]


def _weighed(law: Law, of_all: Drills, wish: Wish, cost: float) -> tuple[list[float], list[float]]:
    worth = worths(law, of_all.usual_scatter, wish, cost)
    ends = np.log([[1 - wish.tolerance], [1 + wish.tolerance]])
    low, high = stats.norm.cdf((ends - law.mean) / np.sqrt(law.variance))
    return worth.tolist(), (high - low).tolist()


def _worth(plan: Plan) -> float:
    return plan.worth
