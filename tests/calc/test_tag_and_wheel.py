"""Seeds counted and weighed, and how far one turn goes."""

import math
from fractions import Fraction

import pytest
import scipy.stats
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import tag, wheel
from tests.calc.us import FT, IN, PER_LB, us

EXACT = 1e-12


def counted(seeds: list[float], grams: list[float], most: float = 0.04) -> object:
    return tag.counted_seeds(
        seeds_counted=tuple(seeds),
        counted_weight=tuple(weight / 1000 for weight in grams),
        count_spread_most=most,
    )


def test_one_count_has_no_spread() -> None:
    assert counted([312.0], [11.4]) == tag.OneCount(312 / 0.0114)


def test_the_20_g_rule_is_the_mean_of_the_counts() -> None:
    # Count x 22.68: University of Kentucky Cooperative Extension, counts of our own.
    found = counted([540.0, 552.0, 531.0], [20.0])
    assert isinstance(found, tag.Agree)
    mean_count = Fraction(540 + 552 + 531, 3)
    assert found.seeds_per_weight == pytest.approx(float(mean_count / Fraction(2, 100)), rel=EXACT)
    assert found.seeds_per_weight == pytest.approx(us("541") * 22.68 * float(PER_LB), rel=1e-4)


def test_all_seeds_over_all_weight_lets_a_big_sample_count_for_more() -> None:
    found = counted([100.0, 900.0], [4.0, 30.0], most=0.2)
    assert isinstance(found, tag.Agree)
    assert found.seeds_per_weight == pytest.approx(1000 / 0.034, rel=EXACT)


def test_eight_hundreds_judged_by_the_thousand_seed_rule() -> None:
    # ISTA rules, chapter 10, from memory: 8 x 100 seeds, variation at most 4 %, divisor n - 1.
    grams = [3.51, 3.62, 3.55, 3.7, 3.58, 3.49, 3.66, 3.6]
    found = counted([100.0] * 8, grams)
    assert isinstance(found, tag.Agree)
    expected = float(scipy.stats.variation(grams, ddof=1))
    assert found.count_spread == pytest.approx(expected, rel=1e-9)
    assert 1 / found.seeds_per_weight == pytest.approx(sum(grams) / 800_000, rel=EXACT)


def test_the_limit_is_met_at_the_limit_and_not_past_it() -> None:
    grams = [3.4, 3.6, 3.8]
    exactly = float(scipy.stats.variation(grams, ddof=1))
    assert isinstance(counted([100.0] * 3, grams, exactly), tag.Agree)
    assert isinstance(counted([100.0] * 3, grams, exactly * 0.999), tag.Apart)
    assert isinstance(counted([100.0] * 3, grams, exactly * 1.001), tag.Agree)


def test_apart_counts_still_give_a_figure() -> None:
    found = counted([100.0, 100.0], [3.0, 4.0])
    assert isinstance(found, tag.Apart)
    assert found.seeds_per_weight == pytest.approx(200 / 0.007, rel=EXACT)
    assert found.count_spread == pytest.approx(math.sqrt(0.5) / 3.5, rel=EXACT)


@pytest.mark.parametrize(
    ("seeds", "grams"),
    [([100.0], [3.0, 4.0]), ([100.0] * 3, [3.0, 4.0]), ([100.0] * 2, [3.0] * 3)],
)
def test_weights_that_belong_to_no_count_are_told(seeds: list[float], grams: list[float]) -> None:
    assert counted(seeds, grams) == tag.NotPaired()


@given(st.integers(1, 5), st.floats(0.5, 50.0))
def test_twice_the_seeds_of_the_same_weight_are_twice_as_many(counts: int, grams: float) -> None:
    once = counted([100.0] * counts, [grams] * counts)
    twice = counted([200.0] * counts, [grams] * counts)
    assert isinstance(once, tag.OneCount | tag.Agree)
    assert isinstance(twice, type(once))
    assert twice.seeds_per_weight == pytest.approx(2 * once.seeds_per_weight, rel=EXACT)


def test_ten_turns_in_66_ft_3_in_are_79_and_a_half_inches_a_turn() -> None:
    found = wheel.rolled_distance_per_turn(rolled_turns=10.0, rolled_distance=us("66.25", FT))
    assert found.distance_per_turn == pytest.approx(us("79.5", IN), rel=EXACT)


def test_the_axle_height_is_half_of_the_diameter() -> None:
    # 13 in: once round a circle of 26 in is 81.68 in.
    found = wheel.axle_distance_per_turn(axle_height=us("13", IN), one_turn=1.0)
    assert found.distance_per_turn / float(IN) == pytest.approx(26 * math.pi, rel=EXACT)
    assert found.distance_per_turn / float(IN) == pytest.approx(81.68, abs=0.005)


@given(st.floats(0.1, 100.0), st.floats(0.5, 100.0))
def test_doubling_turns_halves_and_doubling_distance_doubles(distance: float, turns: float) -> None:
    def per_turn(length: float, count: float) -> float:
        return wheel.rolled_distance_per_turn(
            rolled_distance=length, rolled_turns=count
        ).distance_per_turn

    once = per_turn(distance, turns)
    assert per_turn(2 * distance, turns) == pytest.approx(2 * once, rel=EXACT)
    assert per_turn(distance, 2 * turns) == pytest.approx(once / 2, rel=EXACT)
    by_axle = wheel.axle_distance_per_turn(axle_height=distance, one_turn=1.0)
    higher = wheel.axle_distance_per_turn(axle_height=2 * distance, one_turn=1.0)
    assert higher.distance_per_turn == pytest.approx(2 * by_axle.distance_per_turn, rel=EXACT)
