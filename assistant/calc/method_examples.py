"""Example inputs of strip, crank, weigh-out, count and width, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value
from assistant.calc.contract import Trial

WEIGHED: dict[str, Value] = {"seed_in": 567.0, "field_ground": 54000.0}
DRIVEN: dict[str, Value] = {"driven_distance": 12000.0, "working_width": 4.57}
COUNTED: dict[str, Value] = {
    "distance_per_turn": 2.0,
    "catch_step": 0.00016,
    "rows_to_count": 4.0,
    "seeds_to_count": 400.0,
    "turns_to_count": 10.0,
    "turns_most": 200.0,
    "one_turn": 1.0,
}
NEAR_ENOUGH: dict[str, Value] = {"one_row": 1.0, "tolerance": 0.05}
COUNTABLE: dict[str, Value] = {"turns_to_count": 10.0, "count_least": 200.0, "count_most": 3000.0}
TRAM: dict[str, Value] = {"bulk_rate": 0.009, "row_count": 24.0}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "seed_in_bags": ({"bags": 24.0, "bag_weight": 22.7, "loose_seed": 9.0},),
    "ground_by_distance": (
        {**DRIVEN, "overlap": 0.15},
        {**DRIVEN, "overlap": 4.57},
    ),
    "weigh_out": (
        {**WEIGHED, "seed_left": 82.0},
        {**WEIGHED, "seed_left": 567.0},
    ),
    "against_card": tuple(
        {"weigh_out_rate": rate, "card_rate": 0.009, "tolerance": 0.05}
        for rate in (0.0091, 0.012, 0.007)
    ),
    "count_for_scale": ({"seeds_per_weight": 6000.0, "one_seed": 1.0, "no_tub": 0.0},),
    "propose_count": ({**COUNTED, "bulk_rate": 0.006, "row_spacing": 0.38, "drive_rows": 8.0},),
    "expected_count": (
        {"target_catch": 0.18, "catch_step": 0.00016, "rows_caught": 4.0, **NEAR_ENOUGH},
    ),
    "enough_to_count": (
        {**COUNTABLE, "expected_seeds": 1100.0, "turns": 10.0},
        {**COUNTABLE, "expected_seeds": 1100.0, "turns": 5.0},
        {**COUNTABLE, "expected_seeds": 150.0, "turns": 10.0},
        {**COUNTABLE, "expected_seeds": 9000.0, "turns": 10.0},
    ),
    "rows_counted": tuple(
        {"trials": (Trial(opening=0.014, seeds_caught=seeds),), "rows_caught": 3.0, "one_row": 1.0}
        for seeds in ((270.0, 280.0, 275.0), (825.0,), (270.0, 280.0))
    ),
    "counts_by_row": (
        {
            "trials": (Trial(opening=0.014, seeds_caught=(270.0, 280.0, 100.0)),),
            "catch_step": 0.00016,
            "plugged_under": 0.75,
            "hot_over": 1.2,
            "sure": 0.95,
        },
    ),
    "counted_catch": (
        {
            "trials": (Trial(opening=0.014, seeds_caught=(270.0, 280.0)),),
            "ground_covered": 15.0,
            "row_spacing": 0.38,
            "one_seed": 1.0,
        },
    ),
    "rows_gave": ({"weigh_out_rate": 0.0093, "card_rate": 0.009, "twice_per_swath": 0.033},),
    "overlap_more": (
        {"bulk_rate": 0.009, "working_width": 4.57, "overlap": 0.15},
        {"bulk_rate": 0.009, "working_width": 4.57, "overlap": 5.0},
    ),
    "part_shut_off": (
        {"counter_ground": 8000.0, "live_rows": 12.0, "row_count": 24.0, "bulk_rate": 0.009},
    ),
    "tramlines_each_meter": (
        {**TRAM, "tram_rows": 2.0, "tram_passes": 3.0},
        {**TRAM, "tram_rows": 24.0, "tram_passes": 3.0},
    ),
    "shut_on_shared_meter": ({"bulk_rate": 0.009, "row_count": 24.0, "dropping_rows": 12.0},),
    "tramlines_shared_meter": (
        {**TRAM, "tram_rows": 2.0},
        {**TRAM, "tram_rows": 24.0},
    ),
    "rows_shut": (
        {"row_count": 24.0, "shut_rows": 12.0, "row_spacing": 0.19},
        {"row_count": 24.0, "shut_rows": 24.0, "row_spacing": 0.19},
    ),
}
