"""Our factors against published ones: exact fractions, and scipy's constants where it has them.

NIST Special Publication 811 and Handbook 44, appendix C, are quoted from memory: pound 453.59237 g,
international foot 0.3048 m, acre 43,560 square feet (4046.8564224 square metres), bushel 2150.42
cubic inches (35.23907016688 litres), ounce 28.349523125 g.
"""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction
from functools import cache

import pytest
from pint import UnitRegistry
from scipy import constants

from assistant.quantities.kinds import KINDS
from assistant.quantities.registry import (
    DERIVED,
    checking_quantity,
    exact_registry,
    has_dimension,
    quantity,
)
from assistant.quantities.units import UnknownUnit, factor, same_dimension

PUBLISHED = {
    "lb": "0.45359237",
    "oz": "0.028349523125",
    "ft": "0.3048",
    "in": "0.0254",
    "yd": "0.9144",
    "mi": "1609.344",
    "ac": "4046.8564224",
    "ha": "10000",
    "bu": "0.03523907016688",
    "hL": "0.1",
    "t": "1000",
    "short_ton": "907.18474",
    "long_ton": "1016.0469088",
    "g": "0.001",
    "%": "0.01",
    "min": "60",
    "h": "3600",
    "mi/h": "0.44704",
}


@pytest.mark.parametrize(("unit", "size"), PUBLISHED.items())
def test_a_unit_is_exactly_as_large_as_published(unit: str, size: str) -> None:
    assert factor(unit) == Fraction(size)


@pytest.mark.parametrize(
    ("unit", "size"),
    [
        ("lb", constants.pound),
        ("oz", constants.ounce),
        ("in", constants.inch),
        ("ft", constants.foot),
        ("yd", constants.yard),
        ("mi", constants.mile),
        ("ac", constants.acre),  # scipy's acre is the international one too
        ("ha", constants.hectare),
        ("short_ton", constants.short_ton),
        ("long_ton", constants.long_ton),
        ("min", constants.minute),
        ("h", constants.hour),
        ("mi/h", constants.mph),
        ("km/h", constants.kmh),
    ],
)
def test_a_unit_is_as_large_as_in_scipy(unit: str, size: float) -> None:
    assert float(factor(unit)) == pytest.approx(size, rel=1e-12)


def test_the_acre_is_not_the_survey_acre_of_pints_own_registry() -> None:
    from pint import UnitRegistry

    theirs = UnitRegistry().Quantity(1.0, "acre").to("m^2").magnitude
    assert theirs / float(factor("ac")) - 1 == pytest.approx(4e-6, rel=0.01)


@pytest.mark.parametrize(
    ("unit", "top", "bottom"),
    [
        ("lb/ac", "lb", "ac"),
        ("seed/lb", "1", "lb"),
        ("plant/ft^2", "1", "ft^2"),
        ("lb/bu", "lb", "bu"),
    ],
)
def test_a_composite_unit_is_the_quotient_of_its_parts(unit: str, top: str, bottom: str) -> None:
    assert factor(unit) == factor(top) / factor(bottom)


def test_published_pairs_of_rates_agree() -> None:
    """1 lb/ac is 1.12085 kg/ha and 1 lb/bu is 1.287 kg/hL (NIST SP 811, from memory)."""
    assert float(factor("lb/ac") / factor("kg/ha")) == pytest.approx(1.12085, abs=5e-6)
    assert float(factor("lb/bu") / factor("kg/hL")) == pytest.approx(1.287, abs=5e-4)


@pytest.mark.parametrize(
    "typed", ["furlong", "acre", "lb ac", "3 in", "in*ft", "__import__", "nan"]
)
def test_a_name_that_is_not_ours_is_refused(typed: str) -> None:
    with pytest.raises(UnknownUnit):
        factor(typed)


def test_a_unit_belongs_to_the_kinds_of_its_dimension_alone() -> None:
    assert same_dimension("in", "row_spacing")
    assert same_dimension("bu/ac", "bushel_rate")
    assert same_dimension("seed/ft^2", "live_seeds_per_area")
    assert not same_dimension("in", "bushel_rate")
    assert not same_dimension("bu/ac", "row_spacing")
    assert not same_dimension("lb", "rate")
    assert not same_dimension("seed/ft^2", "plants_per_area")


MEASURED = [kind for kind in KINDS.values() if kind.si]


@pytest.mark.parametrize("kind", MEASURED, ids=lambda kind: kind.name)
def test_the_units_of_a_kind_fit_it(kind) -> None:  # type: ignore[no-untyped-def]
    assert has_dimension(checking_quantity(kind.name, 2.0), kind.name)
    for unit, _ in (*kind.us, *kind.metric):
        assert same_dimension(unit, kind.name)


@cache
def pints_own() -> UnitRegistry[float]:
    """The registry that pint ships with, which takes a while to read."""
    return UnitRegistry()


@pytest.mark.parametrize("kind", MEASURED, ids=lambda kind: kind.name)
def test_the_unit_given_to_other_programs_is_read_by_pint_and_means_the_same(kind) -> None:  # type: ignore[no-untyped-def]
    theirs = pints_own().Quantity(1.0, kind.json_unit).to_base_units()
    counts = ("seed", "plant", "row", "turn", "mark", "pulse")
    ours = checking_quantity(kind.name, 1.0).dimensionality
    without_counts = {d: p for d, p in ours.items() if d.strip("[]") not in counts}
    dimensions = {"kilogram": "[mass]", "meter": "[length]", "second": "[time]"}
    assert {dimensions[str(u)]: p for u, p in theirs.unit_items()} == without_counts
    assert theirs.magnitude == 1.0


def test_ground_is_an_area_only_when_every_factor_is_there() -> None:
    factors = [
        checking_quantity(kind, 2.0)
        for kind in ("rows", "row_spacing", "turns", "distance_per_turn")
    ]
    ground = factors[0] * factors[1] * factors[2] * factors[3]
    assert has_dimension(ground, "area")
    assert not has_dimension(ground / factors[0], "area")
    assert not has_dimension(ground / factors[2], "area")


def test_words_have_no_dimension_to_check() -> None:
    for kind in ("text", "choice"):
        with pytest.raises(ValueError, match=kind):
            checking_quantity(kind, 1.0)
    with pytest.raises(KeyError):
        checking_quantity("pressure", 1.0)


def test_a_checking_quantity_is_made_of_floats_and_an_exact_one_of_fractions() -> None:
    assert isinstance(quantity(80, "lb/ac").to("kg/ha").magnitude, float)
    assert isinstance(exact_registry().Quantity(Fraction(1), "ac").to("ft^2").magnitude, Fraction)
    assert exact_registry().Quantity(Fraction(1), "ac").to("ft^2").magnitude == 43_560


def test_every_unit_name_is_one_that_its_own_registry_knows() -> None:
    for name in DERIVED:
        if name != "percent":
            assert factor(name) > 0


def test_pint_is_not_imported_before_the_first_quantity() -> None:
    program = (
        "import sys, assistant.answers.line, assistant.quantities.show\n"
        "assert 'pint' not in sys.modules\n"
        "from assistant.quantities.settled import si_value\n"
        "assert si_value('rows', '24') == 24 and si_value('text', 'a') == 'a'\n"
        "assert si_value('share', '92 %') == 0.92 and 'pint' not in sys.modules\n"
        "si_value('mass', '1 lb'); assert 'pint' in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True)
