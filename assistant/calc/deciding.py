"""What follows from the catches at an opening: enough, one more there, or another mark."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import exp, log
from typing import NamedTuple

from assistant.calc.assumed import (
    HALF_MARKS,
    HOPELESS,
    HUNDREDTH,
    KEPT,
    LOOK_AHEAD,
    MOVING,
    ODD,
    TRIES,
)
from assistant.calc.beliefs import (
    Belief,
    Normal,
    Repeats,
    Told,
    Weighed,
    guesses,
    mixed,
    weighed,
)
from assistant.calc.chance import normal_reach
from assistant.calc.figures import down_to_step, root, same, to_step


class Band(NamedTuple):
    """What is wanted: within a tolerance, in so many of all cases that it counts as sure.

    `low` and `high` bound ln(output / target); so many standard deviations as `guard` from there a
    mean is sure.
    """

    tolerance: float
    sure: float
    low: float
    high: float
    guard: float


class Marks(NamedTuple):
    """The marks that an opening can be set to, in mm."""

    step: float
    narrowest: float
    widest: float

    def about(self, opening: float) -> Iterator[float]:
        """The two marks under an opening and the two over it, as far as they are on the scale."""
        under = down_to_step(opening, self.step)
        for number in (-1, 0, 1, 2):
            yield min(max(under + number * self.step, self.narrowest), self.widest)

    @property
    def halved(self) -> "Marks":
        """These marks, and the places midway between them."""
        return self._replace(step=self.step / 2)


class Case(NamedTuple):
    """What is the same for all catches: what is wanted, the marks, and how far a catch can miss.

    `noise` is the variance that turns and scale leave, `start_may_miss` a share, `before` what
    earlier catches of this drill tell.
    """

    wanted: Band
    marks: Marks
    noise: float
    start_may_miss: float
    before: Repeats = Repeats(0, 0)


class Plan(NamedTuple):
    """What to do next: the opening (mm), whether it is set anew, what it should throw there.

    `worth` is the chance per catch that this ends on target. `near` is where nothing promises an
    end: then it is the mark that comes nearest.
    """

    worth: float
    opening: float
    throws: Normal
    set_anew: bool = True
    near: bool = False


class Heard(NamedTuple):
    """What all catches make of a drill; those at this setting that count, and those put aside.

    `odd` is where the last catch was put aside.
    """

    beliefs: list[Belief]
    stay: tuple[Told, ...] = ()
    aside: tuple[Told, ...] = ()
    odd: bool = False


def band(tolerance: float, sure: float) -> Band:
    """The band of a tolerance; both are shares, `sure` more than a half."""
    return Band(tolerance, sure, log(1 - tolerance), log(1 + tolerance), normal_reach(2 * sure - 1))


def heard(told: Sequence[Told], case: Case) -> Heard:
    """All catches in their order, less those that can't be.

    A first catch that was more likely short is put aside once there is another at its setting.
    A catch far from what those before it foretell is put aside. Comes another one like it at the
    same setting, then those before were wrong, or something has changed: from these two on all
    begins anew. Raises ValueError without a catch.
    """
    so_far = _so_far(tuple(told), case)
    first, *rest = so_far.stay or (told[0],)
    if first.first and rest and _short(so_far.beliefs) > 1 / 2:
        return so_far._replace(stay=tuple(rest), aside=(first, *so_far.aside))
    return so_far


@lru_cache(maxsize=KEPT)
def _so_far(told: tuple[Told, ...], case: Case) -> Heard:
    """What catches tell, the first one as it came; those before the last were heard as a rule."""
    *before, last = told
    if before:
        so_far = _so_far(tuple(before), case)
        anew = last.set_anew or _again(so_far, len(before), case)
        return _heard(so_far, last._replace(set_anew=anew), case)
    return Heard(_after(guesses_by(last, case), last), (last,))


def _short(beliefs: Sequence[Belief]) -> float:
    """The share of all beliefs in which the first catch was short."""
    return sum(share for share, each in weighed(beliefs) if each.short)


def _heard(before: Heard, told: Told, case: Case) -> Heard:
    """One more catch."""
    here = Heard(before.beliefs) if told.set_anew else before
    catch = told._replace(set_anew=not here.stay)
    if not odd_among(here.beliefs, catch):
        return Heard(_after(here.beliefs, catch), (*here.stay, catch), here.aside)
    like = tuple(each for each in here.aside if _alike(each, catch, here.beliefs))
    if not like:
        return here._replace(aside=(*here.aside, catch), odd=True)
    anew = _after(guesses_by(catch, case), like[-1]._replace(set_anew=True))
    others = tuple(each for each in here.aside if each not in like)
    again = catch._replace(set_anew=False)
    return Heard(_after(anew, again), (*like, again), (*here.stay, *others))


def _again(before: Heard, made: int, case: Case) -> bool:
    """Whether after so many catches the plan was to back off and set the same opening again."""
    if not before.stay or before.odd:
        return False
    opening = before.stay[-1].opening
    plan = next_plan(before.beliefs, opening, made, case)
    return sets_again(plan, opening, before.beliefs, case)


def _after(beliefs: Sequence[Belief], told: Told) -> list[Belief]:
    return [belief.after(told) for belief in beliefs]


def guesses_by(first: Told, case: Case) -> list[Belief]:
    """Every guess at a drill that a first catch allows, before it is heard."""
    return guesses(first.opening, case.noise, case.start_may_miss, case.before)


def odd_among(beliefs: Sequence[Belief], told: Told) -> bool:
    """Whether a catch lies far from what was foretold of it."""
    foretold = foretold_catch(beliefs, told)
    return abs(told.caught - foretold.mean) > ODD * root(foretold.variance)


def _alike(one: Told, other: Told, beliefs: Sequence[Belief]) -> bool:
    """Whether two catches at one setting differ by no more than catches do."""
    return abs(one.caught - other.caught) <= ODD * root(2 * _scatter(weighed(beliefs)))


def chance_within(beliefs: Sequence[Belief], wanted: Band) -> float:
    """The share of all such drills that throw what is wanted, as the lever stands."""
    return sum(
        share * each.stands.between(wanted.low, wanted.high) for share, each in weighed(beliefs)
    )


def sure_within(beliefs: Sequence[Belief], sure: float) -> float:
    """The tolerance, in whole hundredths, that so many of all such drills keep; at most 1."""
    found = weighed(beliefs)
    tolerance = HUNDREDTH
    while tolerance < 1:
        low, high = log(1 - tolerance), log(1 + tolerance)
        if sum(share * each.stands.between(low, high) for share, each in found) >= sure:
            return tolerance
        tolerance = to_step(tolerance + HUNDREDTH, HUNDREDTH)
    return 1


def next_plan(beliefs: Sequence[Belief], opening: float, made: int, case: Case) -> Plan:
    """What to do after so many catches: the best plan, or where none promises an end the nearest.

    Where a mark is more likely on target than not, there is hope yet.
    """
    plan = best_plan(beliefs, opening, case)
    if plan.worth < HOPELESS and made >= TRIES:
        near = nearest_plan(beliefs, case)
        if near.throws.between(case.wanted.low, case.wanted.high) < 1 / 2:
            return near._replace(near=True)
    return plan


def sets_again(plan: Plan, opening: float, beliefs: Sequence[Belief], case: Case) -> bool:
    """Whether a plan is to back off, and to set the same opening (mm) again."""
    again = plan.set_anew and not plan.near and same(plan.opening, opening)
    return again and not past(plan, beliefs, case)


def past(plan: Plan, beliefs: Sequence[Belief], case: Case) -> int:
    """1 where it would have to open past its widest, -1 past its narrowest; else 0."""
    wanted, marks = case.wanted, case.marks
    if plan.throws.between(wanted.low, wanted.high) > 1 / 2:
        return 0
    aim = aimed_at(beliefs)
    return (aim > marks.widest + marks.step / 2) - (aim < marks.narrowest - marks.step / 2)


def best_plan(beliefs: Sequence[Belief], opening: float, case: Case) -> Plan:
    """Another catch as it stands, or a mark to set: what most likely ends on target per catch.

    Where no mark promises much, places midway between two marks are weighed too. Where nothing
    promises an end, it is the mark nearest to the estimate, or, on target by the estimate, another
    catch.
    """
    found = weighed(beliefs)
    stands = mixed([(share, each.stands) for share, each in found])
    stay = Plan(_worth(stands, _scatter(found), case.wanted, 0), opening, stands, set_anew=False)
    moves = _moves(found, case, case.marks)
    best = max((stay, *moves), key=lambda plan: plan.worth)
    half = max(_moves(found, case, case.marks.halved), key=lambda plan: plan.worth)
    best = half if half.worth > HALF_MARKS * best.worth else best
    if best.worth > 0 or case.wanted.low < stands.mean < case.wanted.high:
        return best
    aim = _aim(found)
    return min(moves, key=lambda plan: abs(plan.opening - aim))


def nearest_plan(beliefs: Sequence[Belief], case: Case) -> Plan:
    """The mark, or the place midway between two, that most likely throws what is wanted."""
    return max(
        _moves(weighed(beliefs), case, case.marks.halved),
        key=lambda plan: plan.throws.between(case.wanted.low, case.wanted.high),
    )


def aimed_at(beliefs: Sequence[Belief]) -> float:
    """The opening (mm) that should throw what is wanted, by all beliefs."""
    return _aim(weighed(beliefs))


def foretold_catch(beliefs: Sequence[Belief], told: Told) -> Normal:
    """What a catch should bring that is not made yet: ln(catch / target)."""
    return mixed([(share, each.foretells(told)) for share, each in weighed(beliefs)])


def _aim(found: Weighed) -> float:
    return sum(share * (each.dead_zone + exp(-each.law.mean)) for share, each in found)


def _scatter(found: Weighed) -> float:
    return sum(share * each.scatter for share, each in found)


def _moves(found: Weighed, case: Case, marks: Marks) -> list[Plan]:
    """The marks (mm) about the estimate, as plans."""
    scatter = _scatter(found)
    plans: list[Plan] = []
    for mark in marks.about(_aim(found)):
        throws = mixed([(share, each.at(mark)) for share, each in found])
        plans.append(Plan(_worth(throws, scatter, case.wanted, MOVING), mark, throws))
    return plans


def _worth(throws: Normal, scatter: float, wanted: Band, cost: float) -> float:
    """The best chance per catch that some more catches at a setting end on target."""
    half = (wanted.high - wanted.low) / 2
    off, best = throws.mean - (wanted.high + wanted.low) / 2, 0.0
    for more in range(1, LOOK_AHEAD + 1):
        left = throws.variance * scatter / (more * throws.variance + scatter)
        room = half - wanted.guard * root(left)
        if room > 0:
            shown = Normal(off, throws.variance - left)
            best = max(best, shown.between(-room, room) / (more + cost))
    return best
