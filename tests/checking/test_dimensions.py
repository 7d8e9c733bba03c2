"""Calculations are run on quantities: a wrong one is found, with its file and line."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest

from assistant.calc.calculation import Calculation, Inputs
from assistant.calc.catalogue import CATALOGUE
from assistant.calc.contract import Area, Choice, Length, Mass, Ratio
from assistant.checking.check import check
from assistant.checking.dimensions import is_of_kind
from assistant.flowfile.findings import Finding, line_for, sentences
from assistant.quantities.registry import checking_quantity
from tests.flowfile import small
from tests.flowfile.small import CALCULATIONS, Large, Small, Worked, spoil, written


@dataclass(frozen=True, slots=True)
class Never:
    """An outcome that no example comes to."""


def half_forgotten(*, width: Length, length: Length, enough: Area) -> Small | Large:
    """The area without the width."""
    del width
    return Small(length) if length * length < enough else Large(length * length)


def mixed_up(*, width: Length, length: Length, enough: Area) -> Small | Large:
    """A length and an area added."""
    area = width + length * length
    return Small(area) if area < enough else Large(area)


def as_mass(*, paces: Ratio, pace: Length) -> Worked | Never:
    """Right, but one outcome is never reached."""
    return Worked(paces * pace)


def chosen(*, paces: Ratio, pace: Length, treated: Choice) -> Worked:
    """Steps are shorter with gloves on."""
    return Worked(paces * pace / (2 if treated > "no" else 1))


def with_function(name: str, function: Callable[..., Any]) -> Mapping[str, Calculation]:
    """The calculations of the small flows, one of them done otherwise."""
    return {**CALCULATIONS, name: replace(CALCULATIONS[name], function=function)}


def found_in(folder: Path, calculations: Mapping[str, Calculation]) -> list[Finding]:
    """What is found in the small flows with these calculations; each has its sentence."""
    found = check(written(folder), calculations)
    assert all(line_for(each, sentences()) for each in found)
    return found


@pytest.mark.parametrize(
    ("name", "function", "code", "about"),
    [
        ("plot_area", half_forgotten, "result_of_another_kind", {"fact": "area", "kind": "area"}),
        ("plot_area", mixed_up, "sum_does_not_hold", {}),
        ("paced", as_mass, "outcome_not_reached", {"outcome": "never"}),
    ],
)
def test_a_wrong_calculation_is_found_where_it_is_written(
    name: str, function: Callable[..., Any], code: str, about: dict[str, str], tmp_path: Path
) -> None:
    here = "tests/checking/test_dimensions.py"
    found = [
        each for each in found_in(tmp_path, with_function(name, function)) if each.code == code
    ]
    assert found
    assert {(each.file, each.step) for each in found} == {(here, name)}
    assert {each.line for each in found} == {function.__code__.co_firstlineno}
    assert all(about.items() <= dict(each.about).items() for each in found)


def test_a_choice_of_which_the_examples_use_one_name_only_is_found(tmp_path: Path) -> None:
    examples: tuple[Inputs, ...] = ({"paces": 30.0, "pace": 0.7, "treated": "yes"},)
    paced = replace(CALCULATIONS["paced"], function=chosen, examples=examples)
    found = found_in(tmp_path, {**CALCULATIONS, "paced": paced})
    assert [(each.code, each.file, each.step) for each in found] == [
        ("other_choices", "parts/pacing.toml", "sum")
    ]


def test_a_choice_of_which_the_examples_use_every_name_is_sound(tmp_path: Path) -> None:
    examples = tuple({"paces": 30.0, "pace": 0.7, "treated": name} for name in ("yes", "no"))
    paced = replace(CALCULATIONS["paced"], function=chosen, examples=examples)
    assert found_in(tmp_path, {**CALCULATIONS, "paced": paced}) == []


def test_a_result_without_its_fact_is_found(tmp_path: Path) -> None:
    folder = written(tmp_path)
    spoil(folder, "facts/plot.toml", "[caught]", "[caught_in_all]")
    codes = {(each.code, each.file) for each in check(folder, CALCULATIONS)}
    assert ("unknown_fact", "parts/catches.toml") in codes


@pytest.mark.parametrize(
    ("value", "kind", "fits"),
    [
        (checking_quantity("mass", 1.0), "mass", True),
        (checking_quantity("mass", 1.0), "length", False),
        ((checking_quantity("rows", 1.0),), "rows", True),
        ((checking_quantity("rows", 1.0), checking_quantity("turns", 1.0)), "rows", False),
        (0.5, "share", True),
        (0.5, "rows", False),
        ("low", "choice", True),
        ("low", "share", False),
        (0.5, "choice", False),
    ],
)
def test_a_result_is_of_a_kind_by_its_dimension(value: object, kind: str, *, fits: bool) -> None:
    assert is_of_kind(value, kind) is fits


def test_every_calculation_of_the_trade_was_run() -> None:
    assert set(CATALOGUE) >= {"judge", "next_opening", "rate_from_seeds"}
    assert all(calculation.examples for calculation in CATALOGUE.values())
    assert small.CALCULATIONS.keys().isdisjoint(CATALOGUE)


def test_masses_are_no_lengths(tmp_path: Path) -> None:
    def weighed(*, paces: Mass, pace: Length) -> Worked:
        return Worked(paces * pace)

    found = found_in(tmp_path, with_function("paced", weighed))
    assert {each.code for each in found} == {"other_kind", "result_of_another_kind"}
