"""Overlap, clutch, tramlines and shut rows: what the field gets, and what live rows keep."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import plan, width
from tests.calc.us import FT, IN, us

EXACT = 1e-12
RATE = 0.009


def test_six_inches_on_15_feet_are_3_4_more_per_field_and_3_3_per_swath() -> None:
    """0.5 / 14.5 and 0.5 / 15: the base is named (field review, A12)."""
    found = width.overlap_more(bulk_rate=RATE, working_width=us(15, FT), overlap=us(6, IN))
    assert isinstance(found, width.Overlap.Worked)
    assert found.more_per_field == pytest.approx(0.0345, abs=0.00005)
    assert found.twice_per_swath == pytest.approx(0.0333, abs=0.00005)
    assert found.field_rate == pytest.approx(RATE * 15 / 14.5, rel=EXACT)


def test_one_whole_row_of_24_is_4_3_more_per_field_and_4_2_per_swath() -> None:
    found = width.overlap_more(bulk_rate=RATE, working_width=24.0, overlap=1.0)
    assert isinstance(found, width.Overlap.Worked)
    assert found.more_per_field == pytest.approx(1 / 23, rel=EXACT)
    assert found.twice_per_swath == pytest.approx(1 / 24, rel=EXACT)
    wide = width.overlap_more(bulk_rate=RATE, working_width=24.0, overlap=24.0)
    assert wide == width.Overlap.TooWide()


def test_with_half_shut_off_real_ground_halves_and_the_counter_may_not() -> None:
    """Field review, A7: the rate of live rows stays; the counter's acres make half of it."""
    found = width.part_shut_off(
        counter_ground=8000.0, live_rows=12.0, row_count=24.0, bulk_rate=RATE
    )
    assert found.real_ground == pytest.approx(4000.0, rel=EXACT)
    assert found.counter_rate == pytest.approx(RATE / 2, rel=EXACT)
    seed = RATE * found.real_ground
    assert seed / 8000.0 == pytest.approx(found.counter_rate, rel=EXACT)


def test_two_of_24_rows_in_every_third_pass_are_2_8_in_100_less() -> None:
    found = width.tramlines_each_meter(
        bulk_rate=RATE, row_count=24.0, tram_rows=2.0, tram_passes=3.0
    )
    assert isinstance(found, width.Tramlines.EachMeter)
    assert found.live_row_rate == RATE
    assert found.field_change == pytest.approx(-1 / 36, rel=EXACT)
    assert found.field_rate == pytest.approx(RATE * 35 / 36, rel=EXACT)
    made_up = width.tramlines_each_meter(
        bulk_rate=found.made_up_rate, row_count=24.0, tram_rows=2.0, tram_passes=3.0
    )
    assert isinstance(made_up, width.Tramlines.EachMeter)
    assert made_up.field_rate == pytest.approx(RATE, rel=EXACT)


def test_a_shared_meter_gives_the_seed_to_the_other_rows() -> None:
    found = width.tramlines_shared_meter(bulk_rate=RATE, row_count=24.0, tram_rows=2.0)
    assert isinstance(found, width.Tramlines.SharedMeter)
    assert found.field_rate == RATE
    assert found.live_row_change == pytest.approx(2 / 22, rel=EXACT)
    assert found.live_row_rate * 22 == pytest.approx(RATE * 24, rel=EXACT)


def test_rows_shut_on_a_shared_meter_double_what_the_others_drop() -> None:
    found = width.shut_on_shared_meter(bulk_rate=RATE, row_count=24.0, dropping_rows=12.0)
    assert found.field_rate == RATE
    assert found.live_row_rate == pytest.approx(2 * RATE, rel=EXACT)
    assert found.live_row_change == pytest.approx(1, rel=EXACT)


def test_every_second_row_shut_leaves_beans_at_twice_the_spacing() -> None:
    found = width.rows_shut(row_count=24.0, shut_rows=12.0, row_spacing=us("7.5", IN))
    assert isinstance(found, width.Dropping.Worked)
    assert found.dropping_rows == 12.0
    assert found.dropping_spacing == pytest.approx(us(15, IN), rel=EXACT)
    assert found.field_change == pytest.approx(-0.5, rel=EXACT)


@given(st.integers(2, 60), st.integers(1, 59), st.integers(1, 8))
def test_second_opinion_on_rows_that_are_shut(rows: int, shut: int, passes: int) -> None:
    """Ground is the same by all rows at their spacing as by the rows that drop at theirs."""
    if shut >= rows:
        for found in (
            width.rows_shut(row_count=float(rows), shut_rows=float(shut), row_spacing=0.19),
            width.tramlines_shared_meter(
                bulk_rate=RATE, row_count=float(rows), tram_rows=float(shut)
            ),
        ):
            assert type(found).__name__ == "NoRowLeft"
        return
    dropping = width.rows_shut(row_count=float(rows), shut_rows=float(shut), row_spacing=0.19)
    assert isinstance(dropping, width.Dropping.Worked)
    whole = plan.ground(
        rows_caught=float(rows), row_spacing=0.19, turns=30.0, distance_per_turn=2.0
    )
    live = plan.ground(
        rows_caught=dropping.dropping_rows,
        row_spacing=dropping.dropping_spacing,
        turns=30.0,
        distance_per_turn=2.0,
    )
    assert live.ground_covered == pytest.approx(whole.ground_covered, rel=EXACT)
    tram = width.tramlines_each_meter(
        bulk_rate=RATE, row_count=float(rows), tram_rows=float(shut), tram_passes=float(passes)
    )
    assert isinstance(tram, width.Tramlines.EachMeter)
    share = Fraction(rows * passes - shut, rows * passes)
    assert tram.field_rate == pytest.approx(RATE * float(share), rel=EXACT)
