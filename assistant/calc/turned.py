"""Openings that are turned at a wheel or a crank: what a catch means, and where to set it next."""

from dataclasses import dataclass
from functools import lru_cache
from math import exp
from typing import NamedTuple

from assistant.calc.assumed import HUNDREDTH, KEPT
from assistant.calc.beliefs import Told
from assistant.calc.chance import normal_reach
from assistant.calc.contract import Area, Rate, Share
from assistant.calc.deciding import (
    Case,
    Heard,
    Plan,
    chance_within,
    foretold_catch,
    heard,
    next_plan,
    past,
    sets_again,
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
    NoCatch,
    NothingCaught,
    NotSure,
    OffTarget,
    OneCatch,
    OneOdd,
    SomeOdd,
)
from assistant.calc.openings import AsNear, Foreseen, TooNarrow, TooWide
from assistant.calc.turned_catches import Catches


class Sure:
    """How sure the setting is: of all such drills, and the tolerance that is sure already.

    In kg/m2 and shares; those that are told are whole hundredths, on the safe side.
    """

    @dataclass(frozen=True, slots=True)
    class NearLight:
        """Near enough by these catches, but a mark that gives more is sooner sure."""

        caught_rate: Rate
        percent_off: Share
        on_target_chance: Share

    @dataclass(frozen=True, slots=True)
    class NearHeavy:
        """Near enough by these catches, but a mark that gives less is sooner sure."""

        caught_rate: Rate
        percent_off: Share
        on_target_chance: Share

    @dataclass(frozen=True, slots=True)
    class PutAside:
        """It can't be, by those before it, which let so much be expected here."""

        caught_rate: Rate
        percent_off: Share
        expected_here: Rate

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


@dataclass(frozen=True, slots=True)
class RunsEmpty:
    """Catch by catch less comes, whatever is set. In kg/m2, and a share, of the last."""

    caught_rate: Rate
    percent_off: Share


class Tried(NamedTuple):
    """The catches that brought seed, what is the same for all, what they tell, what comes next."""

    told: tuple[Told, ...]
    case: Case
    heard: Heard
    plan: Plan

    @property
    def present(self) -> float:
        """The opening (mm) of the last catch."""
        return self.told[-1].opening

    @property
    def here(self) -> bool:
        """Whether the plan is the present opening."""
        return same(self.plan.opening, self.present)


Judged = (
    Light
    | Heavy
    | Sure.NearLight
    | Sure.NearHeavy
    | Sure.SameMark
    | NotSure
    | Sure.OnTarget
    | Sure.Proven
    | Sure.PutAside
    | RunsEmpty
    | NothingCaught
)


def judge_opening(*, catches: Catches, ground_covered: Area) -> Judged:
    """What the last catch means, with all before it, and how sure a setting is.

    Ground in m2, `sure_within` and chances shares. It is `proven` when so many of 100 such drills
    throw what is wanted to within the tolerance; `put_aside` when it lies far from what those
    before it foretell; `runs_empty` when it shows, with them, that less comes catch by catch: then
    what was caught so far is void. Else the plan decides that most likely ends on target per catch:
    another catch as it stands (`on_target`, or `not_sure` where the mean of this stay is off), or
    another mark (`light`, `heavy`, or where that mean is near enough `near_light`, `near_heavy`),
    or the same mark set anew (`same_mark`).

    Source: conformance probability, JCGM 106:2012, 7.2, and the recursive estimate of a normal
    mean, both from memory; what drills are like, common practice, no source. Raises IndexError
    without a trial.
    """
    found = catches.last / ground_covered, catches.last / catches.target_catch - 1
    if catches.last <= 0:
        return NothingCaught(*found)
    told, empty = catches.since_full
    if empty:
        return RunsEmpty(*found)
    tried = _tried(told, catches.case)
    if tried.heard.odd:
        last = told[-1]._replace(set_anew=not tried.heard.stay)
        expected = exp(foretold_catch(tried.heard.beliefs, last).mean)
        return Sure.PutAside(*found, expected * (catches.target_catch / ground_covered))
    return _judged(tried, catches.target_catch / ground_covered)


