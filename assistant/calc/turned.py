"""Openings that are turned at a wheel or a crank: what a catch means, and where to set it next."""

from dataclasses import dataclass
from math import exp
from typing import NamedTuple

from assistant.calc.assumed import HOPELESS, HUNDREDTH, TRIES
from assistant.calc.beliefs import Told, noise_of, told_by
from assistant.calc.catches import Scale, seed_caught
from assistant.calc.chance import normal_reach
from assistant.calc.contract import Area, Length, Mass, Rate, Share, Trial, Turns
from assistant.calc.deciding import (
    Case,
    Heard,
    Marks,
    Plan,
    aimed_at,
    band,
    best_plan,
    chance_within,
    foretold_catch,
    heard,
    nearest_plan,
    sure_within,
)
from assistant.calc.figures import (
    at_least,
    at_most,
    down_to_step,
    mean,
    root,
    same,
    to_step,
    up_to_step,
)
from assistant.calc.judging import (
    AllAgree,
    Heavy,
    Light,
    NothingCaught,
    NotSure,
    OneOdd,
    SomeOdd,
    Spread,
)
from assistant.calc.openings import AsNear, Foreseen, TooNarrow, TooWide


class Sure:
    """How sure the setting is: of all such drills, and the tolerance that is sure already.

    In kg/m2 and shares; those that are told are whole hundredths, on the safe side.
    """

    @dataclass(frozen=True, slots=True)
    class NearLight:
        """Near enough by these catches, but a mark that gives more is sooner sure."""

        caught_rate: Rate
        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class NearHeavy:
        """Near enough by these catches, but a mark that gives less is sooner sure."""

        caught_rate: Rate
        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class SameMark:
        """Set anew, the same mark is more likely to be near than any other."""

        caught_rate: Rate
        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class OnTarget:
        """Near enough by these catches, but not sure."""

        caught_rate: Rate
        percent_off: Share
        on_target_chance: Share
        sure_within: Share

    @dataclass(frozen=True, slots=True)
    class Proven:
        """Sure."""

        caught_rate: Rate
        percent_off: Share
        on_target_chance: Share
        sure_within: Share


class Tried(NamedTuple):
    """The catches that brought seed, what is the same for all, what they tell, what comes next.

    `near` is where nothing promises an end: then the plan is the mark that comes nearest.
    """

    told: list[Told]
    case: Case
    heard: Heard
    plan: Plan
    near: bool


Judged = (
    Light
    | Heavy
    | Sure.NearLight
    | Sure.NearHeavy
    | Sure.SameMark
    | NotSure
    | Sure.OnTarget
    | Sure.Proven
    | Spread
    | NothingCaught
)


def judge_opening(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    ground_covered: Area,
    turns: Turns,
    tolerance: Share,
    start_may_miss: Share,
    chance_sure: Share,
    opening_step: Length,
    widest_opening: Length,
    narrowest_opening: Length,
    one_turn: Turns,
    one_mm: Length,
) -> Judged:
    """What the last catch means, with all before it, and how sure a setting is.

    Weights in kg, lengths in m, ground in m2, the rest shares. It is `proven` when so many of 100
    such drills throw what is wanted to within the tolerance; `spread` when it lies far from what
    those before it foretell. Else the plan decides that most likely ends on target per catch:
    another catch as it stands (`on_target`, or `not_sure` where the mean of this stay is off), or
    another mark (`light`, `heavy`, or where that mean is near enough `near_light`, `near_heavy`),
    or the same mark set anew (`same_mark`).

    Source: conformance probability, JCGM 106:2012, 7.2, and the recursive estimate of a normal
    mean, both from memory; what drills are like, common practice, no source. `one_turn` and
    `one_mm` are 1, with their kinds. Raises IndexError without a trial.
    """
    scale = Scale(tare, catch_step)
    last = seed_caught(trials[-1], scale)
    if last <= 0:
        return NothingCaught(last / ground_covered, last / target_catch - 1)
    marks = Marks(opening_step / one_mm, narrowest_opening / one_mm, widest_opening / one_mm)
    noise = noise_of(turns, one_turn, catch_step, target_catch)
    case = _case(tolerance, chance_sure, start_may_miss, marks, noise)
    tried = _tried(told_by(trials, scale, target_catch, one_mm), case)
    if tried.heard.odd:
        return Spread(last / ground_covered, last / target_catch - 1)
    return _judged(tried, target_catch / ground_covered)


