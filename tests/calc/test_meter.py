"""Air meters: seed per turn, turns per area, shaft speeds, and the speed that they go by."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import crank, meter, speed
from assistant.calc.contract import MeterCatch
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
    per_turn = meter.turn_by_factor(set_weight_per_turn=us("0.62", LB)).weight_per_turn
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


def test_360_pulses_a_turn_at_580_6_pulses_a_pound_are_0_62_pounds_a_turn() -> None:
    by_pulses = meter.turn_by_pulses(
        pulses_per_turn=360.0, set_pulses_per_weight=float(Fraction("580.6") / LB)
    )
    assert by_pulses.weight_per_turn / float(LB) == pytest.approx(0.62, abs=0.00005)
    by_turns = meter.turn_by_turns(set_turns_per_weight=float(Fraction("580.6") / 360 / LB))
    assert by_turns.weight_per_turn == pytest.approx(by_pulses.weight_per_turn, rel=EXACT)


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


def caught(*catches: tuple[float, float]) -> object:
    """Catches of so many turns and pounds, judged."""
    rows = tuple(MeterCatch(turns, us(str(pounds), LB)) for turns, pounds in catches)
    return meter.judge_meter(meter_catches=rows, repeat_tolerance=0.025)


@pytest.mark.parametrize(
    ("second", "outcome"), [(6.2, "Agree"), (6.3, "Agree"), (6.6, "Apart"), (5.6, "Apart")]
)
def test_ten_turns_bring_twice_what_five_do_or_the_catches_lie_apart(
    second: float, outcome: str
) -> None:
    assert type(caught((5, 3.1), (10, second))).__name__ == outcome


def test_catches_that_agree_count_by_all_their_turns_and_an_outlier_is_left_out() -> None:
    found = caught((5, 3.1), (10, 5.0), (20, 12.5))
    assert isinstance(found, meter.MeterJudged.Agree)
    assert found.weight_per_turn == pytest.approx(us("15.6", LB) / 25, rel=EXACT)


def test_one_catch_is_the_first_and_one_without_seed_tells_nothing() -> None:
    first = caught((10, 6.2))
    assert isinstance(first, meter.MeterJudged.First)
    assert first.weight_per_turn == pytest.approx(us("0.62", LB), rel=EXACT)
    assert caught((10, 6.2), (10, 0)) == meter.MeterJudged.NothingCame()
    assert isinstance(caught((10, 0), (10, 6.2)), meter.MeterJudged.First)


@pytest.mark.parametrize(
    ("pounds", "outcome"),
    [
        ("0", meter.OnScale.Enough),  # nothing came: no scale tells more
        ("0.1", meter.OnScale.Light),
        ("4.99", meter.OnScale.Light),
        ("5", meter.OnScale.Enough),
    ],
)
def test_a_scale_is_asked_about_under_five_pounds(pounds: str, outcome: type) -> None:
    found = meter.heavy_enough(weighed=us(pounds, LB), heavy_from=us(5, LB))
    assert isinstance(found, outcome)


def test_a_gearbox_is_moved_in_proportion() -> None:
    found = meter.gearbox_ratio(
        drive_ratio=0.5, meter_rate=us(90, LB_AC), bulk_rate=us(80, LB_AC)
    ).wanted_ratio
    assert found == pytest.approx(0.5 * 8 / 9, rel=EXACT)


# -- the speed that the meter goes by ----------------------------------------------------


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