def _judged(tried: Tried, target_rate: Rate) -> Judged:
    """What catches mean that brought seed and can be."""
    beliefs, wanted, plan = tried.heard.beliefs, tried.case.wanted, tried.plan
    share = mean([exp(each.caught) for each in tried.heard.stay])
    found = share * target_rate, share - 1
    chance, near = chance_within(beliefs, wanted), at_most(abs(share - 1), wanted.tolerance)
    if at_least(chance, wanted.sure):
        return Sure.Proven(*found, chance, sure_within(beliefs, wanted.sure))
    told = down_to_step(chance, HUNDREDTH)
    if not plan.set_anew and near:
        return Sure.OnTarget(*found, told, sure_within(beliefs, wanted.sure))
    if not plan.set_anew:
        return NotSure(*found)
    if sets_again(plan, tried.present, beliefs, tried.case):
        return Sure.SameMark(*found)
    if (1 - share if tried.here else plan.opening - tried.present) > 0:
        return Sure.NearLight(*found, told) if near else Light(*found)
    return Sure.NearHeavy(*found, told) if near else Heavy(*found)


def aim_opening(
    *, catches: Catches, ground_covered: Area, sure: Share
) -> Foreseen.SetNext | Foreseen.SetBetween | Foreseen.SetAgain | AsNear | TooWide | TooNarrow:
    """Where to set the opening next, by the plan of `judge_opening`, and what it should drop there.

    What is foreseen holds for the next catch in as many cases as `sure` tells, a share. It is
    `as_near` when nothing promises an end and no mark is more likely on target than the present.
    Source: as `judge_opening`.
    """
    tried = _tried(catches.since_full.told, catches.case)
    plan = tried.plan
    if beyond := past(plan, tried.heard.beliefs, tried.case):
        return TooWide() if beyond > 0 else TooNarrow()
    opening = to_step(plan.opening * catches.one_mm, catches.opening_step / 2)
    if plan.near and tried.here:
        return AsNear(opening)
    caught = foretold_catch(tried.heard.beliefs, Told(plan.opening, 0, set_anew=True))
    foreseen = exp(caught.mean) * (catches.target_catch / ground_covered)
    reach = exp(normal_reach(float(sure)) * root(caught.variance)) - 1
    within = up_to_step(reach, HUNDREDTH)
    if tried.here:
        return Foreseen.SetAgain(opening, foreseen, within)
    if same(to_step(plan.opening, tried.case.marks.step), plan.opening):
        return Foreseen.SetNext(opening, foreseen, within)
    return Foreseen.SetBetween(opening, foreseen, within)


def early_card_by_all(*, catches: Catches, ground_covered: Area) -> OneCatch | OffTarget | NoCatch:
    """Whether a card can be made now, marked as not proven.

    By the catches of this stay that `judge_opening` counts; ground in m2. Where the last catch
    brought nothing, or all are void, none counts. Source: as `judge_opening`.
    """
    if not catches.trials:
        return NoCatch()
    told, empty = catches.since_full
    stay = heard(told, catches.case).stay if catches.last > 0 and not empty else ()
    caught = [exp(each.caught) for each in stay] or [catches.last / catches.target_catch]
    found = mean(caught) * (catches.target_catch / ground_covered), mean(caught) - 1
    near = stay and at_most(abs(found[1]), catches.tolerance)
    return OneCatch(*found) if near else OffTarget(*found)


def catches_aside(*, catches: Catches) -> AllAgree | OneOdd | SomeOdd:
    """The catches at the present setting (kg) that `judge_opening` put aside.

    Source: as `judge_opening`.
    """
    aside = heard(catches.since_full.told, catches.case).aside
    odd = tuple(exp(each.caught) * catches.target_catch for each in aside)
    if not odd:
        return AllAgree()
    return SomeOdd(odd) if len(odd) > 1 else OneOdd(odd[0])


@lru_cache(maxsize=KEPT)
def _tried(told: tuple[Told, ...], case: Case) -> Tried:
    tells = heard(told, case)
    return Tried(told, case, tells, next_plan(tells.beliefs, told[-1].opening, len(told), case))
