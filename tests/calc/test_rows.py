"""Rows against each other: a pattern before limits; and what rows not caught leave open."""

import random
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from statistics import mean, median

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from assistant.calc import rows, rows_left
from assistant.calc.contract import Trial

LIMITS = {
    "row_low": 0.9,
    "row_high": 1.1,
    "plugged_under": 0.75,
    "hot_over": 1.2,
    "pattern_least": 0.05,
    "pattern_sure": 0.99,
    "one_row": 1.0,
}
EXACT = 1e-9
PATTERNS = rows.EveryOther | rows.OneHalf | rows.BothEnds


def pattern(*grams: float) -> object:
    return rows.row_pattern(row_weights=tuple(gram / 1000 for gram in grams), **LIMITS)


def test_every_other_row_is_seen_though_none_is_ten_in_a_hundred_off() -> None:
    found = pattern(80, 70, 82, 69, 79, 71, 81, 68)
    assert isinstance(found, rows.EveryOther)
    assert found.light_rows == (2.0, 4.0, 6.0, 8.0)
    # Odd rows 322 g, even rows 278 g: 278 / 322 - 1. Median (71 + 79) / 2 = 75 g.
    assert found.light_off == pytest.approx(-44 / 322, rel=EXACT)
    assert found.row_cv == pytest.approx(0.080, abs=0.0005)
    assert max(map(abs, found.row_offs)) < 0.1
    assert found.row_offs[0] == pytest.approx(5 / 75, rel=EXACT)


@pytest.mark.parametrize(
    ("grams", "outcome", "numbers"),
    [
        ((70, 80, 69, 82, 71, 79), rows.EveryOther, (1.0, 3.0, 5.0)),
        ((80, 81, 79, 80, 70, 69, 71, 70), rows.OneHalf, (5.0, 6.0, 7.0, 8.0)),
        ((70, 69, 71, 75, 80, 81, 79), rows.OneHalf, (1.0, 2.0, 3.0)),
        ((80, 80, 80, 0, 0, 0), rows.OneHalf, (4.0, 5.0, 6.0)),
        ((70, 80, 81, 79, 80, 69), rows.BothEnds, (1.0, 6.0)),
        ((90, 80, 81, 79, 80, 91), rows.BothEnds, (2.0, 3.0, 4.0, 5.0)),
    ],
)
def test_a_pattern_names_its_light_rows(
    grams: Sequence[float], outcome: type, numbers: tuple[float, ...]
) -> None:
    found = pattern(*grams)
    assert isinstance(found, PATTERNS)
    assert type(found) is outcome
    assert found.light_rows == numbers


@pytest.mark.parametrize("rows_caught", [2.0, 4.0])
def test_a_weight_too_many_or_too_few_is_told(rows_caught: float) -> None:
    def told(rows_caught: float) -> object:
        return rows.rows_told(
            row_weights=(0.054, 0.057, 0.049), rows_caught=rows_caught, one_row=1.0
        )

    assert told(3.0) == rows.Told.EachRow()
    assert told(rows_caught) == rows.Told.OtherNumber(3.0)


def test_a_plugged_row_does_not_clear_itself_by_dragging_the_mean() -> None:
    found = pattern(54, 57, 49, 56, 31, 55)
    assert isinstance(found, rows.OnePlugged)
    assert found.far_row == 5.0
    # Median (54 + 55) / 2 = 54.5 g: 31 g is 57 in 100 of it, 49 g just under 90 in 100.
    assert found.row_offs[4] == pytest.approx(31 / 54.5 - 1, rel=EXACT)
    assert found.odd_rows == (3.0, 5.0)


@pytest.mark.parametrize(
    ("grams", "outcome"),
    [
        ((54, 57, 55, 56, 71, 55), rows.OneHot),
        ((54, 57, 55, 56, 0, 55), rows.OnePlugged),
        ((54, 61, 55, 48, 56, 55), rows.SomeOdd),
        ((54, 57, 55, 56, 48, 55), rows.SomeOdd),
        ((54, 30, 55, 31, 56, 55, 29), rows.SomeOdd),
        ((54, 55, 53, 54, 55), rows.Even),
        ((54, 54, 54, 55), rows.Even),
        ((54, 54, 54, 54), rows.TooFew),  # one weight told for all, or a coarse scale
        ((54, 54, 20), rows.OnePlugged),
        ((54, 55), rows.TooFew),
        ((), rows.TooFew),
        ((0, 0, 0, 0), rows.TooFew),
    ],
)
def test_rows_without_a_pattern_are_held_to_their_limits(
    grams: Sequence[float], outcome: type
) -> None:
    assert type(pattern(*grams)) is outcome


@given(st.lists(st.floats(40.0, 60.0), min_size=3, max_size=40, unique=True))
def test_second_opinion_on_spread_and_rows_against_the_median(grams: list[float]) -> None:
    found = pattern(*grams)
    assert isinstance(found, PATTERNS | rows.OnePlugged | rows.OneHot | rows.SomeOdd | rows.Even)
    expected = stats.variation([float(gram) for gram in grams], ddof=1)
    assert found.row_cv == pytest.approx(expected, rel=1e-9, abs=1e-9)
    middle = median(Fraction(gram) for gram in grams)
    for off, gram in zip(found.row_offs, grams, strict=True):
        assert off == pytest.approx(float(Fraction(gram) / middle - 1), rel=1e-9, abs=1e-12)


