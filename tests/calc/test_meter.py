"""Air meters: seed per turn, turns per area, shaft speeds, and factors put right the right way."""

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assistant.calc import crank, factor, meter, speed
from tests.calc.us import FT, HA, LB, LB_AC, us

EXACT = 1e-12
MPH = 5280 * FT / 3600
RPM = Fraction(1, 60)
NUMBERS = st.integers(1, 100_000).map(lambda number: Fraction(number, 100))


def test_11_6_shaft_turns_in_100_feet_are_126_3_turns_and_78_3_pounds_an_acre() -> None:
    """0.62 lb a turn, 40 ft. Source of the method: NDSU AE-1144."""
    per_area = crank.turns_by_roll(
        rolled_turns=11.6, rolled_distance=us(100, FT), working_width=us(40, FT)
    ).turns_per_area
    assert per_area * float(43_560 * FT * FT) == pytest.approx(126.3, abs=0.05)
    per_turn = meter.weight_per_turn(meter_catch=us("6.2", LB), meter_turns=10.0).weight_per_turn
    rate = meter.meter_rate(weight_per_turn=per_turn, turns_per_area=per_area).meter_rate
    assert rate / float(LB_AC) == pytest.approx(78.3, abs=0.05)


def test_80_pounds_at_5_miles_an_hour_take_52_1_turns_a_minute() -> None:
    """lb/ac x mph x ft / (495 x lb per turn): 80 x 5 x 40 / (495 x 0.62)."""
    found = meter.shaft_speed(
        bulk_rate=us(80, LB_AC),
        working_width=us(40, FT),
        working_speed=us(5, MPH),
        weight_per_turn=us("0.62", LB),
    ).shaft_speed
    assert found / float(RPM) == pytest.approx(80 * 5 * 40 / (495 * 0.62), rel=EXACT)
    assert found / float(RPM) == pytest.approx(52.1, abs=0.05)


def test_90_kilograms_at_8_kilometres_an_hour_take_51_4_turns_a_minute() -> None:
    """kg/ha x km/h x m / (600 x kg per turn): 90 x 8 x 12 / (600 x 0.28)."""
    found = meter.shaft_speed(
        bulk_rate=float(90 / HA),
        working_width=12.0,
        working_speed=8 / 3.6,
        weight_per_turn=0.28,
    ).shaft_speed
    assert found * 60 == pytest.approx(51.4, abs=0.05)


def test_360_pulses_a_turn_are_580_6_pulses_a_pound() -> None:
    found = meter.pulses_by_turn(pulses_per_turn=360.0, weight_per_turn=us("0.62", LB))
    assert found.pulses_per_weight * float(LB) == pytest.approx(580.6, abs=0.05)
    turns = meter.turns_by_weight(weight_per_turn=us("0.62", LB)).turns_per_weight
    assert turns * 360 == pytest.approx(found.pulses_per_weight, rel=EXACT)


@given(rate=NUMBERS, speed=NUMBERS, width=NUMBERS, per_turn=NUMBERS)
def test_second_opinion_on_shaft_speed(
    rate: Fraction, speed: Fraction, width: Fraction, per_turn: Fraction
) -> None:
    """In a minute the drill seeds width x speed x 88 ft / 43,560 acres."""
    acres = width * speed * 88 / 43_560
    expected = acres * rate / per_turn
    found = meter.shaft_speed(
        bulk_rate=us(str(rate), LB_AC),
        working_width=us(str(width), FT),
        working_speed=us(str(speed), MPH),
        weight_per_turn=us(str(per_turn), LB),
    )
    assert found.shaft_speed / float(RPM) == pytest.approx(float(expected), rel=EXACT)


MOTOR = {
    "bulk_rate": us(80, LB_AC),
    "working_width": us(40, FT),
    "weight_per_turn": us("0.62", LB),
    "slowest_speed": us(4, MPH),
    "fastest_speed": us(6, MPH),
}


