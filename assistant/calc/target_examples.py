"""Example inputs of the targets, the seed tag and the wheel, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value

WHEAT = {"seeds_per_weight": 27_500.0}
SPACING = {"row_spacing": 0.19}
BUSHELS = {"target_bushels": 1.5e-5, "bushel_agreement": 0.01, "trade_bushel": 412.0}
COUNTED: dict[str, Value] = {"seeds_counted": (100.0, 100.0, 100.0), "count_spread_most": 0.04}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "rate_as_told": ({"target_weight": 0.009},),
    "seeds_as_told": ({"target_seeds": 320.0},),
    "plants_as_told": ({"target_plants": 280.0},),
    "row_seeds_to_area": ({"target_row_seeds": 60.0, **SPACING},),
    "row_plants_to_area": ({"target_row_plants": 50.0, **SPACING},),
    "seeds_on_the_row": ({"seeds_per_area": 320.0, **SPACING},),
    "plants_on_the_row": ({"plants_per_area": 280.0, **SPACING},),
    "seeds_for_plants": ({"plants_per_area": 280.0, "germination": 0.92, "emergence": 0.85},),
    "rate_from_seeds": ({"seeds_per_area": 320.0, **WHEAT},),
    "rate_from_pure_seeds": ({"seeds_per_area": 320.0, **WHEAT, "purity": 0.9},),
    "seeds_from_rate": ({"bulk_rate": 0.009, **WHEAT},),
    "purity_matters": (
        {"purity": 0.99, "purity_low": 0.97},
        {"purity": 0.9, "purity_low": 0.97},
    ),
    "live_share": (
        {"purity": 0.96, "germination": 0.8, "hard_seed": 0.1},
        {"purity": 0.96, "germination": 0.95, "hard_seed": 0.1},
        {"purity": 0.96, "germination": 0.0, "hard_seed": 0.0},
    ),
    "rate_from_live_weight": ({"target_live_weight": 0.0011, "bulk_per_live_seed": 1.25},),
    "rate_from_live_seeds": (
        {"target_live_seeds": 430.0, "bulk_per_live_seed": 1.25, "seeds_per_weight": 480_000.0},
    ),
    "rate_from_bushels": ({"target_bushels": 1.5e-5, "bushel_weight": 772.0},),
    "compare_bushels": (
        {**BUSHELS, "test_weight": 410.0},
        {**BUSHELS, "test_weight": 489.0},
    ),
    "counted_seeds": (
        {"seeds_counted": (312.0,), "counted_weight": (0.0114,), "count_spread_most": 0.04},
        {**COUNTED, "counted_weight": (0.0036, 0.0037, 0.0036)},
        {**COUNTED, "counted_weight": (0.0036,)},
        {**COUNTED, "counted_weight": (0.0036, 0.0045, 0.0036)},
        {**COUNTED, "counted_weight": (0.0036, 0.0037)},
    ),
    "rolled_distance_per_turn": ({"rolled_turns": 10.0, "rolled_distance": 20.2},),
    "turn_against_usual": tuple(
        {"distance_per_turn": each, "turn_least": 1.2192, "turn_most": 4.2672}
        for each in (2.07, 0.5, 24.0)
    ),
    "axle_distance_per_turn": ({"axle_height": 0.33, "one_turn": 1.0},),
}
