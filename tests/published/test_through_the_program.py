"""Published worked examples through facts files and JSON, as another program would ask for them.

Each is told in the units that were printed. Where a published figure is a rule of thumb, carries a
rounding through or is a misprint, the note in the file beside this one says so.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.published.test_worked_examples import (
    EXAMPLES,
    LATER,
    NOT_OURS,
    UNITS,
    by_id,
    place_of,
    printed_to,
)
from tests.script.running import BASE, Facts, Ran, run, toml

ROOT = Path(__file__).parents[2]
TOLD: Mapping[str, str] = {
    "seeds/ft2": "seeds per sq ft",
    "plants/ft2": "plants per sq ft",
    "seeds/ac": "seeds/ac",
    "seeds/ft": "seeds per ft",
    "seeds/lb": "seeds/lb",
}
"""How a person says a published unit; the rest are said as they are printed."""


@dataclass(frozen=True, slots=True)
class Way:
    """How a kind of example is told, and the fact that answers it."""

    fact: str
    told: Callable[[Told], Facts]


@dataclass(frozen=True, slots=True)
class Told:
    """The inputs of an example, as texts."""

    inputs: Mapping[str, Mapping[str, Any]]

    def __call__(self, name: str) -> str:
        number, unit = self.inputs[name]["value"], self.inputs[name]["unit"]
        plain = int(number) if float(number).is_integer() else number
        return f"{plain} {TOLD.get(unit, unit)}"


def seeds_wanted(told: Told) -> Facts:
    """Seeds on the ground, by the foot or by the acre."""
    name = "seeds_per_sq_ft" if "seeds_per_sq_ft" in told.inputs else "seeds_per_acre"
    size = told("seeds_per_lb") if "seeds_per_lb" in told.inputs else "12,000 seeds/lb"
    spacing = told("row_spacing") if "row_spacing" in told.inputs else "7.5 in"
    return {"target": told(name), "seeds_per_weight": size, "row_spacing": spacing}


def plants_wanted(told: Told) -> Facts:
    """Plants on the ground, from rows so far apart."""
    return {
        "target": told("plants_per_sq_ft"),
        "row_spacing": told("row_spacing"),
        "seeds_per_weight": "20,000 seeds/lb",
        "germination": "90 %",
    }


def plants_by_thousand_seeds(told: Told) -> Facts:
    """Plants wanted, the weight of a thousand seeds, and how many of 100 die."""
    dead = told.inputs["mortality"]["value"]
    return {
        "target": told("target_plants"),
        "seeds_per_weight": told("thousand_kernel_weight"),
        "germination": told("germination"),
        "emergence": f"{100 - dead} %",
    }


def live_wanted(told: Told) -> Facts:
    """Pure live seed; a share that was published as such is told as purity of seed all alive."""
    whole = "pls" in told.inputs
    return {
        "target": "10 lb PLS/ac",
        "purity": told("pls") if whole else told("purity"),
        "germination": "100 %" if whole else told("germination"),
    }


def one_row_along(told: Told) -> Facts:
    """A course of so many feet, as turns of ten feet each."""
    return {
        "target": told("rate"),
        "row_spacing": told("row_spacing"),
        "distance_per_turn": "10 ft",
        "turns": told.inputs["distance"]["value"] // 10,
        "rows_caught": 1,
        "scale_step": "0.01 g",
    }


WAYS: Mapping[str, Way] = {
    "lb_per_acre_from_seed_count": Way("bulk_rate", seeds_wanted),
    "lb_per_acre_from_tkw": Way("bulk_rate", plants_by_thousand_seeds),
    "seeds_per_row_foot": Way("seeds_per_row_length", seeds_wanted),
    "plants_per_row_foot": Way("plants_per_row_length", plants_wanted),
    "seeds_per_acre_from_lb": Way(
        "seeds_per_area",
        lambda told: {"target": told("rate"), "seeds_per_weight": told("seeds_per_lb")},
    ),
    "seeds_per_acre_from_seeds_per_sq_ft": Way("seeds_per_area", seeds_wanted),
    "seeds_per_sq_ft_from_seeds_per_acre": Way("seeds_per_area", seeds_wanted),
    "seeds_per_acre_from_row_count": Way(
        "seeds_per_area",
        lambda told: {
            "target": told("seeds_per_foot"),
            "row_spacing": told("row_spacing"),
            "seeds_per_weight": "2500 seeds/lb",
        },
    ),
    "catch_weight_per_row": Way("target_catch_per_row", one_row_along),
    "pls_percent": Way("live_seed_share", live_wanted),
    "bulk_per_pls": Way("bulk_per_live_seed", live_wanted),
    "seeds_per_lb_factor": Way(
        "seeds_per_weight",
        lambda told: {
            "target": "30 seeds per sq ft",
            "seeds_counted": [1],
            "counted_weight": told("sample_weight"),
        },
    ),
}
UNIT_OF_RESULT = {"seeds/ac": 1 / UNITS["ac"], **UNITS}

DONE = [example for example in EXAMPLES if example["kind"] in WAYS]
AGREEING = [example for example in DONE if example["verified_by_recalculation"]]
DIFFERING = [example for example in DONE if not example["verified_by_recalculation"]]


def facts_of(example: Mapping[str, Any]) -> Facts:
    """A whole facts file: the example amid a story of our own."""
    return {**BASE, **WAYS[example["kind"]].told(Told(example["inputs"]))}


@cache
def ran_for(id_: str) -> Ran:
    """The run of one example."""
    return run(facts_of(next(each for each in DONE if each["id"] == id_)))


def value_of(example: Mapping[str, Any]) -> float:
    """Our value in the unit that was published."""
    si = ran_for(example["id"]).value(WAYS[example["kind"]].fact)
    return si / float(UNIT_OF_RESULT[example["expect"]["unit"]])


@by_id(DONE)
def test_the_program_gives_the_exact_value(example: dict[str, Any]) -> None:
    ran = ran_for(example["id"])
    assert ran.code == 0, ran.data["refused"]
    assert value_of(example) == pytest.approx(example["recalculated_value"], rel=1e-6)


@by_id(AGREEING)
def test_it_is_the_published_figure_to_its_last_digit(example: dict[str, Any]) -> None:
    ours = value_of(example)
    half = float(printed_to(example["published_rounding"])) / 2
    dust = 1e-9 * max(abs(ours), 1)  # a source may round a half either way
    assert abs(ours - example["expect"]["value"]) <= half + dust


@by_id(DIFFERING)
def test_where_it_differs_a_note_says_why(example: dict[str, Any]) -> None:
    ours = value_of(example)
    assert example["note"]
    assert ours == pytest.approx(example["recalculated_value"], rel=1e-6)
    assert ours != pytest.approx(example["expect"]["value"], rel=1e-3)


ALONG = {"row_length_for_1_sq_ft", "row_length_for_fraction"}
ROW_LENGTHS = [example for example in EXAMPLES if example["kind"] in ALONG]
"""Row lengths that cover a round area: told as a course, whose ground the program works out."""


@by_id(ROW_LENGTHS)
def test_a_row_of_the_printed_length_covers_the_ground_it_is_printed_for(
    example: dict[str, Any],
) -> None:
    told = Told(example["inputs"])
    inches = example["recalculated_value"] * UNITS[example["expect"]["unit"]] / UNITS["in"]
    rows = max(1, round(6_000 / inches))  # so many of them, one behind the other
    turns = round(rows * inches / 60)
    around = f"{float(rows * inches / turns)} in"
    course = {"distance_per_turn": around, "turns": turns, "rows_caught": 1}
    ran = run({**BASE, **course, "row_spacing": told("row_spacing"), "target": "80 lb/ac"})
    acres = example["inputs"].get("fraction", {"value": 1 / 43_560})["value"]
    ground = ran.value("ground_covered") / float(UNITS["ac"])
    assert ground == pytest.approx(rows * acres, rel=1e-6)


def test_an_unusual_rate_is_used_and_noted() -> None:
    ran = ran_for("ukf-gramsrow-6")
    assert ran.code == 0
    assert ran.facts["target_weight"]["unusual"]
    assert any("out of the usual" in note for note in ran.data["notes"])


def test_every_example_is_told_to_the_program_or_has_its_place_elsewhere() -> None:
    """What the program has no question for is proved by calculation, or comes with a later job."""
    ours = {example["id"] for example in DONE}
    ours |= {example["id"] for example in ROW_LENGTHS}
    later = {e["id"] for e in EXAMPLES if place_of(e).by == LATER}
    not_ours = {e["id"] for e in EXAMPLES if place_of(e).by == NOT_OURS}
    by_calculation = {e["id"] for e in EXAMPLES} - ours - later - not_ours
    assert {e["kind"] for e in EXAMPLES if e["id"] in by_calculation} == {
        "row_feet_per_acre",
        "area_of_fraction",
        "unit_conversion",
        "wheel_turns_for_distance",
        "constant",
        "mean",
        "ratio_percent",
    }
    assert (len(ours), len(by_calculation), len(later), len(not_ours)) == (67, 7, 9, 1)
    assert sum(map(len, (ours, by_calculation, later, not_ours))) == len(EXAMPLES) == 84


@pytest.mark.parametrize("id_", ["ukyw-lbac-12000-35", "man-flax"])
def test_the_command_gives_the_same(id_: str, tmp_path: Path) -> None:
    example = next(each for each in DONE if each["id"] == id_)
    file = tmp_path / "facts.toml"
    file.write_text(toml(facts_of(example)), encoding="utf-8")
    command = [sys.executable, "-m", "assistant", "calibrate", "--facts", str(file), "--json"]
    done = subprocess.run(
        [*command, "--book", str(tmp_path / "book.db")],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)["facts"][WAYS[example["kind"]].fact]
    unit = float(UNIT_OF_RESULT[example["expect"]["unit"]])
    assert found["value"] / unit == pytest.approx(example["recalculated_value"], rel=1e-6)
