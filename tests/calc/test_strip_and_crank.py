"""Ground by a driven strip and by the turns of a crank or a meter shaft."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import crank, plan, strip
from tests.calc.us import AC, FT, HA, IN, LB, LB_AC, us

EXACT = 1e-12
NUMBERS = st.integers(1, 100_000).map(lambda number: Fraction(number, 100))


def test_a_twentieth_of_an_acre_caught_from_a_quarter_of_the_rows() -> None:
    """24 rows x 7.5 in = 15 ft; 145.2 ft = 1/20 ac; 6 rows = 1/80 ac; 0.95 lb = 76 lb/ac.

    Source of the method: Southeast Farm Press, 43,560 x fraction / width.
    """
    spacing = us("7.5", IN)
    width = strip.width_by_rows(row_count=24.0, row_spacing=spacing).working_width
    assert width == pytest.approx(us(15, FT), rel=EXACT)
    distance = strip.distance_for_ground(wanted_ground=us("0.05", AC), working_width=width)
    assert distance.wanted_distance == pytest.approx(us("145.2", FT), rel=EXACT)
    ground = strip.strip_ground(
        rows_caught=6.0, row_spacing=spacing, strip_distance=distance.wanted_distance
    ).ground_covered
    assert ground == pytest.approx(float(AC / 80), rel=EXACT)
    assert us("0.95", LB) / ground == pytest.approx(us(76, LB_AC), rel=EXACT)


def test_all_rows_for_those_caught_would_read_just_a_quarter() -> None:
    whole = strip.strip_ground(
        rows_caught=24.0, row_spacing=us("7.5", IN), strip_distance=us("145.2", FT)
    ).ground_covered
    assert us("0.95", LB) / whole == pytest.approx(us(19, LB_AC), rel=EXACT)


@given(rows=st.integers(1, 100), spacing=NUMBERS, distance=NUMBERS)
def test_second_opinion_on_a_strip(rows: int, spacing: Fraction, distance: Fraction) -> None:
    """Acres = width (ft) x distance (ft) / 43,560: Virginia Tech 418-121, forage drills."""
    acres = rows * spacing / 12 * distance / 43_560
    found = strip.strip_ground(
        rows_caught=float(rows),
        row_spacing=us(str(spacing), IN),
        strip_distance=us(str(distance), FT),
    )
    assert found.ground_covered == pytest.approx(float(acres * AC), rel=EXACT)
    width = strip.width_by_rows(row_count=float(rows), row_spacing=us(str(spacing), IN))
    back = strip.distance_for_ground(
        wanted_ground=found.ground_covered, working_width=width.working_width
    )
    assert back.wanted_distance == pytest.approx(us(str(distance), FT), rel=EXACT)


def test_66_7_turns_are_67_and_stand_for_201_square_metres() -> None:
    """4 m drill, 0.75 m a turn: 200 m2 = 50 m = 66.7 turns; 67 of them are 201 m2."""
    per_area = crank.turns_by_distance(distance_per_turn=0.75, working_width=4.0).turns_per_area
    assert per_area * 200 == pytest.approx(66.6667, abs=0.00005)
    made = crank.turns_for_ground(wanted_ground=200.0, turns_per_area=per_area, one_turn=1.0)
    assert made.proposed_turns == 67.0
    assert made.turns_ground == pytest.approx(201.0, rel=EXACT)


@pytest.mark.parametrize(("turns", "kilograms"), [(67.0, 2.8944), (66.0, 2.8512), (70.0, 3.024)])
def test_the_target_catch_follows_the_turns_that_were_made(turns: float, kilograms: float) -> None:
    """2.88 kg on 200 m2 is 144 kg/ha; at 67 turns (201 m2) the same rate is 2.8944 kg."""
    rate = float(144 / HA)
    assert rate * 200 == pytest.approx(2.88, rel=EXACT)
    ground = crank.ground_of_turns(
        turns=turns, turns_per_area=1 / 3, rows_caught=24.0, row_count=24.0
    ).ground_covered
    assert ground == pytest.approx(3 * turns, rel=EXACT)
    catch = plan.expected_catch(bulk_rate=rate, ground_covered=ground, rows_caught=24.0)
    assert catch.target_catch == pytest.approx(kilograms, rel=EXACT)


def test_some_of_the_rows_are_that_part_of_the_ground() -> None:
    ground = crank.ground_of_turns(
        turns=67.0, turns_per_area=1 / 3, rows_caught=6.0, row_count=24.0
    ).ground_covered
    assert ground == pytest.approx(201 / 4, rel=EXACT)


def test_ground_smaller_than_a_turn_still_takes_one() -> None:
    made = crank.turns_for_ground(wanted_ground=0.5, turns_per_area=1 / 3, one_turn=1.0)
    assert made.proposed_turns == 1.0
    assert made.turns_ground == pytest.approx(3.0, rel=EXACT)


@given(turns=NUMBERS, distance=NUMBERS, width=NUMBERS)
def test_a_plate_a_roll_and_the_distance_of_a_turn_agree(
    turns: Fraction, distance: Fraction, width: Fraction
) -> None:
    exact = float(turns / (distance * width))
    by_roll = crank.turns_by_roll(
        rolled_turns=float(turns), rolled_distance=float(distance), working_width=float(width)
    )
    by_distance = crank.turns_by_distance(
        distance_per_turn=float(distance / turns), working_width=float(width)
    )
    by_plate = crank.turns_by_plate(plate_turns=float(turns), plate_ground=float(distance * width))
    for found in (by_roll, by_distance, by_plate):
        assert found.turns_per_area == pytest.approx(exact, rel=EXACT)


def test_a_wheel_makes_a_tenth_of_an_acre_in_whole_turns_too() -> None:
    # 15 ft x 79.5 in = 99.375 sq ft a turn; 4,356 / 99.375 = 43.83: 44 turns, 4,372.5 sq ft.
    per_area = crank.turns_by_distance(
        distance_per_turn=us("79.5", IN), working_width=us(15, FT)
    ).turns_per_area
    made = crank.turns_for_ground(
        wanted_ground=us("0.1", AC), turns_per_area=per_area, one_turn=1.0
    )
    assert made.proposed_turns == 44.0
    assert made.turns_ground == pytest.approx(us("4372.5", FT * FT), rel=EXACT)


@pytest.mark.parametrize(("step", "turns"), [("0.0001", 20.0), ("0.01", 24.0), ("0.1", 200.0)])
def test_turns_bring_a_hundred_steps_of_the_scale(step: str, turns: float) -> None:
    # 144 kg/ha on 3 m2 a turn is 43.2 g; 100 steps of 10 g take 23.1 turns.
    made = crank.turns_to_weigh(
        bulk_rate=0.0144,
        turns_per_area=1 / 3,
        rows_caught=24.0,
        row_count=24.0,
        scale_step=float(step),
        marks_wanted=100.0,
        turns_wanted=20.0,
        turns_most=200.0,
        one_turn=1.0,
    )
    assert made.proposed_turns == turns
    assert made.turns_ground == pytest.approx(3 * turns, rel=EXACT)


GRAMS = {
    "6": (1.6, 2.6, 5.2, 7.8, 31.2, 39.0, 46.9, 62.5),
    "7": (1.8, 3.0, 6.1, 9.1, 36.4, 45.6, 54.7, 72.9),
    "7.5": (2.0, 3.3, 6.5, 9.8, 39.0, 48.8, 58.6, 78.1),
    "8": (2.1, 3.5, 6.9, 10.4, 41.7, 52.1, 62.5, 83.3),
    "10": (2.6, 4.3, 8.7, 13.0, 52.1, 65.1, 78.1, 104.1),
}
POUNDS = (3, 5, 10, 15, 60, 75, 90, 120)


@pytest.mark.parametrize("inches", GRAMS)
def test_grams_of_one_row_in_100_feet(inches: str) -> None:
    """lb/ac x spacing (in) x 100 ft / 1152.4, worked apart from the program."""
    ground = strip.strip_ground(
        rows_caught=1.0, row_spacing=us(inches, IN), strip_distance=us(100, FT)
    ).ground_covered
    for pounds, grams in zip(POUNDS, GRAMS[inches], strict=True):
        catch = plan.expected_catch(
            bulk_rate=us(pounds, LB_AC), ground_covered=ground, rows_caught=1.0
        )
        assert catch.target_catch_per_row * 1000 == pytest.approx(grams, abs=0.0501)
