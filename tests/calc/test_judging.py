"""What a catch means: light, heavy, near enough, proven, or once more."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import judging
from assistant.calc.contract import Trial
from tests.calc.rows import at_openings, with_tub
from tests.calc.us import FT, IN, LB, LB_AC, us

ONCE_MORE = judging.NotSure | judging.OnTarget | judging.Spread


def judged(
    catches: list[float], *, step: float = 0.1, trials: tuple[Trial, ...] = ()
) -> judging.Judgement:
    """Catches at one opening against a target of 100, near enough 5 %, repeats 2.5 %."""
    return judging.judge(
        trials=trials or at_openings(*((14.0, catch) for catch in catches)),
        tare=0.0,
        target_catch=100.0,
        ground_covered=50.0,
        tolerance=0.05,
        repeat_tolerance=0.025,
        catch_step=step,
    )


@pytest.mark.parametrize(
    ("catches", "outcome", "weighed"),
    [
        # One catch.
        ([94.0], judging.Light, 94.0),
        ([106.0], judging.Heavy, 106.0),
        ([100.0], judging.OnTarget, 100.0),
        ([95.2], judging.OnTarget, 95.2),
        ([94.95], judging.NotSure, 94.95),
        ([95.05], judging.NotSure, 95.05),
        ([104.95], judging.NotSure, 104.95),
        ([105.05], judging.NotSure, 105.05),
        ([0.0], judging.NothingCaught, 0.0),
        ([-2.0], judging.NothingCaught, -2.0),
        # A second that agrees: their mean decides, and a step of the scale is no doubt any more.
        ([100.0, 101.0], judging.Proven, 100.5),
        ([94.95, 95.15], judging.Proven, 95.05),
        ([94.95, 94.85], judging.Light, 94.9),
        ([105.05, 105.25], judging.Heavy, 105.15),
        ([95.5, 93.5], judging.Light, 94.5),
        # A second that does not agree.
        ([100.0, 103.0], judging.Spread, 103.0),
        ([96.0, 104.0], judging.Spread, 104.0),
        ([90.0, 100.0], judging.Spread, 100.0),
        ([80.0, 90.0], judging.Light, 90.0),
        ([110.0, 120.0], judging.Heavy, 120.0),
        # A third: the one that does not agree is left out.
        ([100.0, 90.0, 99.0], judging.Proven, 99.5),
        ([90.0, 100.0, 91.0], judging.Light, 90.5),
        ([98.0, 90.0, 106.0], judging.Spread, 106.0),
        ([100.0, 101.0, 99.5], judging.Proven, 300.5 / 3),
        ([99.0, 100.5, 102.0], judging.Proven, 101.25),
        # Nothing came before: that says nothing of the setting.
        ([0.0, 100.0], judging.OnTarget, 100.0),
        ([100.0, 0.0, 100.5], judging.OnTarget, 100.5),
        ([100.0, 100.5, 0.0], judging.NothingCaught, 0.0),
    ],
)
def test_the_rule_row_by_row(catches: list[float], outcome: type, weighed: float) -> None:
    found = judged(catches)
    assert isinstance(found, outcome)
    assert found.caught_rate == pytest.approx(weighed / 50.0, rel=1e-9)
    assert found.percent_off == pytest.approx(weighed / 100.0 - 1, rel=1e-9)


def test_a_catch_just_at_the_tolerance_is_near_enough() -> None:
    assert isinstance(judged([95.0], step=0.0), judging.OnTarget)
    assert isinstance(judged([105.0], step=0.0), judging.OnTarget)


def test_catches_just_at_the_repeat_tolerance_agree() -> None:
    # They differ by 2.5 in 100 of their mean.
    assert isinstance(judged([98.75, 101.25]), judging.Proven)
    assert isinstance(judged([98.7, 101.3]), judging.Spread)


def test_a_setting_come_back_to_starts_afresh() -> None:
    trials = at_openings((14.0, 100.0), (15.0, 110.0), (14.0, 100.5))
    assert isinstance(judged([], trials=trials), judging.OnTarget)


def test_a_first_trial_must_be_there() -> None:
    with pytest.raises(IndexError):
        judged([])


def test_a_catch_worked_by_hand_in_us_units() -> None:
    # 0.62 lb on 745.3 sq ft is 36.24 lb/ac; against 38.5 lb/ac that is 5.9 in 100 light.
    area = us("745.3125", FT * FT)
    found = judging.judge(
        trials=(Trial(opening=us("14", IN / 25), gross_weight=us("1.02", LB)),),
        tare=us("0.4", LB),
        target_catch=us("38.5", LB_AC) * area,
        ground_covered=area,
        tolerance=0.05,
        repeat_tolerance=0.025,
        catch_step=us("0.001", LB),
    )
    assert isinstance(found, judging.Light)
    assert found.caught_rate / float(LB_AC) == pytest.approx(36.236, abs=0.0005)
    assert found.percent_off == pytest.approx(-0.0588, abs=0.00005)


@given(st.lists(st.floats(1.0, 200.0), min_size=1, max_size=8), st.floats(0.1, 10.0))
def test_the_judgement_does_not_depend_on_the_unit(catches: list[float], scale: float) -> None:
    def outcome(unit: float) -> judging.Judgement:
        return judging.judge(
            trials=at_openings(*((14.0, catch * unit) for catch in catches)),
            tare=0.0,
            target_catch=100.0 * unit,
            ground_covered=50.0,
            tolerance=0.0501234,
            repeat_tolerance=0.0251234,
            catch_step=0.1 * unit,
        )

    one, other = outcome(1.0), outcome(scale)
    assert other.percent_off == pytest.approx(one.percent_off, rel=1e-9, abs=1e-9)
    assert other.caught_rate == pytest.approx(scale * one.caught_rate, rel=1e-9)


@given(st.lists(st.floats(80.0, 120.0), min_size=20, max_size=20))
def test_repeating_one_setting_comes_to_an_end(catches: list[float]) -> None:
    """Catches that do not agree are 2.5 in 100 apart: between 80 and 120 there is room for 17."""
    room = 1 + math.log(120 / 80) / math.log((1 + 0.0125) / (1 - 0.0125))
    made = next(
        count
        for count in range(1, len(catches) + 1)
        if not isinstance(judged(catches[:count]), ONCE_MORE)
    )
    assert made <= room + 1


@pytest.mark.parametrize("seed", range(5))
def test_a_drill_that_repeats_within_2_in_100_is_settled_in_few_catches(seed: int) -> None:
    import random

    chance = random.Random(seed)
    for _ in range(200):
        truth = chance.uniform(85.0, 115.0)
        catches: list[float] = []
        while not catches or isinstance(judged(catches), ONCE_MORE):
            catches.append(chance.gauss(truth, 0.02 * truth))
        assert len(catches) <= 7


def test_a_scale_too_coarse_for_the_catch_does_not_trap_anyone() -> None:
    # Ten steps to the catch: the first is doubted, a repeat of the same reading ends it.
    assert isinstance(judged([90.0], step=10.0), judging.NotSure)
    assert isinstance(judged([100.0], step=10.0), judging.NotSure)
    assert isinstance(judged([100.0, 100.0], step=10.0), judging.Proven)
    assert isinstance(judged([100.0, 90.0], step=10.0), judging.Spread)
    assert isinstance(judged([100.0, 90.0, 90.0], step=10.0), judging.Light)


@pytest.mark.parametrize(
    ("catches", "outcome"),
    [
        ([], judging.NoCatch),
        ([95.0], judging.OneCatch),
        ([105.0], judging.OneCatch),
        ([94.9], judging.OffTarget),
        ([105.1], judging.OffTarget),
        ([100.0, 80.0], judging.OffTarget),
        ([80.0, 100.0], judging.OneCatch),
        ([104.0, 105.5], judging.OneCatch),
        ([0.0], judging.OffTarget),
    ],
)
def test_an_early_card_goes_by_the_last_catch_and_those_that_agree(
    catches: list[float], outcome: type
) -> None:
    found = judging.early_card(
        trials=at_openings(*((14.0, catch) for catch in catches)),
        tare=0.0,
        catch_step=0.0,
        target_catch=100.0,
        ground_covered=50.0,
        tolerance=0.05,
        repeat_tolerance=0.025,
    )
    assert isinstance(found, outcome)
    if isinstance(found, judging.OneCatch):
        caught = 104.75 if catches == [104.0, 105.5] else catches[-1]
        assert found.caught_rate == caught / 50.0
        assert found.percent_off == pytest.approx(caught / 100.0 - 1)


@pytest.mark.parametrize(
    ("catches", "apart"),
    [
        ([100.0, 101.0], judging.AllAgree()),
        ([136.0, 170.0, 137.0], judging.OneOdd(170.0)),
        ([140.0, 70.0, 140.0], judging.OneOdd(70.0)),
        ([140.0, 70.0, 90.0, 140.0], judging.SomeOdd((70.0, 90.0))),
        ([70.0, 0.0, 140.0, 141.0], judging.AllAgree()),  # what was before an empty catch
        ([0.0], judging.AllAgree()),
    ],
)
def test_catches_that_do_not_agree_with_the_last_are_named(
    catches: list[float], apart: object
) -> None:
    trials = at_openings(*((14.0, catch) for catch in catches))
    assert (
        judging.catches_apart(trials=trials, tare=0.0, catch_step=0.0, repeat_tolerance=0.025)
        == apart
    )
    on_scale = with_tub(trials, 2.0)
    assert (
        judging.catches_apart(trials=on_scale, tare=2.0, catch_step=0.0, repeat_tolerance=0.025)
        == apart
    )
