"""Each calculation against a second one, in fractions or by numpy, written from its prose."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from importlib import import_module
from inspect import getmembers, isfunction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, note, settings
from hypothesis import strategies as st

from assistant.calc.calculation import Calculation, Inputs, outcome_name
from assistant.calc.catalogue import CATALOGUE
from tests.calc.inputs import nudged, random_inputs
from tests.calc.second.exact import Exact, Opinion, exact, exact_all
from tests.calc.second.turned import not_decided

SECOND = Path(__file__).parent / "second"
REFUSED = (ValueError, IndexError, ZeroDivisionError)
"""What a calculation raises for facts that it can't take; its second then has to as well."""
CLOSE = 1e-9
LAST_BITS = 1e-15
"""A difference of two floats, such as a share that is off, is known to the last bits of both."""
MANY = settings.get_profile("many").max_examples
EXAMPLES = MANY if settings().max_examples == MANY else 15

NO_SECOND: Mapping[str, str] = {
    "turned_by_hand": "one outcome without a fact: nothing to work out",
    "next_suspects": "it passes names on and counts them",
    "suspect_named": "it picks a name by its number",
    "no_halves": "one outcome without a fact: nothing to work out",
}
"""Calculations without one, each with its reason: nothing to work out, or where it is held."""

NEVER_ASKED: Mapping[str, Callable[[dict[str, Any]], bool]] = {
    # `other_rows_left` says first whether as many rows again are there.
    "compare_other_rows": lambda of: 2 * exact(of["rows_caught"]) > exact(of["drive_rows"]),
    # Two plans are worth the same, or the scale ends before it begins: nobody can tell.
    "judge_opening": lambda of: not_decided(exact_all(of)),
    "aim_opening": lambda of: not_decided(exact_all(of)),
    "catches_aside": lambda of: not_decided(exact_all(of)),
    "opening_ahead_by_all": lambda of: not_decided(exact_all(of)),
    # `judge_opening` says first that the last catch can't be.
    "drill_scatter": lambda of: (
        not_decided(exact_all(of))
        or _outcome("judge_opening", of | {"ground_covered": 1.0}) == "put_aside"
    ),
    # `compare_outlets` says first that the weights can't be shared out among the towers.
    "outlet_pattern": lambda of: len(of["outlet_weights"]) % of["outlet_towers"] != 0,
    "outlet_groups": lambda of: len(of["outlet_weights"]) % of["outlet_towers"] != 0,
}
"""Inputs that never come, or that leave the answer open; why stands beside each."""


def opinions() -> dict[str, Opinion]:
    """Every second opinion, by the name of its calculation."""
    found: dict[str, Opinion] = {}
    for path in sorted(SECOND.glob("*.py")):
        module = import_module(f"tests.calc.second.{path.stem}")
        for name, function in getmembers(module, isfunction):
            if function.__module__ == module.__name__ and name in CATALOGUE:
                assert name not in found, f"two opinions on {name}"
                found[name] = function
    return found


OPINIONS = opinions()
EACH = pytest.mark.parametrize("name", OPINIONS)


def test_each_calculation_has_a_second_opinion_or_a_reason() -> None:
    assert sorted([*OPINIONS, *NO_SECOND]) == sorted(CATALOGUE)
    assert NEVER_ASKED.keys() <= OPINIONS.keys()


@EACH
def test_both_say_the_same_on_every_example(name: str) -> None:
    for inputs in CATALOGUE[name].examples:
        assert faults(CATALOGUE[name], OPINIONS[name], inputs) == []


@EACH
@given(seed=st.integers(0, 2**48))
@settings(max_examples=EXAMPLES)
def test_both_say_the_same_on_random_inputs(name: str, seed: int) -> None:
    inputs = random_inputs(CATALOGUE[name], seed)
    note(str(inputs))
    assume(name not in NEVER_ASKED or not NEVER_ASKED[name](inputs))
    assert faults(CATALOGUE[name], OPINIONS[name], inputs) == []


@EACH
def test_a_result_that_is_off_by_a_millionth_is_found(name: str) -> None:
    calculation, off = CATALOGUE[name], OPINIONS[name]

    def spoilt(of: Mapping[str, Any]) -> Exact:
        return {fact: _off(value) for fact, value in off(of).items()}

    assert any(faults(calculation, spoilt, inputs) for inputs in calculation.examples)


def _off(value: Any) -> Any:
    if isinstance(value, tuple):
        return tuple(_off(each) for each in value)
    return f"not {value}" if isinstance(value, str) else value * (1 + exact(1e-6))


def faults(calculation: Calculation, opinion: Opinion, inputs: Inputs) -> list[str]:
    """What differs between both; nothing where they only fall apart at an edge.

    An edge: with one number a hair more or less the second opinion says what the calculation says.
    """
    first = _ran(calculation, inputs)
    found = _differing(first, _said(opinion, inputs), CLOSE)
    at_edge = found and any(
        not _differing(first, _said(opinion, each), 10 * CLOSE)
        for each in nudged(calculation, inputs)
    )
    return [] if at_edge else found


def _ran(calculation: Calculation, inputs: Inputs) -> Exact:
    try:
        result = calculation.run(inputs)
    except REFUSED:
        return {"outcome": "refused"}
    facts = {each.name: getattr(result, each.name) for each in fields(result)}
    one = {} if len(calculation.outcomes) == 1 else {"outcome": outcome_name(type(result))}
    return one | facts


def _outcome(name: str, inputs: Inputs) -> str:
    return str(_ran(CATALOGUE[name], inputs)["outcome"])


def _said(opinion: Opinion, inputs: Inputs) -> Exact:
    try:
        return opinion(exact_all(inputs))
    except REFUSED:
        return {"outcome": "refused"}


def _differing(first: Exact, second: Exact, close: float) -> list[str]:
    if first.keys() != second.keys() or first.get("outcome") != second.get("outcome"):
        return [f"{dict(first)} or {dict(second)}"]
    return [
        f"{fact}: {first[fact]} or {second[fact]}"
        for fact in first
        if not _same(first[fact], second[fact], close)
    ]


def _same(one: Any, other: Any, close: float) -> bool:
    if isinstance(one, tuple):
        return len(one) == len(other) and all(
            _same(*both, close) for both in zip(one, other, strict=True)
        )
    if isinstance(one, str):
        return bool(one == other)
    return bool(float(one) == pytest.approx(float(other), rel=close, abs=LAST_BITS))
