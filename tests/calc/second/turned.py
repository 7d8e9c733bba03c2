"""Openings that are turned, once more: what a catch means, and where to set it next."""

from fractions import Fraction
from math import ceil, exp, floor, sqrt
from typing import NamedTuple

import numpy as np
from scipy import stats

from assistant.calc import assumed
from tests.calc.second.aiming import nearest_step
from tests.calc.second.beliefs import Catch, Drills, Known
from tests.calc.second.catches import alike, seed_of
from tests.calc.second.deciding import (
    Heard,
    Plan,
    Wish,
    heard,
    left_open,
    next_plan,
    past,
)
from tests.calc.second.exact import DUST, Exact, Given, not_over, same
from tests.calc.second.falling import since_full


class Tried(NamedTuple):
    """The catches that count, what they tell, and what comes next.

    `near` is where nothing promises an end.
    """

    heard: Heard
    drills: Drills
    present: Fraction
    plan: Plan
    near: bool


def judge_opening(of: Given) -> Exact:
    last = seed_of(of["trials"][-1], of)
    found = {
        "caught_rate": last / of["ground_covered"],
        "percent_off": last / of["target_catch"] - 1,
    }
    if last <= 0:
        return {"outcome": "nothing_caught", **found}
    wish = wish_of(of)
    run, empty = since_full(seen(of), wish.known)
    if empty:
        return {"outcome": "runs_empty", **found}
    tried = try_out(run, wish)
    if tried.heard.odd:
        moved = not tried.heard.stay
        mean, _ = tried.drills.next_catch(float(tried.present), moved=moved)
        expected = exp(mean) * float(of["target_catch"] / of["ground_covered"])
        return {"outcome": "put_aside", **found, "expected_here": expected}
    shares = [each.share for each in tried.heard.stay]
    share = sum(shares, Fraction(0)) / len(shares)
    found = {
        "caught_rate": share * of["target_catch"] / of["ground_covered"],
        "percent_off": share - 1,
    }
    chance = float(tried.drills.within(np.array([wish.tolerance]))[0])
    sure = {"on_target_chance": chance, "sure_within": _sure_within(tried.drills, wish)}
    if chance >= wish.sure * (1 - float(DUST)):
        return {"outcome": "proven", **found, **sure}
    sure["on_target_chance"] = _hundredths_under(chance)
    near = not_over(abs(share - 1), of["tolerance"])
    if not tried.plan.moved:
        return (
            {"outcome": "on_target", **found, **sure} if near else {"outcome": "not_sure", **found}
        )
    here = same(tried.plan.opening, tried.present)
    if here and not tried.near and not past(tried.plan, tried.drills, wish):
        return {"outcome": "same_mark", **found}
    more = share < 1 if here else tried.plan.opening > tried.present
    side = "light" if more else "heavy"
    if near:
        told = {"on_target_chance": sure["on_target_chance"]}
        return {"outcome": f"near_{side}", **found, **told}
    return {"outcome": side, **found}


def aim_opening(of: Given) -> Exact:
    wish = wish_of(of)
    run, _ = since_full(seen(of), wish.known)
    tried = try_out(run, wish)
    if beyond := past(tried.plan, tried.drills, wish):
        return {"outcome": beyond}
    there = tried.plan.opening
    found: dict[str, object] = {
        "next_opening": nearest_step(there * of["one_mm"], of["opening_step"] / 2)
    }
    here = same(there, tried.present)
    if tried.near and here:
        return {"outcome": "as_near", **found}
    if not 0 < of["sure"] < 1:
        raise ValueError(of)
    mean, variance = tried.drills.next_catch(float(there), moved=True)
    reach = stats.norm.ppf((1 + float(of["sure"])) / 2) * sqrt(variance)
    found["foreseen_rate"] = exp(mean) * float(of["target_catch"] / of["ground_covered"])
    found["foreseen_within"] = ceil(100 * (exp(reach) - 1) * (1 - float(DUST))) / 100
    on_mark = same(nearest_step(there, wish.step), there)
    return {
        "outcome": "set_again" if here else "set_next" if on_mark else "set_between",
        **found,
    }


