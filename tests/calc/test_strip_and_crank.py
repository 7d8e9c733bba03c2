"""Ground by a driven strip and by the turns of a crank or a meter shaft."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import plan, strip, way
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
    assert us("0.05", AC) / width == pytest.approx(us("145.2", FT), rel=EXACT)
    ground = strip.strip_ground(
        rows_caught=6.0, row_spacing=spacing, strip_distance=us("145.2", FT)
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


def test_66_7_turns_can_not_be_made_so_the_catch_follows_67() -> None:
    """32 rows of 12.5 cm, 66.7 turns = 200 m2: 67 are 200.9 m2, and 2.893 kg at 144 kg/ha."""
    by_plate = way.crank_distance_per_turn(
        crank_turns=66.7, crank_area=200.0, row_count=32.0, row_spacing=0.125
    )
    around = by_plate.distance_per_turn
    assert around == pytest.approx(0.74963, abs=0.000005)
    ground = plan.ground(
        rows_caught=32.0, row_spacing=0.125, turns=67.0, distance_per_turn=around
    ).ground_covered
    assert ground == pytest.approx(200.9, abs=0.05)
    catch = plan.expected_catch(bulk_rate=float(144 / HA), ground_covered=ground, rows_caught=32.0)
    assert catch.target_catch == pytest.approx(2.893, abs=0.0005)


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
