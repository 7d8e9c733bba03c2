"""What was told, as ratios: worked by hand. Common practice, no source."""

import pytest

from assistant.calc import told_slips
from tests.calc.us import LB, LB_AC, us


def test_a_catch_of_four_times_what_was_wanted_and_its_pounds() -> None:
    apart = told_slips.weights_apart(
        wanted_weight=us("1.40", LB), got_weight=us("5.60", LB), one_pound=us(1, LB)
    )
    assert isinstance(apart, told_slips.Apart)
    assert apart.found_ratio == pytest.approx(4)
    assert apart.times_off == pytest.approx(4)
    assert apart.told_pounds == pytest.approx(5.6)
    assert apart.tub_share == 0


def test_a_rate_of_half_of_what_was_wanted_is_two_times_off_and_has_no_weight() -> None:
    apart = told_slips.rates_apart(wanted_rate=us(80, LB_AC), got_rate=us(40, LB_AC))
    assert apart.found_ratio == pytest.approx(0.5)
    assert apart.times_off == pytest.approx(2)
    assert (apart.told_pounds, apart.tub_share) == (0, 0)


def test_a_share_off_is_as_far_as_the_two_rates_that_it_was_made_of() -> None:
    apart = told_slips.share_apart(job_off=-0.75)
    assert (apart.found_ratio, apart.times_off) == (0.25, 4)
    assert (apart.told_pounds, apart.tub_share) == (0, 0)


def test_no_seed_leaves_no_ratio() -> None:
    nothing = told_slips.weights_apart(wanted_weight=1.0, got_weight=0.0, one_pound=us(1, LB))
    assert isinstance(nothing, told_slips.NothingGot)


@pytest.mark.parametrize(
    ("percent_off", "far"),
    [(0.79, False), (0.81, True), (-0.44, False), (-0.45, True), (-0.9, True), (0.0, False)],
)
def test_a_catch_is_far_off_from_18_times_over_or_under(percent_off: float, far: bool) -> None:
    # 1 / 1.8 = 0.5556, so 44.4 in 100 too light
    found = told_slips.far_off(percent_off=percent_off, mix_up_from=1.8)
    assert isinstance(found, told_slips.Far) == far


def test_a_catch_is_told_by_how_far_it_was_off() -> None:
    assert told_slips.job_weight(job_off=-0.2, job_catch=1.5).job_weight == pytest.approx(1.2)


@pytest.mark.parametrize(
    ("times", "outcome"),
    [
        # One catch scatters by 2 in 100: 19 in 20 lie within 1.96 times that, e ^ 0.0392 = 1.03998.
        (1.0, told_slips.NoFault),
        (1.0399, told_slips.NoFault),
        (1.0401, told_slips.Near),
        (3.0, told_slips.Near),
        (3.1, told_slips.TooFar),
    ],
)
def test_chance_comes_first_and_the_tag_makes_no_more_than_three_times(
    times: float, outcome: type
) -> None:
    found = told_slips.how_far_apart(
        times_off=times, lot_makes_most=3.0, catches_made=1.0, catch_scatter=0.02, sure=0.95
    )
    assert isinstance(found, outcome)


def test_each_figure_makes_its_own_ratio() -> None:
    assert told_slips.tub_told(empty_tub=0.3, got_weight=0.6).tub_share == 0.5
    assert told_slips.row_told(rows_in_tubs=8.0, one_row=1.0).row_share == 0.125
    assert told_slips.rows_compared(rows_in_tubs=6.0, rows_on_drill=24.0).rows_ratio == 4
    assert told_slips.sprout_told(sprouting=0.92).germination_told == 0.92
    live = told_slips.live_told(pure_part=0.5, sprouting=0.8)
    assert (live.live_share_told, live.germination_told) == (0.4, 0.8)
    bushels = told_slips.bushels_told(lot_bushel=722.0, reckoned_bushel=760.0)
    assert bushels.bushel_ratio == pytest.approx(0.95)