def early_card_by_all(of: Given) -> Exact:
    if not of["trials"]:
        return {"outcome": "no_catch"}
    wish, last = wish_of(of), seed_of(of["trials"][-1], of)
    run, empty = since_full(seen(of), wish.known)
    counts = [] if last <= 0 or empty else [each.share for each in heard(run, wish).stay]
    share = sum(counts, Fraction(0)) / len(counts) if counts else last / of["target_catch"]
    near = counts and not_over(abs(share - 1), of["tolerance"])
    return {
        "outcome": "one_catch" if near else "off_target",
        "caught_rate": share * of["target_catch"] / of["ground_covered"],
        "percent_off": share - 1,
    }


def catches_aside(of: Given) -> Exact:
    wish = wish_of(of)
    run, _ = since_full(seen(of), wish.known)
    odd = tuple(each.share * of["target_catch"] for each in heard(run, wish).aside)
    if not odd:
        return {"outcome": "all_agree"}
    if len(odd) == 1:
        return {"outcome": "one_odd", "odd_catch": odd[0]}
    return {"outcome": "some_odd", "odd_catches": odd}


def not_decided(of: Given) -> bool:
    """Whether the ends of the scale are the wrong way round, or plans are too close to tell."""
    try:
        wish = wish_of(of)
        run, _ = since_full(seen(of), wish.known)
    except (ValueError, ZeroDivisionError):
        return False
    return wish.widest < wish.narrowest or left_open(run, wish)


def wish_of(of: Given) -> Wish:
    """What is wanted and known. Raises ValueError for a chance that is none over a half."""
    tolerance, sure = float(of["tolerance"]), float(of["chance_sure"])
    if not (1 / 2 < sure < 1 and -1 < tolerance < 1):
        raise ValueError(of)
    made, one_step = of["turns"] / of["one_turn"], of["catch_step"] / of["target_catch"]
    # Two weighings, each evenly off by up to half a step: a twelfth of its square.
    noise = (
        (assumed.PULSE / float(made)) ** 2
        + float(one_step**2) / 6
        + assumed.LOST / float(made) ** 2
    )
    start = assumed.FROM_MISS * float(of["start_may_miss"])
    known = Known(start, noise, float(of["scatter_told"]), float(of["repeats_told"]))
    step, narrowest, widest = (
        of[each] / of["one_mm"] for each in ("opening_step", "narrowest_opening", "widest_opening")
    )
    return Wish(tolerance, sure, step, narrowest, widest, known)


def seen(of: Given) -> list[Catch]:
    """The catches that brought seed. The lever moved if it did since the last such one."""
    found: list[Catch] = []
    moved = True
    for number, trial in enumerate(of["trials"]):
        moved = moved or not alike(trial, of["trials"][number - 1])
        seed = seed_of(trial, of)
        if seed > 0 and trial.opening is not None:
            opening = Fraction(trial.opening) / of["one_mm"]
            found.append(Catch(opening, seed / of["target_catch"], moved, first=not found))
            moved = False
    return found


def try_out(run: list[Catch], wish: Wish) -> Tried:
    """What comes next. Raises IndexError without a catch."""
    present = run[-1].opening
    so_far = heard(run, wish)
    plan, near = next_plan(so_far, present, len(run), wish)
    return Tried(so_far, so_far.drills(wish), present, plan, near)


def _sure_within(of_all: Drills, wish: Wish) -> float:
    hundredths = np.arange(1, 100) / 100
    kept = hundredths[of_all.within(hundredths) >= wish.sure]
    return float(kept[0]) if kept.size else 1.0


def _hundredths_under(share: float) -> float:
    return floor(100 * share * (1 + float(DUST))) / 100
