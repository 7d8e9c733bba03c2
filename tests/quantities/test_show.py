"""How values are shown: by kind, in either system, in a scale's own marks, as they were typed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.quantities.settled import exact, si_value
from assistant.quantities.show import show, show_settled


@pytest.mark.parametrize(
    ("kind", "settled", "us", "metric"),
    [
        ("rate", "36.2 lb/ac", "36.2 lb/ac", "40.6 kg/ha"),
        ("share", "92 %", "92 %", "92 %"),
        ("share", "85.36 %", "85.4 %", "85.4 %"),
        ("share", "-6 %", "-6 %", "-6 %"),
        ("share", "0 %", "0 %", "0 %"),
        ("distance_per_turn", "81.5 in", "81.5 in", "2.07 m"),
        ("distance_per_turn", "30 in", "30 in", "76.2 cm"),
        ("row_spacing", "7.5 in", "7.5 in", "19.1 cm"),
        ("mass", "0.73 lb", "0.73 lb", "331 g"),
        ("mass", "0.02 lb", "0.32 oz", "9.07 g"),
        ("mass", "0.1 lb", "0.1 lb", "45.4 g"),
        ("mass", "1250 lb", "1250 lb", "567 kg"),
        ("mass", "12500 lb", "12,500 lb", "5670 kg"),
        ("mass", "0 g", "0 oz", "0 g"),
        ("seeds_per_weight", "12500 seed/lb", "12,500 per lb", "27,560 per kg"),
        ("seeds_per_weight", "30 g", "15,120 per lb", "33,330 per kg"),
        ("seeds_per_area", "28 seed/ft^2", "28 seeds per sq ft", "301 seeds per sq m"),
        ("plants_per_area", "1100000 plant/ac", "25.3 plants per sq ft", "272 plants per sq m"),
        ("plants_per_area", "1000 plant/ac", "1000 plants per ac", "2471 plants per ha"),
        ("live_rate", "10 lb/ac", "10 lb PLS/ac", "11.2 kg PLS/ha"),
        ("live_seeds_per_area", "30 seed/ft^2", "30 PLS per sq ft", "323 PLS per sq m"),
        ("seeds_per_row_length", "17 seed/ft", "17 seeds per ft", "55.8 seeds per m"),
        ("plants_per_row_length", "17 plant/ft", "17 plants per ft", "55.8 plants per m"),
        ("bulk_density", "58 lb/bu", "58 lb/bu", "74.7 kg/hL"),
        ("bushel_rate", "1.5 bu/ac", "1.5 bu/ac", "1.5 bu/ac"),
        ("mass_per_turn", "0.62 lb", "0.62 lb", "281 g"),
        ("turns_per_area", "126.3 turn/ac", "126 turns per ac", "312 turns per ha"),
        ("pulses_per_mass", "580.6 pulse/lb", "581 pulses per lb", "1280 pulses per kg"),
        ("turns_per_mass", "1.6 turn/lb", "1.6 turns per lb", "3.53 turns per kg"),
        ("pulses_per_turn", "360 pulse", "360 pulses", "360 pulses"),
        ("time", "27.3 s", "27.3 s", "27.3 s"),
        ("time", "180 s", "3 min", "3 min"),
        ("speed", "5 mi/h", "5 mph", "8.05 km/h"),
        ("turn_rate", "52.1 turn/min", "52.1 rpm", "52.1 rpm"),
        ("area", "160 ac", "160 ac", "64.7 ha"),
        ("area", "0.05 ac", "2178 sq ft", "202 sq m"),
        ("length", "66.25 ft", "66.3 ft", "20.2 m"),
        ("length", "14.5 mm", "0.571 in", "14.5 mm"),
        ("rows", "24", "24", "24"),
        ("seeds", "12345", "12,345", "12,345"),
        ("turns", "29.5", "29.5", "29.5"),
        ("mark", "14.5", "14.5", "14.5"),
        ("choice", "fluted", "fluted", "fluted"),
        ("mass", "54 g; 57 g; 49 g", "0.119, 0.126, 0.108 lb", "54, 57, 49 g"),
    ],
)
def test_a_value_is_shown_in_the_units_of_its_kind(
    kind: str, settled: str, us: str, metric: str
) -> None:
    value = si_value(kind, settled)
    assert show(kind, value) == us
    assert show(kind, value, "metric") == metric


@pytest.mark.parametrize(
    ("kilograms", "unit", "step", "shown"),
    [
        (0.331, "lb", "0.01", "0.73 lb"),
        (0.331, "lb", "0.001", "0.730 lb"),
        (0.331, "oz", "0.5", "11.5 oz"),
        (0.331, "oz", "0.1", "11.7 oz"),
        (0.3311, "g", "1", "331 g"),
        (0.3331, "g", "5", "335 g"),
        (12.3311, "g", "1", "12,331 g"),
        (0.331, "lb", Fraction(1, 3), "0.667 lb"),
    ],
)
def test_a_weight_is_shown_at_the_nearest_mark_of_the_scale(
    kilograms: float, unit: str, step: str | Fraction, shown: str
) -> None:
    assert show("mass", kilograms, unit=unit, step=step) == shown


def test_a_unit_can_be_asked_for() -> None:
    assert show("area", 47.3, unit="ac") == "0.0117 ac"
    assert show("seeds_per_weight", 100_000 / 3, unit="g") == "30 g per 1,000 seeds"
    assert show("seeds_per_area", 271.8, unit="seed/ac") == "1,100,000 seeds per ac"


def test_a_float_that_came_out_a_hair_under_a_limit_keeps_its_unit() -> None:
    tenth_of_a_pound = float(exact("mass", "0.1 lb"))
    assert show("mass", tenth_of_a_pound * (1 - 1e-15)) == "0.1 lb"


@pytest.mark.parametrize(
    ("kind", "settled", "shown"),
    [
        ("distance_per_turn", "81.5 in", "81.5 in"),
        ("length", "795 in", "66 ft 3 in"),
        ("length", "144 in", "12 ft"),
        ("length", "14.5 mm", "14.5 mm"),
        ("length", "163/3 in", "54 1/3 in"),
        ("length", "1/3 in", "1/3 in"),
        ("rate", "80 lb/ac", "80 lb/ac"),
        ("plants_per_area", "28 plant/ft^2", "28 plants per sq ft"),
        ("seeds_per_weight", "12500 seed/lb", "12,500 per lb"),
        ("seeds_per_weight", "30 g", "30 g per 1,000 seeds"),
        ("mass", "12500 lb", "12500 lb"),
        ("mass", "0.730 lb", "0.73 lb"),
        ("mass", "54 g; 57 g", "54, 57 g"),
        ("mass", "54 g; 1 lb", "54 g, 1 lb"),
        ("share", "-1/3 %", "-1/3 %"),
        ("rows", "24", "24"),
        ("text", "north 40", "north 40"),
    ],
)
def test_a_settled_value_is_shown_with_the_digits_that_were_typed(
    kind: str, settled: str, shown: str
) -> None:
    assert show_settled(kind, settled) == shown
