"""Gears of a meter on a ground wheel, the width on a screen, and what came at the outlets."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from assistant.calc import gear, outlets, width
from assistant.calc.contract import Roll
from assistant.calc.rows_left import LeftOpen
from tests.calc.us import FT, LB, LB_AC, us

DRILL = {
    "bulk_rate": us(80, LB_AC),
    "working_width": us(40, FT),
    "weight_per_turn": us("0.62", LB),
    "gear_top": 100.0,
    "gear_step": 1.0,
}
WANTED = float(Fraction(80) * 4000 / 43_560 / Fraction("0.62"))
"""Meter turns in 100 ft, 40 ft wide, that bring 80 lb/ac at 0.62 lb a turn: 11.85."""


def roll(mark: float, turns: float) -> Roll:
    """A roll of 100 ft."""
    return Roll(turns, us(100, FT), mark)


def aimed(*rolls: Roll, **other: float) -> object:
    return gear.next_gear(rolls=rolls, **{**DRILL, **other})


@pytest.mark.parametrize(
    ("rolls", "expected"),
    [
        # 10 turns at 30: 30 x 11.85 / 10 = 35.5, a half step upwards.
        ([(30, 10)], gear.Gear.SetNext(36.0)),
        ([(30, 14)], gear.Gear.SetNext(25.0)),
        # 10 at 30 and 13 at 36: 30 + 6 x 1.85 / 3 = 33.7.
        ([(30, 10), (36, 13)], gear.Gear.SetNext(34.0)),
        ([(36, 13), (30, 10)], gear.Gear.SetNext(34.0)),
        # A scale that runs the other way: 13 at 30, 10 at 36.
        ([(30, 13), (36, 10)], gear.Gear.SetNext(32.0)),
        # Both light: on along their line, 8 at 20 and 10 at 30: 30 + 10 x 1.85 / 2 = 39.2.
        ([(20, 8), (30, 10)], gear.Gear.SetNext(39.0)),
        # Twice one mark: its mean, 12.4, is a hair heavy.
        ([(33, 12.3), (33, 12.5)], gear.Gear.SetNext(32.0)),
        ([(33, 11.6), (34, 12.4), (33, 11.6)], gear.Gear.AsNear()),
    ],
)
def test_where_the_gearbox_goes(rolls: list[tuple[float, float]], expected: object) -> None:
    assert aimed(*(roll(*each) for each in rolls)) == expected


def test_a_scale_that_ends_before_it_says_so() -> None:
    assert aimed(roll(40, 5), gear_top=40.0) == gear.Gear.OffScale()
    assert aimed(roll(30, 5), gear_top=40.0) == gear.Gear.SetNext(40.0)
    assert aimed(roll(1, 50)) == gear.Gear.OffScale()


def test_a_roll_that_names_no_mark_is_refused() -> None:
    with pytest.raises(ValueError, match="Roll"):
        aimed(Roll(10.0, 30.0))


@given(scale=st.floats(0.1, 1.0), offset=st.floats(-2.0, 4.0))
def test_a_gearbox_comes_to_rest_in_a_few_rolls(scale: float, offset: float) -> None:
    """Turns on a straight line of the marks, with a zero that is not true."""
    rolls = [roll(50, offset + scale * 50)]
    for _ in range(8):
        found = aimed(*rolls)
        if not isinstance(found, gear.Gear.SetNext):
            break
        mark = found.next_gear_mark
        rolls.append(roll(mark, max(0.1, offset + scale * mark)))
    else:
        pytest.fail(str(rolls))
    last = rolls[-1]
    if found == gear.Gear.AsNear():
        by_proportion = last.shaft_turns / 50 if len(rolls) == 1 else 0  # one roll tells no zero
        assert abs(last.shaft_turns - WANTED) <= max(scale, by_proportion) / 2 + 1e-6


@pytest.mark.parametrize(
    ("rate", "outcome"),
    [
        (75, "Light"),
        (76, "OnTarget"),
        (84, "OnTarget"),
        (85, "Heavy"),
    ],
)
def test_a_roll_is_judged_by_the_tolerance(rate: int, outcome: str) -> None:
    found = gear.judge_roll(caught_rate=us(rate, LB_AC), bulk_rate=us(80, LB_AC), tolerance=0.05)
    assert type(found).__name__ == outcome
    assert found.percent_off == pytest.approx(rate / 80 - 1, rel=1e-9)


@pytest.mark.parametrize(
    ("feet", "outcome", "off"),
    [
        (40, width.WidthSet.Right, None),
        ("40.4", width.WidthSet.Right, None),
        (42, width.WidthSet.TooWide, 0.05),
        (38, width.WidthSet.TooNarrow, 0.05),
    ],
)
def test_a_width_that_is_set_wrong_tells_by_how_much(
    feet: float | str, outcome: type, off: float | None
) -> None:
    found = width.width_as_set(
        width_set=us(feet, FT), working_width=us(40, FT), width_agreement=0.01
    )
    assert type(found) is outcome
    if off is not None:
        assert not isinstance(found, width.WidthSet.Right)
        assert found.width_off == pytest.approx(off, rel=1e-9)


# -- the outlets ----------------------------------------------------------------------------------


def compared(*weights: float, towers: float = 1.0) -> object:
    return outlets.compare_outlets(
        outlet_weights=weights, outlet_towers=towers, outlet_spread_most=0.1, one_row=1.0
    )


def pattern(*weights: float, towers: float = 2.0) -> object:
    return outlets.outlet_pattern(
        outlet_weights=weights, outlet_towers=towers, outlet_spread_most=0.1
    )


def test_outlets_that_differ_little_are_even() -> None:
    # 410 396 402 371: mean 394.75, spread 16.8, 4.3 in 100.
    found = compared(0.410, 0.396, 0.402, 0.371)
    assert isinstance(found, outlets.Even)
    assert found.outlet_cv == pytest.approx(0.0427, abs=0.00005)
    assert (found.outlet_least, found.outlet_most) == (0.371, 0.410)


def test_weights_that_towers_can_not_share_alike_are_refused() -> None:
    assert compared(0.4, 0.41, 0.4, 0.4, 0.39, towers=2.0) == outlets.NotByTower()


def test_a_light_tower_of_two_is_named() -> None:
    # means 402.67 and 305.67: 24.09 in 100 less
    found = pattern(0.410, 0.402, 0.396, 0.310, 0.302, 0.305)
    assert isinstance(found, outlets.Pattern.OneTower)
    assert found.far_tower == 2.0
    assert found.tower_off == pytest.approx(-0.2409, abs=0.00005)


def test_of_three_towers_a_heavy_one_is_named_too() -> None:
    found = pattern(0.40, 0.41, 0.55, 0.56, 0.41, 0.40, towers=3.0)
    assert isinstance(found, outlets.Pattern.OneTower)
    assert found.far_tower == 2.0
    assert found.tower_off == pytest.approx(0.555 / 0.405 - 1)


def test_light_long_hoses_are_named() -> None:
    # short 406.25, long 318.75: 21.54 in 100 less
    found = pattern(0.410, 0.402, 0.320, 0.318, 0.405, 0.408, 0.315, 0.322)
    assert isinstance(found, outlets.Pattern.LongHoses)
    assert found.hose_off == pytest.approx(-0.2154, abs=0.00005)


def test_one_plugged_outlet_is_named() -> None:
    found = pattern(0.41, 0.40, 0.12, 0.40, 0.41, 0.40)
    assert isinstance(found, outlets.Pattern.OneOutlet)
    assert found.far_outlet == 3.0
    assert found.far_outlet_off == pytest.approx(0.12 / 0.40 - 1)


@pytest.mark.parametrize(("light", "heavy"), [(0.085, 0.1155), (0.083, 0.1173)])
def test_of_two_outlets_the_one_is_named_that_leaves_least(light: float, heavy: float) -> None:
    """Without 85 g 100, 100 and 115.5 g spread by 8.51 in 100; without 115.5 g by 9.12.

    Without 83 g by 9.44, within the limit of 10; without 117.3 g, which lies farther off, by 10.4.
    """
    found = pattern(light, heavy, 0.1, 0.1, towers=1.0)
    assert isinstance(found, outlets.Pattern.OneOutlet)
    assert found.far_outlet == 1.0


def test_where_nothing_stands_out_nothing_is_named() -> None:
    assert pattern(0.41, 0.30, 0.42, 0.29, 0.30, 0.40) == outlets.Pattern.NoPattern()


@pytest.mark.parametrize("towers", [1.0, 2.0, 3.0])
def test_outlets_without_seed_break_no_pattern(towers: float) -> None:
    for weights in ((0.0, 0.0, 0.0, 0.0, 0.0, 0.4), (0.4, 0.4, 0.4, 0.0, 0.0, 0.0)):
        assert pattern(*weights, towers=towers) is not None


def test_outlets_without_a_bag_leave_open_what_students_t_says() -> None:
    """4 of 64, spread 4 %: t of 3 degrees 3.1824 x 4 % x root (1 - 4/64) / 2 = 6.163 %."""
    found = outlets.outlets_left_open(
        outlet_cv=0.04, outlets_caught=4.0, row_count=64.0, one_row=1.0, sure=0.95
    )
    assert isinstance(found, LeftOpen.Worked)
    by_scipy = stats.t.ppf(0.975, 3) * 0.04 * (1 - 4 / 64) ** 0.5 / 2
    assert found.rows_left_open == pytest.approx(by_scipy, rel=1e-6)
    assert found.rows_left_open == pytest.approx(0.06163, abs=0.000005)


def test_outlets_that_differ_much_are_not() -> None:
    assert isinstance(compared(0.41, 0.30, 0.50), outlets.Uneven)


@pytest.mark.parametrize("weights", [(0.4,), (0.4, 0.4), (0.0, 0.0, 0.0)])
def test_of_too_few_outlets_nothing_is_said(weights: tuple[float, ...]) -> None:
    assert compared(*weights) == outlets.TooFew()


@given(st.lists(st.floats(0.05, 5.0), min_size=3, max_size=60))
def test_second_opinion_on_the_spread_of_outlets(weights: list[float]) -> None:
    found = compared(*weights)
    assert isinstance(found, outlets.Even | outlets.Uneven)
    expected = np.std(weights, ddof=1) / np.mean(weights)
    assert found.outlet_cv == pytest.approx(float(expected), rel=1e-6, abs=1e-9)
