"""Example inputs of ratio suspects, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value

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
    "ratio_suspects": tuple(
        {**FOUND, "caught_rate": caught} for caught in (0.108, 0.018, 0.063, 0.0091, 0.0)
    ),
}
