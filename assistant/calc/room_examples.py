"""Example inputs of a recheck, in SI units: one per outcome and branch."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value
from assistant.calc.catch_examples import marked, opened

RULER: dict[str, Value] = {
    "opening_step": 0.0005,
    "widest_opening": 0.04,
    "narrowest_opening": 0.003,
}
TUBS: dict[str, Value] = {"weighed_within": 0.05, "room_least": 0.5, "room_most": 2.0}
SEEDS: dict[str, Value] = {
    "last_rate": 0.009,
    "foretold_rate": 0.0085,
    "last_seed_size": 27000.0,
    "seeds_per_weight": 33000.0,
}
CAUGHT: dict[str, Value] = {
    "tare": 0.1,
    "catch_step": 0.001,
    "ground_covered": 36.0,
    "foretold_rate": 0.0083,
    "full_job_over": 0.1,
}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "same_crop": (
        {"crop": "wheat", "last_crop": "wheat"},
        {"crop": "oats", "last_crop": "wheat"},
    ),
    "room_by_tubs": (
        {**TUBS, "tub_weights": (1.0, 0.95)},
        {**TUBS, "tub_weights": (1.0,)},
        {**TUBS, "tub_weights": (1.0, 0.2)},
    ),
    "room_by_test_weight": (
        {"last_test_weight": 772.0, "test_weight": 734.0, "weighed_within": 0.05},
    ),
    "room_by_trade": ({"last_crop_weight": 772.0, "crop_weight": 412.0, "by_crop_within": 0.2},),
    "room_as_before": ({"one_to_one": 1.0, "unweighed_within": 0.1},),
    "foretell_rate": (
        {
            "last_rate": 0.009,
            "last_spacing": 0.19,
            "last_distance": 2.0,
            "row_spacing": 0.19,
            "distance_per_turn": 2.1,
            "density_ratio": 0.95,
        },
    ),
    "foretell_seeds": (
        SEEDS,
        {**SEEDS, "foretold_rate": 0.0095, "seeds_per_weight": 22000.0},
        {**SEEDS, "seeds_per_weight": 22000.0},
    ),
    "start_by_card": ({"foretold_within": 0.1},),
    "foretell_opening": (
        {**RULER, "last_opening": 0.014, "foretold_rate": 0.0085, "bulk_rate": 0.009},
        {**RULER, "last_opening": 0.014, "foretold_rate": 0.001, "bulk_rate": 0.009},
        {**RULER, "last_opening": 0.014, "foretold_rate": 0.09, "bulk_rate": 0.009},
    ),
    "foretell_mark": tuple(
        {"last_mark": 12.0, "last_range": name, "foretold_rate": 0.0085, "bulk_rate": 0.009}
        for name in ("low", "middle", "high")
    ),
    "opening_by_same_share": (
        {
            "last_other_opening": 0.015,
            "last_opening": 0.014,
            "final_opening": 0.0175,
            "opening_step": 0.0005,
        },
    ),
    "opening_as_foretold": (
        {**CAUGHT, "last_opening": 0.014, "trials": opened((0.015, 0.31))},
        {**CAUGHT, "last_opening": 0.014, "trials": opened((0.015, 0.2))},
    ),
    "mark_as_foretold": (
        {**CAUGHT, "last_mark": 12.0, "trials": marked((12.0, 0.31))},
        {**CAUGHT, "last_mark": 12.0, "trials": marked((13.0, 0.2))},
        {**CAUGHT, "last_mark": 12.0, "trials": marked((12.0, 0.2))},
    ),
}