@pytest.mark.parametrize(
    ("slowest", "fastest", "outcome"),
    [
        # 41.7 rpm at 4 mph, 62.6 rpm at 6 mph.
        (10, 120, meter.Within),
        (41, 63, meter.Within),
        (42, 120, meter.TooSlow),
        (10, 62, meter.TooFast),
        (42, 62, meter.Both),
    ],
)
def test_the_motor_is_held_to_the_slowest_and_the_fastest_speed(
    slowest: int, fastest: int, outcome: type
) -> None:
    found = meter.shaft_range(
        **MOTOR, motor_slowest=us(slowest, RPM), motor_fastest=us(fastest, RPM)
    )
    assert type(found) is outcome
    assert found.shaft_at_slowest / float(RPM) == pytest.approx(41.7, abs=0.05)
    assert found.shaft_at_fastest / float(RPM) == pytest.approx(62.56, abs=0.005)
    if isinstance(found, meter.TooSlow | meter.Both):
        # 42 rpm is 42 / 10.4268 = 4.03 mph.
        assert found.speed_least / float(MPH) == pytest.approx(4.028, abs=0.0005)
    if isinstance(found, meter.TooFast | meter.Both):
        assert found.speed_most / float(MPH) == pytest.approx(5.946, abs=0.0005)


def test_a_speed_that_the_motor_just_meets_is_met() -> None:
    free = meter.shaft_range(**MOTOR, motor_slowest=0.0, motor_fastest=100.0)
    just = meter.shaft_range(
        **MOTOR, motor_slowest=free.shaft_at_slowest, motor_fastest=free.shaft_at_fastest
    )
    assert isinstance(just, meter.Within)


@pytest.mark.parametrize(
    ("second", "outcome"), [(6.2, "Steady"), (6.3, "Steady"), (6.6, "Unsteady"), (5.6, "Unsteady")]
)
def test_ten_turns_bring_twice_what_five_do_or_the_meter_is_not_steady(
    second: float, outcome: str
) -> None:
    found = meter.meter_steady(
        first_catch=us("3.1", LB),
        first_turns=5.0,
        second_catch=us(str(second), LB),
        second_turns=10.0,
        repeat_tolerance=0.025,
    )
    assert type(found).__name__ == outcome
    expected = us("3.1", LB) / 15 + us(str(second), LB) / 15
    assert found.weight_per_turn == pytest.approx(expected, rel=EXACT)
    if isinstance(found, meter.Steady.Unsteady):
        assert found.turn_change == pytest.approx(second / 6.2 - 1, rel=1e-9)


def test_a_gearbox_is_moved_in_proportion() -> None:
    found = meter.gearbox_ratio(
        drive_ratio=0.5, meter_rate=us(90, LB_AC), bulk_rate=us(80, LB_AC)
    ).wanted_ratio
    assert found == pytest.approx(0.5 * 8 / 9, rel=EXACT)


# -- the direction of a correction ------------------------------------------------------------

CAUGHT = {"weighed": us("21.4", LB), "shown": us(20, LB), "repeat_tolerance": 0.01}


def test_more_weighed_than_shown_lifts_weight_per_turn_by_7_in_100() -> None:
    found = factor.correct_weight_per_turn(old_weight_per_turn=us("0.62", LB), **CAUGHT)
    assert isinstance(found, factor.PerTurn.Up)
    assert found.factor_change == pytest.approx(0.07, rel=1e-9)
    assert found.new_weight_per_turn == pytest.approx(us("0.6634", LB), rel=EXACT)


def test_more_weighed_than_shown_lowers_pulses_and_turns_per_weight_by_6_5_in_100() -> None:
    pulses = factor.correct_pulses(old_pulses_per_weight=580.6, **CAUGHT)
    turns = factor.correct_turns(old_turns_per_weight=1.613, **CAUGHT)
    assert isinstance(pulses, factor.Pulses.Down)
    assert isinstance(turns, factor.Turns.Down)
    assert pulses.factor_change == turns.factor_change == pytest.approx(-0.0654, abs=0.00005)
    assert pulses.new_pulses_per_weight == pytest.approx(580.6 / 1.07, rel=EXACT)
    assert turns.new_turns_per_weight == pytest.approx(1.613 / 1.07, rel=EXACT)


def test_less_weighed_than_shown_goes_the_other_way() -> None:
    less = {**CAUGHT, "weighed": us("18.6", LB)}
    up = factor.correct_pulses(old_pulses_per_weight=580.6, **less)
    down = factor.correct_weight_per_turn(old_weight_per_turn=0.28, **less)
    turns = factor.correct_turns(old_turns_per_weight=1.6, **less)
    assert isinstance(up, factor.Pulses.Up)
    assert isinstance(down, factor.PerTurn.Down)
    assert isinstance(turns, factor.Turns.Up)


