"""What a tolerance takes: rows that speak for all rows, and catches to count on."""

import numpy as np
import pytest

from assistant.calc import outlook
from assistant.calc.outlook import CatchesExpected, RowsForAll

DRILLS = 40_000


def wanted(tolerance: float, row_cv: float, rows: float) -> float:
    """The rows that speak for all, where one row is proposed."""
    found = outlook.rows_for_all(
        drive_rows=rows,
        proposed_rows_caught=1.0,
        tolerance=tolerance,
        usual_row_cv=row_cv,
        one_row=1.0,
    )
    assert isinstance(found, RowsForAll.More)
    return found.rows_for_all


CASES = [
    # 1 / ((0.32 x 0.05 / 0.05)^2 + 1/24) = 1 / (0.1024 + 0.04167) = 6.94
    (0.05, 0.05, 24.0, 7.0),
    # 1 / (0.192^2 + 1/24) = 1 / 0.07853 = 12.73
    (0.03, 0.05, 24.0, 13.0),
    # 1 / (0.2^2 + 1/24) = 1 / 0.08167 = 12.24
    (0.05, 0.08, 24.0, 13.0),
    # 1 / (0.12^2 + 1/24) = 1 / 0.05607 = 17.84
    (0.03, 0.08, 24.0, 18.0),
    # 1 / (0.1024 + 1/12) = 5.38
    (0.05, 0.05, 12.0, 6.0),
]


@pytest.mark.parametrize(("tolerance", "row_cv", "rows", "expected"), CASES)
def test_rows_that_speak_for_all(
    tolerance: float, row_cv: float, rows: float, expected: float
) -> None:
    assert wanted(tolerance, row_cv, rows) == expected


@pytest.mark.parametrize(("tolerance", "row_cv", "rows", "expected"), CASES)
def test_with_so_many_rows_caught_95_of_100_whole_drills_are_within(
    tolerance: float, row_cv: float, rows: float, expected: float
) -> None:
    """Drawn: rows that differ, the caught ones set to within the tolerance by a proven setting.

    What that leaves has a standard deviation of 0.4 of the tolerance at most: 98 of 100 within.
    """
    chance = np.random.default_rng(98)
    drills = chance.normal(1, row_cv, (DRILLS, int(rows)))
    caught = drills[:, : int(expected)].mean(axis=1)
    left = chance.normal(0, 0.4 * tolerance, DRILLS)
    whole = drills.mean(axis=1) / caught * (1 + left)
    assert (abs(whole - 1) <= tolerance).mean() >= 0.945


@pytest.mark.parametrize(("proposed", "said"), [(9.0, True), (12.0, True), (13.0, False)])
def test_it_is_worth_a_word_where_it_is_more(proposed: float, said: bool) -> None:
    """13 rows would speak for all."""
    found = outlook.rows_for_all(
        drive_rows=24.0,
        proposed_rows_caught=proposed,
        tolerance=0.03,
        usual_row_cv=0.05,
        one_row=1.0,
    )
    assert isinstance(found, RowsForAll.More) == said


@pytest.mark.parametrize(
    ("tolerance", "scatter", "outcome"),
    [
        (0.10, 0.01, CatchesExpected.Few),
        (0.05, 0.01, CatchesExpected.Few),
        (0.05, 0.025, CatchesExpected.Few),
        (0.05, 0.026, CatchesExpected.Some),
        (0.10, 0.06, CatchesExpected.Some),
        (0.049, 0.01, CatchesExpected.Some),
        (0.03, 0.01, CatchesExpected.Some),
        (0.03, 0.02, CatchesExpected.Many),
        (0.02, 0.01, CatchesExpected.Many),
        (0.02, 0.02, CatchesExpected.Many),
    ],
)
def test_a_narrower_tolerance_and_a_drill_that_scatters_take_more_catches(
    tolerance: float, scatter: float, outcome: type
) -> None:
    """In the closed loop 95 of 100 drills take up to 5 at 5 %, up to 9 at 3 %."""
    found = outlook.catches_expected(tolerance=tolerance, scatter_told=scatter)
    assert isinstance(found, outcome)
