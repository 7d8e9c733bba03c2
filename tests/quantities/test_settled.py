"""The settled spelling: written one way, read back exactly."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.quantities.settled import NotSettled, decimal, exact, join, members, si_value, spell
from assistant.quantities.units import UnknownUnit


@pytest.mark.parametrize(
    ("number", "unit", "spelling"),
    [
        (Fraction(163, 2), "in", "81.5 in"),
        (Fraction(163, 3), "in", "163/3 in"),
        (Fraction(24), "", "24"),
        (Fraction(-1, 20), "%", "-0.05 %"),
        (Fraction(12_500), "seed/lb", "12500 seed/lb"),
        (Fraction(1, 64), "in", "0.015625 in"),
        (Fraction(1100), "", "1100"),
    ],
)
def test_a_value_has_one_spelling(number: Fraction, unit: str, spelling: str) -> None:
    assert spell(number, unit) == spelling


@given(st.fractions(max_denominator=10_000))
def test_a_spelled_number_is_the_same_number(number: Fraction) -> None:
    assert exact("ratio", spell(number, "")) == number
    if decimal(number) is not None:
        assert Fraction(decimal(number) or "") == number


@pytest.mark.parametrize(
    ("kind", "settled", "value"),
    [
        ("distance_per_turn", "81.5 in", 2.0701),
        ("row_spacing", "7.5 in", 0.1905),
        ("mass", "0.73 lb", 0.3311224301),
        ("rate", "80 kg/ha", 0.008),
        ("plants_per_area", "270 plant/m^2", 270.0),
        ("share", "92 %", 0.92),
        ("rows", "24", 24.0),
        ("mark", "14.5", 14.5),
        ("choice", "fluted", "fluted"),
        ("text", "12 of the north; field", "12 of the north; field"),
        ("mass", "54 g; 57 g", (0.054, 0.057)),
        ("mass", "54 g;", (0.054,)),
        ("seeds", "100; 101; 99", (100.0, 101.0, 99.0)),
    ],
)
def test_a_settled_value_is_held_in_the_si_unit_of_its_kind(
    kind: str, settled: str, value: object
) -> None:
    assert si_value(kind, settled) == value


def test_a_thousand_seed_weight_tells_seeds_per_weight() -> None:
    """30 g per 1,000 is 33,333 seeds a kilogram and 15,120 a pound (1 lb = 453.59237 g)."""
    assert exact("seeds_per_weight", "30 g") == Fraction(100_000, 3)
    per_lb = exact("seeds_per_weight", "30 g") / exact("seeds_per_weight", "1 seed/lb")
    assert float(per_lb) == pytest.approx(15_119.75, abs=0.01)
    with pytest.raises(ZeroDivisionError):
        exact("seeds_per_weight", "0 g")


@pytest.mark.parametrize(
    ("kind", "settled"),
    [
        ("mass", "81.5 in"),
        ("mass", "7"),
        ("mass", "1,5 kg"),
        ("mass", "1/0 kg"),
        ("mass", ""),
        ("share", "0.92"),
        ("rows", "24 row"),
        ("rows", "nan"),
        ("text", "anything"),
        ("text", "7"),
        ("bushel_rate", "7.5 in"),
    ],
)
def test_any_other_spelling_is_refused(kind: str, settled: str) -> None:
    with pytest.raises(NotSettled):
        exact(kind, settled)


def test_a_unit_that_is_not_ours_is_refused() -> None:
    with pytest.raises(UnknownUnit):
        exact("mass", "7 stone")


def test_a_list_of_one_is_told_from_a_single_value() -> None:
    assert join(["54 g"]) == "54 g;"
    assert join(["54 g", "57 g"]) == "54 g; 57 g"
    assert members("54 g;") == ("54 g",)
    assert members("54 g") is None
