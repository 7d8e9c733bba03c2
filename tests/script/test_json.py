"""The one object that a run prints: always the same shape, in SI, readable by others."""

from __future__ import annotations

import json
from typing import Any

import pint
import pytest

from assistant import __version__
from tests.script.running import BASE, CUP, Facts, run, without
from tests.script.test_answers import STORY

KEYS = [
    "format",
    "program",
    "job",
    "id",
    "finished",
    "outcome",
    "exit",
    "needs",
    "refused",
    "notes",
    "facts",
    "series",
]
ENDS: dict[str, tuple[Facts | str | None, tuple[str, ...] | None]] = {
    "proven": (BASE, None),
    "one catch": (None, (*STORY[: STORY.index("1.41")], "card", "4.5", "done", "")),
    "given up": ({**BASE, "trials": [{"catch_weight": "0.3 lb"}]}, None),
    "light": ({**BASE, "trials": [{"catch_weight": "1 lb"}]}, None),
    "left": (None, (*STORY[:4], "pause")),
    "not toml": ("= =", None),
    "a fact lacks": (without(BASE, "target"), None),
    "a caution lacks": (without(BASE, "cautions_read"), None),
    "refused": ({**BASE, "turns": "0"}, None),
    "two readings": ({**BASE, "distance_per_turn": "6.10"}, None),
    "unknown names": ({**BASE, "turn": "0"}, None),
    "nothing at all": (None, ()),
}
CODES = dict(zip(ENDS, (0, 0, 0, 0, 0, 2, 3, 3, 4, 4, 4, 3), strict=True))


MAY_HAVE = ("settled", "unusual", "guess", "plus_minus")


@pytest.mark.parametrize("name", ENDS)
def test_one_object_of_one_shape_whatever_the_end(name: str) -> None:
    facts, lines = ENDS[name]
    ran = run(facts, lines)
    found = json.loads(ran.out)
    assert ran.err == ""
    assert list(found) == KEYS
    assert (found["format"], found["program"]) == (1, f"drillside {__version__}")
    assert (found["job"], found["id"]) == ("calibrate", ran.sitting.id)
    assert found["exit"] == ran.code == CODES[name]
    for each in [found["facts"], *(row for rows in found["series"].values() for row in rows)]:
        for fact in each.values():
            assert {"value", "unit", "shown", "from"} <= set(fact)
            assert set(fact) <= {"value", "unit", "shown", "from", *MAY_HAVE}
    if found["needs"]:
        assert list(found["needs"]) == ["kind", "name", "question", "accepts"]
        assert found["needs"]["kind"] in {"fact", "caution", "list", "review"}
    if found["refused"]:
        assert list(found["refused"]) == ["code", "text", "readings", "facts", "file", "line"]


@pytest.mark.parametrize("name", ENDS)
def test_the_object_is_plain_ascii(name: str) -> None:
    facts, lines = ENDS[name]
    assert run(facts, lines).out.isascii()


def every_fact() -> dict[str, Any]:
    found: dict[str, Any] = {}
    size = {"seeds_per_weight": "12,500", "germination": "90 %", "hard_seed": "2 %"}
    for facts in (
        BASE,
        CUP,
        {**BASE, **size, "target": "28 plants per sq ft", "emergence": "85 %"},
        {**BASE, **size, "target": "10 lb PLS/ac", "purity": "90 %"},
        {**BASE, **size, "target": "20 PLS per sq ft", "purity": "90 %"},
        {**BASE, **size, "target": "12 seeds per ft"},
        {**BASE, **size, "target": "9 plants per ft", "emergence": "85 %"},
        {**BASE, "target": "1.5 bu/ac", "test_weight": "58 lb/bu"},
        {**BASE, "wheel_method": "axle", "axle_height": "13 in"},
        {**BASE, "wheel_method": "rolled", "rolled_turns": 10, "rolled_distance": "67 ft 11 in"},
        {**BASE, "trials": [{"row_weights": "105 g; 106 g; 40 g; 104 g; 106 g; 105 g"}]},
        {**BASE, "tare": "1 lb", "trials": [{"gross_weight": "2.4 lb"}]},
    ):
        found |= run(facts).facts
    return found


