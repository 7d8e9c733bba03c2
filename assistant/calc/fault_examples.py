"""Example inputs of ratio suspects, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value
from assistant.calc.suspect_ratios import FIXED

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
    "ratio_suspects": tuple({**FOUND, "found_ratio": ratio} for ratio in (12.1, 2.0, 7.0)),
    "next_suspects": ({"suspects_left": SUSPECTS}, {"suspects_left": ()}),
    "suspect_named": ({"suspects_shown": SUSPECTS, "suspect_number": 2.0},),
    "weights_apart": tuple(
        {"wanted_weight": 0.6, "got_weight": got, "one_pound": 0.45359237} for got in (1.2, 0.0)
    ),
    "rates_apart": ({"wanted_rate": 0.009, "got_rate": 0.018},),
    "far_off": tuple({"percent_off": off, "mix_up_from": 1.8} for off in (0.1, 1.0)),
    "how_far_apart": tuple(
        {
            "times_off": times,
            "lot_makes_most": 3.0,
            "catches_made": 1.0,
            "catch_scatter": 0.02,
            "sure": 0.95,
        }
        for times in (1.01, 1.2, 4.0)
    ),
    "job_weight": ({"job_off": 1.2, "job_catch": 0.3},),
    "share_apart": ({"job_off": 1.2},),
    "tub_told": ({"empty_tub": 0.4, "got_weight": 0.6},),
    "row_told": ({"rows_in_tubs": 6.0, "one_row": 1.0},),
    "rows_compared": ({"rows_in_tubs": 6.0, "rows_on_drill": 24.0},),
    "sprout_told": ({"sprouting": 0.8},),
    "live_told": ({"pure_part": 0.9, "sprouting": 0.8},),
    "bushels_told": ({"lot_bushel": 740.0, "reckoned_bushel": 772.0},),
}