def test_a_factor_that_is_near_enough_stays() -> None:
    near = {**CAUGHT, "weighed": us("20.2", LB)}
    assert factor.correct_pulses(old_pulses_per_weight=580.6, **near) == factor.Stays()
    assert factor.correct_turns(old_turns_per_weight=1.6, **near) == factor.Stays()
    assert factor.correct_weight_per_turn(old_weight_per_turn=0.28, **near) == factor.Stays()


class Controller:
    """A machine that turns the meter until its own factor says that the seed is out."""

    def __init__(self, true_weight_per_turn: float) -> None:
        self.true = true_weight_per_turn

    def weighs(self, shown: float, weight_per_turn: float) -> float:
        return shown / weight_per_turn * self.true


@given(true=st.floats(0.1, 1.0), believed=st.floats(0.1, 1.0))
def test_the_right_correction_mends_the_machine_and_the_wrong_one_squares_the_miss(
    true: float, believed: float
) -> None:
    assume(abs(true / believed - 1) > 0.06)
    machine = Controller(true)
    weighed = machine.weighs(20.0, believed)
    told = {"weighed": weighed, "shown": 20.0, "repeat_tolerance": 0.01}
    by_weight = factor.correct_weight_per_turn(old_weight_per_turn=believed, **told)
    by_pulses = factor.correct_pulses(old_pulses_per_weight=360 / believed, **told)
    by_turns = factor.correct_turns(old_turns_per_weight=1 / believed, **told)
    assert isinstance(by_weight, factor.PerTurn.Up | factor.PerTurn.Down)
    assert isinstance(by_pulses, factor.Pulses.Up | factor.Pulses.Down)
    assert isinstance(by_turns, factor.Turns.Up | factor.Turns.Down)
    for corrected in (
        by_weight.new_weight_per_turn,
        360 / by_pulses.new_pulses_per_weight,
        1 / by_turns.new_turns_per_weight,
    ):
        assert machine.weighs(20.0, corrected) == pytest.approx(20.0, rel=1e-9)
    wrong = believed * 20.0 / weighed
    again = machine.weighs(20.0, wrong)
    assert again / 20 == pytest.approx((weighed / 20) ** 2, rel=1e-9)
    assert isinstance(worked(weighed, again), factor.Corrected.WrongWay)
    assert isinstance(worked(weighed, weighed), factor.Corrected.NotMoved)


def worked(first: float, now: float) -> object:
    return factor.correction_worked(
        first_weighed=first,
        first_shown=20.0,
        weighed=now,
        shown=20.0,
        tolerance=0.05,
        repeat_tolerance=0.01,
    )


@pytest.mark.parametrize(
    ("pounds", "outcome"),
    [
        (20.3, factor.Corrected.Mended),
        (22.9, factor.Corrected.WrongWay),  # 21.4 / 20 squared is 1.1449
        (21.4, factor.Corrected.NotMoved),
        (26.0, factor.Corrected.StillOff),
        (17.0, factor.Corrected.StillOff),
    ],
)
def test_what_a_catch_after_the_correction_tells(pounds: float, outcome: type) -> None:
    assert type(worked(21.4, pounds)) is outcome


# -- the speed that the controller goes by ----------------------------------------------------


def test_88_feet_in_a_minute_are_a_mile_an_hour() -> None:
    found = speed.speed_by_time(timed_distance=us(88, FT), time_taken=60.0).measured_speed
    assert found == pytest.approx(us(1, MPH), rel=EXACT)


@pytest.mark.parametrize(
    ("shown", "outcome", "off"),
    [
        (5.1, speed.Shown.Agrees, 0.02),
        (4.9, speed.Shown.Agrees, -0.02),
        (5.3, speed.Shown.ShowsFast, 0.06),
        (4.5, speed.Shown.ShowsSlow, -0.1),
    ],
)
def test_a_speed_shown_too_fast_seeds_as_much_too_heavy(
    shown: float, outcome: type, off: float
) -> None:
    found = speed.speed_shown(
        shown_speed=us(str(shown), MPH), measured_speed=us(5, MPH), tolerance=0.02
    )
    assert type(found) is outcome
    assert found.speed_off == pytest.approx(off, rel=1e-9)
    # The shaft turns for the speed shown; the ground passes at the true one.
    turning = meter.shaft_speed(
        bulk_rate=0.009,
        working_width=12.0,
        working_speed=us(str(shown), MPH),
        weight_per_turn=0.28,
    ).shaft_speed
    rate = turning * 0.28 / (12.0 * us(5, MPH))
    assert rate / 0.009 - 1 == pytest.approx(found.speed_off, rel=1e-9)
