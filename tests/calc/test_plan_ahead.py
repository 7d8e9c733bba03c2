"""The plan at an opening that is turned: on rows as drills give them, and by drawing drills."""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import Any

import numpy as np
import pytest
from scipy import special, stats

from assistant.calc import assumed
from assistant.calc.beliefs import Belief, weighed
from assistant.calc.calculation import outcome_name
from assistant.calc.catalogue import CATALOGUE
from assistant.calc.catch_examples import TURNED
from assistant.calc.contract import Trial
from assistant.calc.deciding import Case, Plan, best_plan, heard
from tests.calc.second.exact import exact_all
from tests.calc.second.turned import not_decided
from tests.calc.test_second_opinions import OPINIONS, faults
from tests.calc.test_turned import Seen, case, told

ROWS = 330
LEFT_OPEN = 12
"""So many rows at most may hang on the last bits of floats."""
DRAWS = 40_000
OUTCOMES = {
    *("proven", "on_target", "not_sure", "light", "heavy", "near_light", "near_heavy"),
    *("same_mark", "put_aside", "set_next", "set_again", "set_between", "as_near"),
    *("too_wide", "too_narrow"),
}


def row(seed: int) -> dict[str, Any]:
    """1 to 6 catches on marks; a third from anywhere, the others of a drill that is being set."""
    chance = Random(seed)
    step = chance.choice([0.5, 0.5, 1.0, 2.0])
    ends = chance.triangular(1.5, 44, 4)
    dead = chance.uniform(-1, min(3, ends - 1))
    at, anywhere, catches = (
        _on_mark(ends * chance.uniform(0.8, 1.2), step),
        chance.random() < 1 / 3,
        [],
    )
    lies = chance.gauss(at, 0.15)
    for _ in range(chance.randint(1, 6)):
        share = (lies - dead) / (ends - dead) * chance.gauss(1, 0.012)
        if anywhere:
            share = chance.uniform(0.6, 1.5)
        if chance.random() < 0.08:
            share *= chance.choice([0.75, 1.3])
        share = min(max(share, 0.6), 1.5)
        catches.append((at, share))
        if chance.random() < 0.5:
            wish = at / share if chance.random() < 0.8 else at + step
            at = _on_mark(wish, step)
            lies = chance.gauss(at, 0.15)
    return {
        **TURNED,
        "trials": tuple(
            Trial(opening=mm / 1000, catch_weight=share * 0.3) for mm, share in catches
        ),
        "opening_step": step / 1000,
        "widest_opening": chance.choice([40.0, max(_on_mark(ends, step), at)]) / 1000,
        "tolerance": chance.uniform(0.02, 0.08),
        "turns": float(chance.randint(20, 120)),
        "catch_step": chance.choice([0.0005, 0.001, 0.005, 0.01]),
        "start_may_miss": chance.choice([0.1, 0.5]),
        "chance_sure": chance.choice([0.977, 0.98]),
        "repeats_told": float(chance.choice([0, 0, 3, 12])),
        "scatter_told": chance.uniform(0.005, 0.02),
    }


def _on_mark(opening: float, step: float) -> float:
    return min(max(round(opening / step) * step, 3.0), 40.0)


def test_both_plan_the_same_on_rows_of_catches() -> None:
    """Where one row is off, it is named by its number."""
    off: dict[int, list[str]] = {}
    met: Counter[str] = Counter()
    left_open = 0
    for number in range(ROWS):
        inputs = row(number)
        if not_decided(exact_all(inputs)):
            left_open += 1
            continue
        for name, more in (("judge_opening", {}), ("aim_opening", {"sure": 0.95})):
            taken = {**inputs, "ground_covered": 36.0, **more}
            found = faults(CATALOGUE[name], OPINIONS[name], taken)
            off |= {number: found} if found else {}
            met[outcome_name(type(CATALOGUE[name].run(taken)))] += 1
        found = faults(CATALOGUE["catches_aside"], OPINIONS["catches_aside"], inputs)
        off |= {number: found} if found else {}
    assert off == {}
    assert left_open <= LEFT_OPEN
    assert met.keys() >= OUTCOMES


def ends_sure(beliefs: list[Belief], plan: Plan, case_: Case) -> tuple[float, float]:
    """The worth of a plan by drawing drills from the beliefs, catches from those; and its error.

    After each catch all guesses are weighed anew; so many drills are then sure to be on target.
    """
    random = np.random.default_rng(11)
    share, guesses = zip(*weighed(beliefs), strict=True)
    laws = [each.at(plan.opening) if plan.set_anew else each.stands for each in guesses]
    mean, variance = np.array(laws).T[..., np.newaxis]
    scatter = np.array([[each.scatter] for each in guesses])
    drawn = random.choice(len(share), DRAWS, p=share)
    lies = random.normal(mean[drawn, 0], np.sqrt(variance[drawn, 0]))
    catches = random.normal(lies, np.sqrt(scatter[drawn, 0]), (assumed.LOOK_AHEAD, DRAWS))
    low, high = case_.wanted.low, case_.wanted.high
    weight, found = np.log(share)[:, np.newaxis], [(0.0, 0.0)]
    for number, caught in enumerate(catches, 1):
        weight = weight + stats.norm.logpdf(caught, mean, np.sqrt(variance + scatter))
        mean = (mean / variance + caught / scatter) / (1 / variance + 1 / scatter)
        variance = 1 / (1 / variance + 1 / scatter)
        inside = np.diff(stats.norm.cdf([[[low]], [[high]]], mean, np.sqrt(variance)), axis=0)[0]
        chance = np.sum(special.softmax(weight, axis=0) * inside, axis=0)
        sure = float(np.mean(chance >= case_.wanted.sure))
        catches_spent = number + assumed.MOVING * plan.set_anew
        error = np.sqrt(sure * (1 - sure) / DRAWS)
        found.append((sure / catches_spent, float(error) / catches_spent))
    return max(found)


SEEN: list[Seen] = [
    ((14, 1.0),),
    ((14, 1.03),),
    ((14, 1.2),),
    ((14, 1.0), (14, 1.035)),
    ((20, 1.2), (17, 1.03)),
]


@pytest.mark.parametrize("tolerance", [0.03, 0.05])
@pytest.mark.parametrize("catches", SEEN)
def test_the_worth_of_a_plan_is_how_often_it_ends_on_target(
    catches: Seen, tolerance: float
) -> None:
    """For one guess the worth is no approximation."""
    likeliest = max(heard(told(*catches), case(tolerance)).beliefs, key=lambda each: each.weight)
    plan = best_plan([likeliest], catches[-1][0], case(tolerance))
    drawn, error = ends_sure([likeliest], plan, case(tolerance))
    assert plan.worth == pytest.approx(drawn, abs=4 * error + 1e-4)


@pytest.mark.parametrize("catches", [each for each in SEEN if len(each) > 1])
def test_the_worth_by_all_guesses_is_near_it_from_two_catches_on(catches: Seen) -> None:
    """It takes all guesses as one normal law; after one catch that may be short this is rough."""
    beliefs = heard(told(*catches), case()).beliefs
    plan = best_plan(beliefs, catches[-1][0], case())
    assert plan.worth == pytest.approx(ends_sure(beliefs, plan, case())[0], abs=0.02)