def test_second_opinion_on_two_halves_far_enough_apart() -> None:
    chance = random.Random(3)
    shown = 0
    for _ in range(300):
        half, low = chance.randint(3, 12), chance.uniform(0.8, 1.0)
        heavy = [chance.gauss(80, 4) for _ in range(half)]
        light = [chance.gauss(80 * low, 4) for _ in range(half)]
        apart = stats.ttest_ind(heavy, light).pvalue < 0.01
        large = 1 - min(mean(heavy), mean(light)) / max(mean(heavy), mean(light)) >= 0.05
        found = pattern(*heavy, *light)
        if isinstance(found, rows.OneHalf):
            assert apart
            assert large
        elif apart and large:
            assert isinstance(found, rows.EveryOther | rows.BothEnds)
        shown += bool(apart and large)
    assert 50 < shown < 250


def random_drills(
    count: int, cv: float, light: Sequence[int] = (), low: float = 0.86
) -> Counter[str]:
    """How 300 random drills of rows with this spread are called, some rows set low."""
    chance = random.Random(f"{count} {cv} {light}")
    found: Counter[str] = Counter()
    for _ in range(300):
        grams = [chance.gauss(80, 80 * cv) * (low if row in light else 1) for row in range(count)]
        found[type(pattern(*grams)).__name__] += 1
    return found


@pytest.mark.parametrize("count", [6, 8, 12, 24])
@pytest.mark.parametrize("cv", [0.02, 0.04, 0.08])
def test_chance_alone_seldom_looks_like_a_pattern(count: int, cv: float) -> None:
    found = random_drills(count, cv)
    patterns = found["EveryOther"] + found["OneHalf"] + found["BothEnds"]
    print(f"{count} rows, CV {cv:.0%}: {patterns / 3:.1f} in 100 called a pattern by chance")
    assert patterns <= 15


@pytest.mark.parametrize("count", [8, 12, 24])
@pytest.mark.parametrize("name", ["EveryOther", "OneHalf"])
def test_rows_14_in_100_low_in_a_pattern_are_found(count: int, name: str) -> None:
    light = range(1, count, 2) if name == "EveryOther" else range(count // 2, count)
    found = random_drills(count, 0.03, light)
    print(f"{name} of {count} rows, CV 3 %: found {found[name] / 3:.1f} in 100")
    assert found[name] >= 285


ALONE = (Trial(opening=0.014, catch_weight=0.6),)
LEFT = {"row_count": 24.0, "one_row": 1.0, "sure": 0.95}


def test_four_of_24_rows_leave_7_in_100_open_if_the_spread_is_known() -> None:
    """8 % / 2 x root(1 - 4/24) = 3.65 % is one standard error; 1.96 of them."""
    four = rows_left.rows_left_open(trials=ALONE, usual_row_cv=0.08, rows_caught=4.0, **LEFT)
    six = rows_left.rows_left_open(trials=ALONE, usual_row_cv=0.08, rows_caught=6.0, **LEFT)
    assert isinstance(four, rows_left.LeftOpen.Worked)
    assert isinstance(six, rows_left.LeftOpen.Worked)
    assert four.rows_left_open == pytest.approx(0.0716, abs=0.00005)
    assert six.rows_left_open == pytest.approx(0.0554, abs=0.00005)


def test_a_catch_weighed_row_by_row_tells_by_its_own_spread() -> None:
    trials = (*ALONE, Trial(opening=0.014, row_weights=(0.05, 0.06)))
    found = rows_left.rows_left_open(trials=trials, usual_row_cv=0.08, rows_caught=4.0, **LEFT)
    assert found == rows_left.LeftOpen.RowByRow()


def test_with_the_other_correction_four_of_24_rows_would_leave_7_3_open() -> None:
    # (N - n) / (N - 1) belongs to a spread with divisor N; ours has n - 1.
    other = 1.959964 * 0.08 * ((24 - 4) / (24 - 1) / 4) ** 0.5
    assert other == pytest.approx(0.0731, abs=0.00005)


def test_four_of_24_rows_leave_11_6_open_if_the_spread_is_theirs() -> None:
    four = rows_left.rows_left_open_by_these(row_cv=0.08, rows_caught=4.0, **LEFT)
    six = rows_left.rows_left_open_by_these(row_cv=0.08, rows_caught=6.0, **LEFT)
    assert isinstance(four, rows_left.LeftOpen.Worked)
    assert isinstance(six, rows_left.LeftOpen.Worked)
    assert four.rows_left_open == pytest.approx(0.116, abs=0.0005)
    assert six.rows_left_open == pytest.approx(0.0727, abs=0.00005)


def test_the_mean_of_all_rows_lies_inside_19_times_in_20() -> None:
    chance = random.Random(7)
    inside = 0
    for _ in range(2000):
        drill = [chance.gauss(80, 6) for _ in range(24)]
        caught = chance.sample(drill, 6)
        cv = stats.variation(caught, ddof=1)
        found = rows_left.rows_left_open_by_these(row_cv=float(cv), rows_caught=6.0, **LEFT)
        assert isinstance(found, rows_left.LeftOpen.Worked)
        inside += abs(mean(drill) / mean(caught) - 1) <= found.rows_left_open
    print(f"mean of all rows inside {inside / 20:.1f} in 100")
    assert 1860 <= inside <= 1940


def test_all_rows_leave_nothing_open_and_one_row_tells_nothing() -> None:
    known = rows_left.rows_left_open(trials=ALONE, usual_row_cv=0.08, rows_caught=24.0, **LEFT)
    theirs = rows_left.rows_left_open_by_these(row_cv=0.08, rows_caught=24.0, **LEFT)
    one = rows_left.rows_left_open_by_these(row_cv=0.08, rows_caught=1.0, **LEFT)
    assert known == theirs == rows_left.LeftOpen.AllCaught()
    assert one == rows_left.LeftOpen.OneRow()
