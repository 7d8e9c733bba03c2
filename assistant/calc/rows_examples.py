"""Example inputs of rows against each other, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value
from assistant.calc.contract import Trial

LIMITS: dict[str, Value] = {
    "row_low": 0.9,
    "row_high": 1.1,
    "plugged_under": 0.75,
    "hot_over": 1.2,
    "pattern_least": 0.05,
    "pattern_sure": 0.99,
    "one_row": 1.0,
}
ROWS: tuple[tuple[float, ...], ...] = (
    (0.080, 0.070, 0.082, 0.069, 0.079, 0.071, 0.081, 0.068),
    (0.080, 0.081, 0.079, 0.080, 0.070, 0.069, 0.071, 0.070),
    (0.070, 0.080, 0.081, 0.079, 0.080, 0.069),
    (0.054, 0.057, 0.049, 0.056, 0.031, 0.055),
    (0.054, 0.057, 0.055, 0.056, 0.071, 0.055),
    (0.054, 0.061, 0.055, 0.048, 0.056, 0.055),
    (0.054, 0.055, 0.053),
    (0.054, 0.055),
)
ALONE = (Trial(opening=0.014, catch_weight=0.6),)
CAUGHT: dict[str, Value] = {"rows_caught": 4.0, "row_count": 24.0, "one_row": 1.0, "sure": 0.95}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "row_pattern": tuple({**LIMITS, "row_weights": weights} for weights in ROWS),
    "rows_told": tuple(
        {"row_weights": ROWS[-2], "rows_caught": rows, "one_row": 1.0} for rows in (3.0, 4.0)
    ),
    "other_rows_left": tuple({"rows_caught": 6.0, "drive_rows": of} for of in (24.0, 8.0)),
    "compare_other_rows": tuple(
        {
            "other_weight": weight,
            "caught_rate": 0.009,
            "target_catch": 0.3,
            "ground_covered": 33.3,
            "usual_row_cv": 0.05,
            "rows_caught": 6.0,
            "drive_rows": 24.0,
            "one_row": 1.0,
            "sure": 0.95,
        }
        for weight in (0.3, 0.4)
    ),
    "rows_left_open": (
        {**CAUGHT, "usual_row_cv": 0.08, "trials": ALONE},
        {**CAUGHT, "usual_row_cv": 0.08, "trials": ALONE, "rows_caught": 24.0},
        {**CAUGHT, "usual_row_cv": 0.08, "trials": (Trial(row_weights=(0.05, 0.06)),)},
    ),
    "rows_left_open_by_these": (
        {**CAUGHT, "row_cv": 0.08},
        {**CAUGHT, "row_cv": 0.08, "rows_caught": 24.0},
        {**CAUGHT, "row_cv": 0.08, "rows_caught": 1.0},
    ),
}
