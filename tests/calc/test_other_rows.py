"""A catch from other rows: how it stands beside the first, and what all together leave open."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from assistant.calc import other_rows
from assistant.calc.other_rows import FewLeft, OtherRows, SomeLeft

USUAL: dict[str, Any] = {
    "caught_rate": 0.009,
    "target_catch": 0.3,
    "ground_covered": 30.0,
    "usual_row_cv": 0.05,
    "rows_caught": 6.0,
    "drive_rows": 24.0,
    "one_row": 1.0,
    "sure": 0.95,
}


def compared(other_weight: float, **given_: Any) -> OtherRows.Alike | OtherRows.Apart:
    return other_rows.compare_other_rows(**{**USUAL, "other_weight": other_weight, **given_})


@pytest.mark.parametrize(
    ("caught", "rows", "some"), [(6.0, 24.0, True), (6.0, 12.0, True), (6.0, 11.0, False)]
)
def test_as_many_rows_again_must_be_there(caught: float, rows: float, *, some: bool) -> None:
    left = other_rows.other_rows_left(rows_caught=caught, drive_rows=rows)
    assert left == (SomeLeft() if some else FewLeft())


def test_both_together_by_hand() -> None:
    """0.27 kg caught first and 0.29 then, of 0.3 wanted: 0.28 is 6.7 % light; 4 % is left open."""
    found = compared(0.29)
    assert isinstance(found, OtherRows.Apart) is (0.29 / 0.27 - 1 > 2 * 0.05 * (2 / 6) ** 0.5)
    assert found.other_rate == pytest.approx(0.29 / 30)
    assert found.both_off == pytest.approx(-1 / 15)
    assert found.both_left_open == pytest.approx(
        stats.norm.ppf(0.975) * 0.05 * (0.5 / 12) ** 0.5, rel=1e-6
    )


def test_all_rows_caught_leave_nothing_open() -> None:
    assert compared(0.3, rows_caught=12.0).both_left_open == 0


@given(st.fractions(Fraction(1, 10), 2), st.fractions(Fraction(1, 10), 2))
def test_second_opinion_on_both_together(first: Fraction, other: Fraction) -> None:
    found = compared(float(other), caught_rate=float(first) / 30)
    both = (first + other) / 2 / Fraction(3, 10) - 1
    assert found.both_off == pytest.approx(float(both), abs=1e-12)


def test_groups_of_one_drill_are_seldom_called_apart_and_a_bad_gate_often() -> None:
    """Six and six of 24 rows that differ by 5 %; then rows of which half give 15 % less."""
    random = np.random.default_rng(11)
    even = random.normal(0.009, 0.00045, (4_000, 12))
    bad = even * np.r_[np.ones(6), np.full(6, 0.85)]

    def apart(drills: Any) -> float:
        means = zip(drills[:, :6].mean(1), drills[:, 6:].mean(1), strict=True)
        found = [compared(other * 30, caught_rate=first) for first, other in means]
        return float(np.mean([isinstance(each, OtherRows.Apart) for each in found]))

    assert apart(even) < 0.07
    assert apart(bad) > 0.9
