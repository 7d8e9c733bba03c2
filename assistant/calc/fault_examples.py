"""Example inputs of row patterns and ratio suspects, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value
from assistant.calc.suspect_ratios import FIXED

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
    "told_pounds": 1.3,
    "tub_share": 0.7,
    "rows_ratio": 4.0,
    "row_share": 1 / 6,
    "germination_told": 0.9,
    "live_share_told": 0.8,
    "bushel_ratio": 0.96,
    "catches_made": 1.0,
    "catch_scatter": 0.02,
    "suspects_within": 0.1,
    "sure": 0.95,
}
OWN = (
    *("rows_for_rows", "one_row_off", "germination_twice", "live_share_twice"),
    *("other_bushel", "tub", "ounces_as_decimal"),
)
SUSPECTS: tuple[str, ...] = (*FIXED, *OWN)
"""Every suspect by its name."""

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
    "ratio_suspects": tuple({**FOUND, "found_ratio": ratio} for ratio in (12.1, 2.0, 7.0, 1.01)),
    "next_suspects": ({"suspects_left": SUSPECTS}, {"suspects_left": ()}),
    "suspect_named": ({"suspects_shown": SUSPECTS, "suspect_number": 2.0},),
    "weights_apart": tuple(
        {"wanted_weight": 0.6, "got_weight": got, "one_pound": 0.45359237} for got in (1.2, 0.0)
    ),
    "rates_apart": ({"wanted_rate": 0.009, "got_rate": 0.018},),
    "far_off": tuple({"percent_off": off, "mix_up_from": 1.8} for off in (0.1, 1.0)),
    "lot_matters": tuple({"times_off": times, "lot_makes_most": 3.0} for times in (1.2, 4.0)),
    "tub_told": ({"empty_tub": 0.4, "got_weight": 0.6},),
    "row_told": ({"rows_in_tubs": 6.0, "one_row": 1.0},),
    "rows_told": ({"rows_in_tubs": 6.0, "rows_on_drill": 24.0},),
    "sprout_told": ({"sprouting": 0.8},),
    "live_told": ({"pure_part": 0.9, "sprouting": 0.8},),
    "bushels_told": ({"lot_bushel": 740.0, "reckoned_bushel": 772.0},),
}
