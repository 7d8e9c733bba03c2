"""How the catches of a drill scatter: what a card keeps of it, and what that changes next time."""

from __future__ import annotations

from math import log
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from assistant.calc import scatter, turned
from assistant.calc.assumed import MOST_REPEATS, REPEATS
from assistant.calc.beliefs import Repeats, guesses
from assistant.calc.deciding import heard
from assistant.calc.scatter import DrillScatter, ScatterByCard
from tests.calc.test_turned import GROUND, facts

TENTH = 0.0005
"""Half of the tenth of a hundredth that a scatter is kept in."""


def kept(*catches: tuple[float, float], **given_: Any) -> Any:
    """What a card keeps after these catches."""
    return scatter.drill_scatter(catches=facts(*catches, **given_))


def test_two_catches_at_one_setting_by_hand() -> None:
    """1.00 and 1.02: half of ln 1.02 from the middle each; times root 2 that is the scatter."""
    found = kept((14, 1.0), (14, 1.02))
    assert found.drill_repeats == 1
    assert found.drill_scatter == pytest.approx(log(1.02) / 2 * 2**0.5, abs=TENTH)


def test_one_catch_at_a_setting_tells_nothing() -> None:
    assert kept((14, 1.0)) == DrillScatter.Once()
    assert kept((14, 0.85), (16.5, 1.0)) == DrillScatter.Once()


def test_what_was_told_before_is_pooled_and_kept_without_a_repeat() -> None:
    """1.0 % of three repeats and 2.0 % of one: the root of (3 x 1 + 1 x 4) / 4 is 1.32 %."""
    before = {"scatter_told": 0.010, "repeats_told": 3.0}
    apart = 0.020 * 2**0.5
    found = kept((14, 1.0), (14, 1.0 * np.exp(apart)), **before)
    assert (found.drill_scatter, found.drill_repeats) == (pytest.approx(0.013), 4)
    assert kept((14, 1.0), **before) == DrillScatter.Worked(0.010, 3)


def test_a_catch_that_was_put_aside_is_no_scatter() -> None:
    assert kept((14, 1.0), (14, 0.72), (14, 1.02)) == kept((14, 1.0), (14, 1.02))


def test_an_old_card_counts_for_a_few_repeats_only() -> None:
    found = scatter.scatter_by_card(last_scatter=0.012, last_repeats=40.0)
    assert found == ScatterByCard.Worked(0.012, MOST_REPEATS)
    found = scatter.scatter_by_card(last_scatter=0.012, last_repeats=5.0)
    assert found == ScatterByCard.Worked(0.012, 5.0)


@given(st.lists(st.floats(-0.02, 0.02), min_size=3, max_size=6))
def test_second_opinion_on_the_scatter(logs: list[float]) -> None:
    """All near 1, so that none is put aside but for a first one that may have been short."""
    catches = [(14.0, float(np.exp(each))) for each in (0.0, *logs)]
    stay = heard(facts(*catches).since_full.told, facts(*catches).case).stay
    found = kept(*catches)
    assert found.drill_repeats == len(stay) - 1
    by_numpy = np.std([each.caught for each in stay], ddof=1)
    assert found.drill_scatter == pytest.approx(by_numpy, abs=TENTH + 1e-9)


@pytest.mark.parametrize("told", [0.004, 0.012, 0.03])
@pytest.mark.parametrize("number", [1, 4, 12])
def test_a_guess_at_the_scatter_goes_by_the_chi_square_law(told: float, number: int) -> None:
    noise = 1e-4

    def by_scipy(repeat: float) -> float:
        variance = repeat**2 + noise
        ratio = number * told**2 / variance
        return float(stats.chi2.logpdf(ratio, number) + log(number / variance))

    plain = guesses(14, noise, 0.5, Repeats(0, 0))
    knowing = guesses(14, noise, 0.5, Repeats(told, number))
    gain = {
        each.scatter: each.weight - was.weight for was, each in zip(plain, knowing, strict=True)
    }
    least, *others = REPEATS
    for other in others:
        found = gain[other**2 + noise] - gain[least**2 + noise]
        assert found == pytest.approx(by_scipy(other) - by_scipy(least), rel=1e-9, abs=1e-9)


def test_a_steady_drill_is_sooner_sure_and_a_rough_one_later() -> None:
    def chance(scatter_told: float) -> float:
        seen = facts((14, 1.0), (14, 1.02), scatter_told=scatter_told, repeats_told=6.0)
        judged = turned.judge_opening(catches=seen, ground_covered=GROUND)
        assert isinstance(judged, turned.Sure.OnTarget | turned.Sure.Proven)
        return judged.on_target_chance

    assert chance(0.006) > chance(0.012) > chance(0.03)
