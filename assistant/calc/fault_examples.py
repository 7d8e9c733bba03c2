"""Example inputs of row patterns and ratio suspects, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value

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
CAUGHT: dict[str, Value] = {"rows_caught": 4.0, "row_count": 24.0, "one_row": 1.0, "sure": 0.95}
FOUND: dict[str, Value] = {
    "bulk_rate": 0.009,
    "told_weight": 0.6,
    "tare": 0.4,
    "rows_caught": 6.0,
    "rows_planned": 6.0,
    "row_count": 24.0,
    "germination": 0.9,
    "live_seed_share": 0.8,
    "test_weight": 740.0,
    "trade_bushel": 772.0,
    "catches_made": 1.0,
    "catch_scatter": 0.02,
    "suspects_within": 0.1,
    "sure": 0.95,
    "one_row": 1.0,
    "one_pound": 0.45359237,
}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "row_pattern": tuple({**LIMITS, "row_weights": weights} for weights in ROWS),
    "rows_left_open": (
        {**CAUGHT, "usual_row_cv": 0.08},
        {**CAUGHT, "usual_row_cv": 0.08, "rows_caught": 24.0},
    ),
    "rows_left_open_by_these": (
        {**CAUGHT, "row_cv": 0.08},
        {**CAUGHT, "row_cv": 0.08, "rows_caught": 24.0},
        {**CAUGHT, "row_cv": 0.08, "rows_caught": 1.0},
    ),
    "ratio_suspects": tuple(
        {**FOUND, "caught_rate": caught} for caught in (0.108, 0.018, 0.063, 0.0091, 0.0)
    ),
}
