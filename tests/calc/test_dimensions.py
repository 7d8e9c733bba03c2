"""Every formula run on quantities: each outcome is reached, each fact has its dimension."""

from collections.abc import Callable
from dataclasses import dataclass, fields
from typing import Any

import pytest

from assistant.calc import judging, plan
from assistant.calc.calculation import Calculation, Inputs, outcome_name
from assistant.calc.catalogue import CATALOGUE
from assistant.calc.contract import Area, DistancePerTurn, Mass, Rate, Rows, RowSpacing, Turns
from assistant.quantities.registry import checking_quantity, has_dimension

EXAMPLES = [
    pytest.param(calculation, inputs, id=f"{calculation.name}-{number}")
    for calculation in CATALOGUE.values()
    for number, inputs in enumerate(calculation.examples)
]


def numbers_in(value: Any) -> tuple[Any, ...]:
    """The numbers of a field: one, several, or none for a choice or several."""
    values = value if isinstance(value, tuple) else (value,)
    return tuple(each for each in values if not isinstance(each, str))


def faults(calculation: Calculation, inputs: Inputs) -> list[str]:
    """The facts of the result whose dimension is not that of their kind; "mixed" for a bad sum."""
    from pint import DimensionalityError

    try:
        result = calculation.run(calculation.converted(inputs, checking_quantity))
    except (DimensionalityError, ValueError):
        return ["mixed"]
    kinds = calculation.outcomes[outcome_name(type(result))]
    return [
        field.name
        for field in fields(result)
        for number in numbers_in(getattr(result, field.name))
        if not has_dimension(number, kinds[field.name])
    ]


@pytest.mark.parametrize(("calculation", "inputs"), EXAMPLES)
def test_each_fact_comes_out_in_its_dimension(calculation: Calculation, inputs: Inputs) -> None:
    assert faults(calculation, inputs) == []


@pytest.mark.parametrize(("calculation", "inputs"), EXAMPLES)
def test_floats_and_quantities_give_the_same_outcome_and_numbers(
    calculation: Calculation, inputs: Inputs
) -> None:
    plain = calculation.run(inputs)
    on_quantities = calculation.run(calculation.converted(inputs, checking_quantity))
    assert type(on_quantities) is type(plain)
    for field in fields(plain):
        expected = numbers_in(getattr(plain, field.name))
        found = numbers_in(getattr(on_quantities, field.name))
        bare = [float(getattr(number, "magnitude", number)) for number in found]
        assert bare == pytest.approx(list(expected), rel=1e-12, abs=1e-12)


# -- planted formulas that are wrong ----------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Worked:
    ground_covered: Area


@dataclass(frozen=True, slots=True)
class Weighed:
    target_catch: Mass


def spacing_forgotten(
    *, rows_caught: Rows, row_spacing: RowSpacing, turns: Turns, distance_per_turn: DistancePerTurn
) -> Worked:
    return Worked(rows_caught * turns * distance_per_turn * (row_spacing / row_spacing))


def rows_forgotten(
    *, rows_caught: Rows, row_spacing: RowSpacing, turns: Turns, distance_per_turn: DistancePerTurn
) -> Worked:
    return Worked(row_spacing * turns * distance_per_turn * (rows_caught / rows_caught))


def turns_forgotten(
    *, rows_caught: Rows, row_spacing: RowSpacing, turns: Turns, distance_per_turn: DistancePerTurn
) -> Worked:
    return Worked(row_spacing * rows_caught * distance_per_turn * (turns / turns))


def rate_added(*, bulk_rate: Rate, ground_covered: Area) -> Weighed:
    return Weighed(bulk_rate + ground_covered)


def rate_divided(*, bulk_rate: Rate, ground_covered: Area) -> Weighed:
    return Weighed(ground_covered / bulk_rate)


def ground_squared(*, bulk_rate: Rate, ground_covered: Area) -> Weighed:
    return Weighed(bulk_rate * ground_covered * ground_covered / bulk_rate)


GROUND = CATALOGUE["ground"].examples[0]
CATCH: Inputs = {"bulk_rate": 0.009, "ground_covered": 68.0}


@pytest.mark.parametrize(
    ("function", "inputs", "found"),
    [
        (spacing_forgotten, GROUND, "ground_covered"),
        (rows_forgotten, GROUND, "ground_covered"),
        (turns_forgotten, GROUND, "ground_covered"),
        (rate_added, CATCH, "mixed"),
        (rate_divided, CATCH, "target_catch"),
        (ground_squared, CATCH, "target_catch"),
    ],
)
def test_a_planted_wrong_formula_is_found(
    function: Callable[..., Any], inputs: Inputs, found: str
) -> None:
    planted = Calculation(function.__name__, function, 1, (inputs,))
    assert found in faults(planted, inputs)


def test_the_right_formula_passes_the_same_check() -> None:
    right = Calculation("ground", plan.ground, 1, (GROUND,))
    assert faults(right, GROUND) == []


def test_a_tub_in_the_wrong_unit_is_found() -> None:
    calculation = CATALOGUE["judge"]
    inputs = next(each for each in calculation.examples if "gross_weight=0.1" in str(each))
    assert faults(calculation, inputs) == []
    wrong = {**calculation.converted(inputs, checking_quantity)}
    wrong["tare"] = checking_quantity("length", 0.1)
    from pint import DimensionalityError

    with pytest.raises(DimensionalityError):
        judging.judge(**wrong)
