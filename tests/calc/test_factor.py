"""The factor of a powered meter: which way it goes, and what runs before and after a move tell."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assistant.calc import factor
from assistant.calc.contract import Run
from tests.calc.us import LB, us

EXACT = 1e-9
TOLERANCE = 0.025
RATE = 0.009

Maker = Callable[[float, float, float], Run]


def per_turn(told: float, shown: float, weighed: float) -> Run:
    return Run(shown, weighed, set_weight_per_turn=told)


def pulses(told: float, shown: float, weighed: float) -> Run:
    return Run(shown, weighed, set_pulses_per_weight=told)


def turns(told: float, shown: float, weighed: float) -> Run:
    return Run(shown, weighed, set_turns_per_weight=told)


def judged(*runs: Run) -> Any:
    return factor.judge_run(runs=runs, bulk_rate=RATE, repeat_tolerance=TOLERANCE)


def test_more_weighed_than_shown_lifts_weight_a_turn_by_7_in_100() -> None:
    """Shown 20.0, weighed 21.4: 0.62 x 1.07 = 0.6634 lb."""
    found = judged(per_turn(us("0.62", LB), us(20, LB), us("21.4", LB)))
    assert isinstance(found, factor.Over)
    assert found.percent_off == pytest.approx(0.07, rel=EXACT)
    right = factor.correct_weight_per_turn(
        set_weight_per_turn=us("0.62", LB), percent_off=found.percent_off
    )
    assert isinstance(right, factor.PerTurn.Up)
    assert right.new_weight_per_turn == pytest.approx(us("0.6634", LB), rel=EXACT)


def test_more_weighed_than_shown_lowers_pulses_and_turns_a_weight_by_6_5_in_100() -> None:
    by_pulses = factor.correct_pulses(set_pulses_per_weight=580.6, percent_off=0.07)
    by_turns = factor.correct_turns(set_turns_per_weight=1.613, percent_off=0.07)
    assert isinstance(by_pulses, factor.Pulses.Down)
    assert isinstance(by_turns, factor.Turns.Down)
    assert by_pulses.new_pulses_per_weight / 580.6 - 1 == pytest.approx(-0.0654, abs=0.00005)
    assert by_turns.new_turns_per_weight / 1.613 - 1 == pytest.approx(-0.0654, abs=0.00005)


def test_less_weighed_than_shown_goes_the_other_way() -> None:
    up = factor.correct_pulses(set_pulses_per_weight=580.6, percent_off=-0.07)
    down = factor.correct_weight_per_turn(set_weight_per_turn=0.28, percent_off=-0.07)
    more = factor.correct_turns(set_turns_per_weight=1.6, percent_off=-0.07)
    assert isinstance(up, factor.Pulses.Up)
    assert isinstance(down, factor.PerTurn.Down)
    assert isinstance(more, factor.Turns.Up)


@pytest.mark.parametrize(
    ("runs", "outcome"),
    [
        # 21.4 / 20 is 7 in 100 over; its square is 1.1449, so the doubled miss is 22.9.
        ([pulses(580, 20, 20.3)], factor.OnTarget),
        ([pulses(580, 20, 20.5)], factor.OnTarget),  # just at the tolerance
        ([pulses(580, 20, 20.51)], factor.Over),
        ([pulses(580, 20, 19.0)], factor.Under),
        ([pulses(580, 20, 0)], factor.NothingCame),
        ([pulses(580, 20, 21.4), pulses(542, 20, 20.05)], factor.Proven),
        ([pulses(580, 20, 20.3), pulses(580, 20, 20.2)], factor.Proven),
        ([pulses(580, 20, 21.4), pulses(580, 20, 21.3)], factor.Over),
        ([pulses(580, 20, 21.4), pulses(580, 20, 19.3)], factor.Spread),
        ([pulses(580, 20, 21.4), pulses(580, 20, 20.2)], factor.OnTarget),
        ([pulses(580, 20, 21.4), pulses(621, 20, 22.9)], factor.WentAway),
        ([pulses(580, 20, 18.6), pulses(542, 20, 17.4)], factor.WentAway),
        ([pulses(580, 20, 21.4), pulses(542, 20, 22.9)], factor.OtherWay),
        ([pulses(580, 20, 21.4), pulses(542, 20, 21.4)], factor.NotTaken),
        ([pulses(580, 20, 21.4), pulses(542, 20, 24.5)], factor.Spread),
        ([pulses(580, 20, 21.4), pulses(542, 20, 22.9), pulses(542, 20, 20)], factor.Proven),
        ([pulses(580, 20, 21.4), pulses(580, 20, 0), pulses(542, 20, 20)], factor.Proven),
        ([per_turn(0.62, 20, 21.4), per_turn(0.5794, 20, 22.9)], factor.WentAway),
        ([per_turn(0.62, 20, 21.4), per_turn(0.6634, 20, 22.9)], factor.OtherWay),
        ([per_turn(0.62, 20, 21.4), per_turn(0.6634, 20, 21.4)], factor.NotTaken),
        ([turns(1.61, 20, 21.4), turns(1.723, 20, 22.9)], factor.WentAway),
        ([turns(1.61, 20, 21.4), turns(1.505, 20, 22.9)], factor.OtherWay),
    ],
)
def test_what_runs_tell(runs: list[Run], outcome: type) -> None:
    assert type(judged(*runs)) is outcome


def test_the_runs_that_agree_are_judged_by_their_mean() -> None:
    found = judged(per_turn(0.60, 20, 21.0), per_turn(0.63, 20, 20.2))
    assert isinstance(found, factor.Proven)
    # 0.63 and 0.6363 a turn: their mean is 0.5 in 100 over 0.63.
    assert found.percent_off == pytest.approx(0.005, rel=EXACT)
    assert found.caught_rate == pytest.approx(RATE * 1.005, rel=EXACT)


def test_a_run_without_a_factor_is_refused() -> None:
    with pytest.raises(ValueError, match="Run"):
        judged(Run(20.0, 20.0))


class Meter:
    """A meter that turns until its own factor says that the seed is out."""

    def __init__(self, true_weight: float, told_by: Maker) -> None:
        self.true, self.told_by = true_weight, told_by

    def run(self, told: float, *, counts_otherwise: bool = False) -> Run:
        """A run of 20 by the factor as it is told; `counts_otherwise` is a mistaken kind."""
        is_weight = (self.told_by is per_turn) is not counts_otherwise
        believed = told if is_weight else 1 / told
        return self.told_by(told, 20.0, 20.0 / believed * self.true)

    def right(self, told: float, off: float) -> float:
        """The factor put right, by its kind."""
        found: Any
        if self.told_by is per_turn:
            found = factor.correct_weight_per_turn(set_weight_per_turn=told, percent_off=off)
            return float(found.new_weight_per_turn)
        if self.told_by is pulses:
            found = factor.correct_pulses(set_pulses_per_weight=told, percent_off=off)
            return float(found.new_pulses_per_weight)
        found = factor.correct_turns(set_turns_per_weight=told, percent_off=off)
        return float(found.new_turns_per_weight)


KINDS = pytest.mark.parametrize("kind", [per_turn, pulses, turns])


@KINDS
@given(true=st.floats(0.1, 1.0), miss=st.floats(0.7, 1.4))
def test_one_correction_mends_any_meter_and_the_other_way_squares_its_miss(
    kind: Maker, true: float, miss: float
) -> None:
    assume(abs(miss - 1) > 0.06)
    meter = Meter(true, kind)
    told = true * miss if kind is per_turn else 1 / (true * miss)
    first = meter.run(told)
    off = judged(first).percent_off
    assert off == pytest.approx(1 / miss - 1, rel=1e-6)
    mended = meter.run(meter.right(told, off))
    assert mended.weighed == pytest.approx(20.0, rel=1e-9)
    assert isinstance(judged(first, mended), factor.Proven)
    away = meter.run(told * told / meter.right(told, off))
    assert away.weighed / 20 == pytest.approx((1 + off) ** 2, rel=1e-6)
    assert isinstance(judged(first, away), factor.WentAway)
    after = judged(first, away).percent_off
    assert meter.right(told * told / meter.right(told, off), after) == pytest.approx(
        meter.right(told, off), rel=1e-6
    )


@KINDS
@given(true=st.floats(0.1, 1.0), miss=st.floats(0.7, 1.4))
def test_a_factor_of_the_other_kind_shows_by_its_second_run(
    kind: Maker, true: float, miss: float
) -> None:
    assume(abs(miss - 1) > 0.06)
    meter = Meter(true, kind)
    told = 1 / (true * miss) if kind is per_turn else true * miss
    first = meter.run(told, counts_otherwise=True)
    found = judged(first)
    second = meter.run(meter.right(told, found.percent_off), counts_otherwise=True)
    assert isinstance(judged(first, second), factor.OtherWay)
