"""How the formulas are written, so that running them on quantities proves something."""

import ast
import inspect
from collections.abc import Iterator
from dataclasses import MISSING, fields
from pathlib import Path
from typing import get_args, get_type_hints

import pytest

import assistant.calc
from assistant.calc.calculation import Calculation
from assistant.calc.catalogue import CATALOGUE

FOLDER = Path(assistant.calc.__file__).parent
NOT_FORMULAS = {"calculation.py", "catalogue.py", "suspect_ratios.py", "assumed.py"}
FORMULAS = [
    path
    for path in sorted(FOLDER.glob("*.py"))
    if path.name not in NOT_FORMULAS and not path.name.endswith("_examples.py")
]

# Halves, quarters, twice round the circle, counts of catches and rows: numbers of no dimension.
PLAIN_NUMBERS = {0, 0.5, 1, 1.5, 2, 3, 4, 1e-9}
# Two comparisons of words, where a choice is a name, and one of how many weights there are.
EQUAL_WORDS = {
    "one == other",
    "lever_opens != LOWER_OPENS",
    "len(tub_weights) != OLD_AND_NEW",
}
ALLOWED_IMPORTS = {
    *("collections.abc", "dataclasses", "fractions", "functools", "itertools", "math", "typing")
}
ALLOWED_OPERATORS = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.FloorDiv, ast.Pow, ast.BitOr)

EACH_FORMULA = pytest.mark.parametrize("path", FORMULAS, ids=lambda path: path.stem)
ALL = CATALOGUE
EACH = pytest.mark.parametrize("calculation", ALL.values(), ids=ALL)


def nodes(source: str) -> Iterator[ast.AST]:
    yield from ast.walk(ast.parse(source))


def numbers(source: str) -> set[float]:
    return {
        node.value
        for node in nodes(source)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, int | float)
        and not isinstance(node.value, bool)
    }


def equals(source: str) -> set[str]:
    return {
        ast.unparse(node)
        for node in nodes(source)
        if isinstance(node, ast.Compare)
        and any(isinstance(each, ast.Eq | ast.NotEq) for each in node.ops)
    }


def imported(source: str) -> set[str]:
    return {
        node.module or ""
        if isinstance(node, ast.ImportFrom)
        else ",".join(alias.name for alias in node.names)
        for node in nodes(source)
        if isinstance(node, ast.Import | ast.ImportFrom)
    }


def operators(source: str) -> set[type]:
    return {type(node.op) for node in nodes(source) if isinstance(node, ast.BinOp)}


@EACH_FORMULA
def test_no_number_with_a_dimension_stands_in_a_formula(path: Path) -> None:
    assert numbers(path.read_text(encoding="utf-8")) <= PLAIN_NUMBERS


@EACH_FORMULA
def test_numbers_are_never_compared_for_equality(path: Path) -> None:
    assert equals(path.read_text(encoding="utf-8")) <= EQUAL_WORDS


@EACH_FORMULA
def test_formulas_use_no_operator_that_quantities_lack(path: Path) -> None:
    assert operators(path.read_text(encoding="utf-8")) <= set(ALLOWED_OPERATORS)


@EACH_FORMULA
def test_formulas_know_no_clock_no_file_and_no_words(path: Path) -> None:
    outside = {
        name
        for name in imported(path.read_text(encoding="utf-8"))
        if not name.startswith("assistant.calc")
    }
    assert outside <= ALLOWED_IMPORTS


@pytest.mark.parametrize(
    ("check", "planted", "allowed"),
    [
        (numbers, "def f(x):\n    return x * 43560", PLAIN_NUMBERS),
        (equals, "def f(x, y):\n    return x == y", EQUAL_WORDS),
        (operators, "def f(x, y):\n    return x % y", set(ALLOWED_OPERATORS)),
        (imported, "from time import time", ALLOWED_IMPORTS),
    ],
)
def test_what_is_planted_against_the_form_is_found(
    check: object, planted: str, allowed: set[object]
) -> None:
    assert callable(check)
    assert not check(planted) <= allowed


@EACH
def test_parameters_are_named_at_every_call(calculation: Calculation) -> None:
    parameters = inspect.signature(calculation.function).parameters.values()
    assert {parameter.kind for parameter in parameters} == {inspect.Parameter.KEYWORD_ONLY}


@EACH
def test_an_outcome_is_frozen_slotted_and_holds_nothing_optional(
    calculation: Calculation,
) -> None:
    returned = get_type_hints(calculation.function)["return"]
    for outcome in get_args(returned) or (returned,):
        assert outcome.__dataclass_params__.frozen
        assert "__slots__" in vars(outcome)
        for field in fields(outcome):
            assert field.default is MISSING
            assert field.default_factory is MISSING
        assert type(None) not in get_args(get_type_hints(outcome))


@EACH
def test_the_docstring_names_a_source_where_a_formula_has_one(calculation: Calculation) -> None:
    without = {
        "rate_as_told",
        "seeds_as_told",
        "plants_as_told",
        "seeds_for_plants",
        "compare_bushels",
        "counted_seeds",
        "whole_rows",
        "half_rows",
        "tub_on_scale",
        "early_card",
        "final_setting",
        "same_crop",
        "turned_by_hand",
        "no_halves",
    }
    text = inspect.getdoc(calculation.function) or ""
    assert calculation.name in without or "Source:" in text or "no source" in text