def _judged(tried: Tried, target_rate: Rate) -> Judged:
    """What catches mean that brought seed and can be."""
    beliefs, wanted, plan = tried.heard.beliefs, tried.case.wanted, tried.plan
    share = mean([exp(each.caught) for each in tried.heard.stay])
    found = share * target_rate, share - 1
    chance, near = chance_within(beliefs, wanted), at_most(abs(share - 1), wanted.tolerance)
    if at_least(chance, wanted.sure):
        return Sure.Proven(*found, chance, sure_within(beliefs, wanted.sure))
    if not plan.set_anew and near:
        within = sure_within(beliefs, wanted.sure)
        return Sure.OnTarget(*found, down_to_step(chance, HUNDREDTH), within)
    if not plan.set_anew:
        return NotSure(*found)
    present = tried.told[-1].opening
    if same(plan.opening, present) and not (tried.near or _past(tried)):
        return Sure.SameMark(*found)
    if (plan.opening - present or 1 - share) > 0:
        return Sure.NearLight(*found) if near else Light(*found)
    return Sure.NearHeavy(*found) if near else Heavy(*found)


def aim_opening(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    ground_covered: Area,
    turns: Turns,
    tolerance: Share,
    start_may_miss: Share,
    chance_sure: Share,
    opening_step: Length,
    widest_opening: Length,
    narrowest_opening: Length,
    sure: Share,
    one_turn: Turns,
    one_mm: Length,
) -> Foreseen.SetNext | Foreseen.SetBetween | Foreseen.SetAgain | AsNear | TooWide | TooNarrow:
    """Where to set the opening next, by the plan of `judge_opening`, and what it should drop there.

    Units as there. What is foreseen holds for the next catch in as many cases as `sure` tells, a
    share. It is `as_near` when nothing promises an end and no mark is more likely on target than
    the present. Source: as `judge_opening`.
    """
    marks = Marks(opening_step / one_mm, narrowest_opening / one_mm, widest_opening / one_mm)
    noise = noise_of(turns, one_turn, catch_step, target_catch)
    case = _case(tolerance, chance_sure, start_may_miss, marks, noise)
    tried = _tried(told_by(trials, Scale(tare, catch_step), target_catch, one_mm), case)
    plan, present = tried.plan, tried.told[-1].opening
    if past := _past(tried):
        return TooWide() if past > 0 else TooNarrow()
    opening = to_step(plan.opening * one_mm, opening_step / 2)
    if tried.near and same(plan.opening, present):
        return AsNear(opening)
    caught = foretold_catch(tried.heard.beliefs, Told(plan.opening, 0, set_anew=True))
    foreseen = exp(caught.mean) * (target_catch / ground_covered)
    reach = exp(normal_reach(float(sure)) * root(caught.variance)) - 1
    within = up_to_step(reach, HUNDREDTH)
    if same(plan.opening, present):
        return Foreseen.SetAgain(opening, foreseen, within)
    if same(to_step(plan.opening, case.marks.step), plan.opening):
        return Foreseen.SetNext(opening, foreseen, within)
    return Foreseen.SetBetween(opening, foreseen, within)


def catches_aside(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    turns: Turns,
    tolerance: Share,
    start_may_miss: Share,
    chance_sure: Share,
    opening_step: Length,
    widest_opening: Length,
    narrowest_opening: Length,
    one_turn: Turns,
    one_mm: Length,
) -> AllAgree | OneOdd | SomeOdd:
    """The catches at the present setting (kg) that `judge_opening` put aside. Units as there.

    Source: as `judge_opening`.
    """
    marks = Marks(opening_step / one_mm, narrowest_opening / one_mm, widest_opening / one_mm)
    noise = noise_of(turns, one_turn, catch_step, target_catch)
    case = _case(tolerance, chance_sure, start_may_miss, marks, noise)
    told = told_by(trials, Scale(tare, catch_step), target_catch, one_mm)
    odd = tuple(exp(each.caught) * target_catch for each in heard(told, case).aside)
    if not odd:
        return AllAgree()
    return SomeOdd(odd) if len(odd) > 1 else OneOdd(odd[0])


def _case(
    tolerance: Share, chance_sure: Share, start_may_miss: Share, marks: Marks, noise: float
) -> Case:
    wanted = band(float(tolerance), float(chance_sure))
    step, narrowest, widest = (float(each) for each in marks)
    return Case(wanted, Marks(step, narrowest, widest), float(noise), float(start_may_miss))


def _past(tried: Tried) -> int:
    """1 where it would have to open past its widest, -1 past its narrowest; else 0."""
    wanted, marks = tried.case.wanted, tried.case.marks
    if tried.plan.throws.between(wanted.low, wanted.high) > 1 / 2:
        return 0
    aim = aimed_at(tried.heard.beliefs)
    return (aim > marks.widest + marks.step / 2) - (aim < marks.narrowest - marks.step / 2)


def _tried(told: list[Told], case: Case) -> Tried:
    tells = heard(told, case)
    plan = best_plan(tells.beliefs, told[-1].opening, case)
    if plan.worth < HOPELESS and len(told) >= TRIES:
        near = nearest_plan(tells.beliefs, case)
        if near.throws.between(case.wanted.low, case.wanted.high) < 1 / 2:
            return Tried(told, case, tells, near, near=True)
    return Tried(told, case, tells, plan, near=False)
