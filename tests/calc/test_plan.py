"""The catch before anyone turns: rows, turns, ground, weight, and whether a scale can tell."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import plan
from tests.calc.us import AC, FT, IN, LB, LB_AC, us

EXACT = 1e-12
NUMBERS = st.integers(1, 100_000).map(lambda number: Fraction(number, 100))


@pytest.mark.parametrize(("rows", "half"), [(24.0, 12.0), (25.0, 13.0), (1.0, 1.0), (2.0, 1.0)])
def test_an_odd_row_is_counted_to_the_half(rows: float, half: float) -> None:
    assert plan.half_rows(row_count=rows, one_row=1.0).drive_rows == half
    assert plan.whole_rows(row_count=rows).drive_rows == rows


@pytest.mark.parametrize(
    ("tare", "outcome"), [(0.0, plan.SeedAlone), (0.001, plan.SeedAndTub), (0.4, plan.SeedAndTub)]
)
def test_a_tub_of_no_weight_was_zeroed_away(tare: float, outcome: type) -> None:
    assert plan.tub_on_scale(tare=tare, scale_step=0.005) == outcome(0.005)


def whole_proposal(
    **given: float,
) -> plan.ProposedCatch.Worked | plan.ProposedCatch.Coarse:
    facts = {
        "bulk_rate": us("80", LB_AC),
        "row_spacing": us("7.5", IN),
        "distance_per_turn": us("81.5", IN),
        "scale_step": us("0.01", LB),
        "drive_rows": 24.0,
        "marks_wanted": 100.0,
        "turns_wanted": 20.0,
        "even_turns": 1.0,
        "tolerance": 0.05,
        "rows_wanted": 6.0,
        "one_row": 1.0,
        "one_turn": 1.0,
        "turns_most": 200.0,
        **given,
    }
    return plan.propose_catch(**facts)


def proposed(**given: float) -> tuple[float, float]:
    found = whole_proposal(**given)
    return found.proposed_rows_caught, found.proposed_turns


@pytest.mark.parametrize(
    ("drive_rows", "rows"), [(24.0, 6.0), (40.0, 10.0), (41.0, 11.0), (5.0, 5.0), (6.0, 6.0)]
)
def test_six_rows_or_a_quarter_but_no_more_than_there_are(drive_rows: float, rows: float) -> None:
    assert proposed(drive_rows=drive_rows)[0] == rows


@pytest.mark.parametrize(("tolerance", "turns"), [(0.05, 40.0), (0.03, 67.0), (0.02, 100.0)])
def test_turns_even_out_the_pulses_of_a_feed(tolerance: float, turns: float) -> None:
    """A catch scatters by half a turn: over 2 / tolerance turns by a quarter of the tolerance."""
    assert proposed(even_turns=2.0, tolerance=tolerance)[1] == turns
    assert 0.5 / turns <= tolerance / 4


def test_turns_bring_a_hundred_steps_of_the_scale() -> None:
    # A turn: 6 x 7.5 x 81.5 / 144 = 25.47 sq ft, at 80 lb/ac 0.04677 lb; 1 lb needs 21.4 turns.
    assert proposed() == (6.0, 22.0)


def test_a_coarse_scale_is_told_what_more_rows_would_need() -> None:
    """At 0.05 lb a hundred steps are 5 lb; a row and turn drop 0.04677 / 6 = 0.007795 lb.

    6 rows: 5 / 0.04677 = 106.9 turns. In the 20 that evenness asks for: 32.1 rows, of 24; with all
    of these 5 / 0.1871 = 26.7 turns.
    """
    found = whole_proposal(scale_step=us("0.05", LB))
    assert isinstance(found, plan.ProposedCatch.Coarse)
    assert (found.proposed_rows_caught, found.proposed_turns) == (6.0, 107.0)
    assert (found.rows_instead, found.turns_instead) == (24.0, 27.0)


def test_with_all_rows_caught_no_more_can_be() -> None:
    found = whole_proposal(scale_step=us("0.05", LB), drive_rows=6.0)
    assert isinstance(found, plan.ProposedCatch.Worked)


@pytest.mark.parametrize(("step", "turns"), [("0.001", 20.0), ("0.05", 107.0), ("0.5", 200.0)])
def test_turns_are_at_least_those_wanted_and_at_most_what_can_be_turned(
    step: str, turns: float
) -> None:
    assert proposed(scale_step=us(step, LB))[1] == turns


@given(rows=st.integers(1, 60), step=st.integers(1, 500))
def test_second_opinion_on_the_proposed_turns(rows: int, step: int) -> None:
    pounds = Fraction(step, 1000)
    caught = min(rows, max(6, ceil(Fraction(rows, 4))))
    square_feet = caught * Fraction(75, 10) / 12 * Fraction(815, 10) / 12
    a_turn = 80 * square_feet / 43_560
    turns = min(200, max(20, ceil(100 * pounds / a_turn)))
    found = proposed(drive_rows=float(rows), scale_step=float(pounds * LB))
    assert found == (float(caught), float(turns))


def test_a_catch_worked_by_hand_in_us_units() -> None:
    # 6 rows at 7.5 in, 30 turns of 79.5 in: 745.3 sq ft; 0.62 lb on it is 36.24 lb/ac.
    area = plan.ground(
        rows_caught=6.0,
        row_spacing=us("7.5", IN),
        turns=30.0,
        distance_per_turn=us("79.5", IN),
    ).ground_covered
    assert area == pytest.approx(us("745.3125", FT * FT), rel=EXACT)
    rate = us("0.62", LB) / area
    assert rate / float(LB_AC) == pytest.approx(36.24, abs=0.005)
    assert rate * 10_000 == pytest.approx(40.6, abs=0.05)
    catch = plan.expected_catch(bulk_rate=rate, ground_covered=area, rows_caught=6.0)
    assert catch.target_catch == pytest.approx(us("0.62", LB), rel=EXACT)
    assert catch.target_catch_per_row == pytest.approx(us("0.62", LB) / 6, rel=EXACT)


@given(rate=NUMBERS, rows=st.integers(1, 100), spacing=NUMBERS, turns=NUMBERS, distance=NUMBERS)
def test_second_opinion_on_the_expected_catch(
    rate: Fraction, rows: int, spacing: Fraction, turns: Fraction, distance: Fraction
) -> None:
    """Acres = width (ft) x distance (ft) / 43,560: Virginia Tech 418-121, forage drills."""
    acres = rows * spacing / 12 * (turns * distance / 12) / 43_560
    area = plan.ground(
        rows_caught=float(rows),
        row_spacing=us(str(spacing), IN),
        turns=float(turns),
        distance_per_turn=us(str(distance), IN),
    ).ground_covered
    assert area == pytest.approx(float(acres * AC), rel=EXACT)
    catch = plan.expected_catch(
        bulk_rate=us(str(rate), LB_AC), ground_covered=area, rows_caught=float(rows)
    )
    assert catch.target_catch == pytest.approx(float(acres * rate * LB), rel=EXACT)
    assert catch.target_catch_per_row == pytest.approx(float(acres * rate * LB / rows), rel=EXACT)


@given(st.floats(1.0, 100.0), st.floats(1.0, 100.0), st.sampled_from(range(4)))
def test_ground_doubles_with_each_of_its_four_factors(one: float, other: float, which: int) -> None:
    names = ("rows_caught", "row_spacing", "turns", "distance_per_turn")
    facts = dict(zip(names, (one, other, one, other), strict=True))
    once = plan.ground(**facts).ground_covered
    twice = plan.ground(**{**facts, names[which]: 2 * facts[names[which]]}).ground_covered
    assert twice == pytest.approx(2 * once, rel=EXACT)


def reading(**of: float) -> tuple[float, float, float]:
    """What the scale should show, and the lowest and highest that are near enough, in grams."""
    told = {"target_catch": 2.0, "tare": 0.5, "tolerance": 0.05, "scale_step": 0.001}
    found = plan.expected_reading(**(told | of))
    kilos = (found.expected_reading, found.reading_low, found.reading_high)
    return kilos[0] * 1000, kilos[1] * 1000, kilos[2] * 1000


def test_the_reading_has_the_tub_in_it_and_the_tolerance_has_not() -> None:
    assert reading() == pytest.approx((2500, 2400, 2600), rel=EXACT)


@pytest.mark.parametrize(
    ("target", "tub", "step", "low", "high"),
    [
        # 944 g, 5 in 100 of it 47.2 g: 896.8 to 991.2 g; a scale of 5 g shows 900 to 990 there.
        (944, 0, 5, 900, 990),
        (944, 3, 5, 900, 990),  # 899.8 to 994.2 g
        (1000, 0, 5, 950, 1050),  # ends that are steps stay
        (944, 0, 50, 900, 950),  # the step above 950, 1,000, is over 991.2
        (944, 0, 300, 900, 900),  # one step is all that is near enough
        (944, 0, 400, 896.8, 991.2),  # 800 and 1,200 are not: no step is
    ],
)
def test_the_ends_of_what_is_near_enough_are_steps_of_the_scale_that_are_near_enough(
    target: float, tub: float, step: float, low: float, high: float
) -> None:
    of = {"target_catch": target / 1000, "tare": tub / 1000, "scale_step": step / 1000}
    assert reading(**of) == pytest.approx((target + tub, low, high), rel=EXACT)


@pytest.mark.parametrize(
    ("catch", "turns", "outcome", "marks"),
    [
        (1.0, 30.0, plan.Enough, 100.0),
        (2.0, 20.0, plan.Enough, 200.0),
        (0.99, 30.0, plan.FewMarks, 99.0),
        (0.5, 30.0, plan.FewMarks, 50.0),
        (0.49, 30.0, plan.TooFewMarks, 49.0),
        (1.0, 19.5, plan.FewTurns, 100.0),
        (0.6, 19.0, plan.FewTurns, 60.0),
        (0.3, 5.0, plan.TooFewMarks, 30.0),
    ],
)
def test_the_worst_that_is_wrong_with_a_catch_is_told(
    catch: float, turns: float, outcome: type, marks: float
) -> None:
    found = plan.enough_to_weigh(
        target_catch=catch,
        scale_step=0.01,
        turns=turns,
        turns_wanted=20.0,
        marks_wanted=100.0,
        marks_least=50.0,
    )
    assert isinstance(found, outcome)
    assert found.scale_marks == pytest.approx(marks, rel=EXACT)