def test_units_are_read_by_pints_own_registry_and_have_the_right_dimension() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for name, fact in every_fact().items():
        quantity = registry.Quantity(1, fact["unit"])
        assert quantity.to_base_units().magnitude == 1, name  # SI base units, no factor
    dimensions = {
        "bulk_rate": "[mass]/[length]**2",
        "target_catch": "[mass]",
        "seeds_per_weight": "1/[mass]",
        "seeds_per_area": "1/[length]**2",
        "seeds_per_row_length": "1/[length]",
        "plants_per_row_length": "1/[length]",
        "ground_covered": "[length]**2",
        "distance_per_turn": "[length]",
        "row_spacing": "[length]",
        "test_weight": "[mass]/[length]**3",
        "target_bushels": "[length]",
        "germination": "",
        "turns": "",
        "lever_mark": "",
    }
    facts = every_fact()
    for name, wanted in dimensions.items():
        assert registry.Quantity(1, facts[name]["unit"]).check(wanted or "[]"), name


def test_the_names_that_scripts_rely_on_are_there() -> None:
    worked_out = {
        "target_kind",
        "seeds_per_area",
        "seeds_per_row_length",
        "bulk_rate",
        "ground_covered",
        "plants_per_row_length",
        "live_seed_share",
        "bulk_per_live_seed",
        "target_catch",
        "target_catch_per_row",
        "expected_reading",
        "caught_rate",
        "percent_off",
        "row_cv",
        "odd_rows",
    }
    assert worked_out <= set(every_fact())
    light = {**BASE, "trials": [{"catch_weight": "1.1 lb"}]}
    assert "next_opening" in run(light).facts
    marked = {**CUP, "trials": [{"lever_mark": "5", "catch_weight": "1.1 lb"}]}
    assert "next_lever_mark" in run(marked).facts


def test_values_are_si_and_unrounded() -> None:
    ran = run(BASE)
    # 6 rows x 7.5 in x 30 turns x 81.5 in, an inch is 0.0254 m
    ground = 6 * 7.5 * 30 * 81.5 * 0.0254**2
    assert ran.value("ground_covered") == pytest.approx(ground, rel=1e-12)
    rate = 80 * 0.45359237 / (43_560 * 0.3048**2)
    assert ran.value("bulk_rate") == pytest.approx(rate, rel=1e-12)
    assert ran.value("target_catch") == pytest.approx(rate * ground, rel=1e-12)
    mean = 1.40 * 0.45359237
    assert ran.value("caught_rate") == pytest.approx(mean / ground, rel=1e-12)
    assert ran.value("percent_off") == pytest.approx(mean / (rate * ground) - 1, rel=1e-9)


def test_a_share_is_a_fraction_of_one_and_a_choice_its_name() -> None:
    plants = {"target": "28 plants per sq ft", "seeds_per_weight": "36 g", "germination": "92 %"}
    ran = run({**BASE, **plants})
    assert (ran.facts["germination"]["value"], ran.facts["germination"]["unit"]) == (0.92, "")
    assert ran.value("seeds_per_weight") == pytest.approx(1000 / 0.036)
    assert ran.facts["feed"]["value"] == "fluted"
    assert ran.facts["target_kind"]["value"] == "plants"


def test_a_row_has_the_shape_of_the_facts() -> None:
    ran = run(BASE)
    row = ran.data["series"]["trials"][0]
    assert set(row) == {"opening", "catch_weight"}
    assert row["catch_weight"]["unit"] == "kg"
    assert row["catch_weight"]["shown"] == "1.39 lb"


def test_where_a_value_came_from_is_told() -> None:
    facts = run(BASE).facts
    assert facts["distance_per_turn"]["from"] == "taped"
    assert facts["row_count"]["from"] == "counted"
    assert facts["lot"]["from"] == "read off the tag"
    assert facts["bulk_rate"]["from"] == "worked out"


def test_odd_rows_are_numbers_among_the_rows_caught() -> None:
    rows = {**BASE, "trials": [{"row_weights": "105 g; 106 g; 40 g; 104 g; 106 g; 105 g"}]}
    assert run(rows).facts["odd_rows"]["value"] == [3]


def test_what_was_worked_out_from_readings_tells_how_far_it_may_be_off() -> None:
    """A catch wanted of 1.40324 lb: 7.5 in and 81.5 in, each an eighth of an inch off."""
    facts = json.loads(run(BASE).out)["facts"]
    share = ((0.125 / 7.5) ** 2 + (0.125 / 81.5) ** 2) ** 0.5
    wanted = facts["target_catch"]
    assert wanted["plus_minus"] == pytest.approx(share * wanted["value"], rel=1e-3)
    assert {each["from"] for each in facts.values() if "plus_minus" in each} == {"worked out"}
    assert all(each["plus_minus"] > 0 for each in facts.values() if "plus_minus" in each)
