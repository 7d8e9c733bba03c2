"""What moves in the input moves the results by a known factor, and what does not matter does not.

No result is looked up: each run is held against another one. Other jobs, and a crank, are in
`tests/stories/test_doubled.py`.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.script.running import BASE, Facts, run

RESULTS = ("ground_covered", "target_catch", "target_catch_per_row", "caught_rate", "bulk_rate")
CATCHES = ("1.39 lb", "1.41 lb")


def caught(times: float) -> list[dict[str, str]]:
    """The catches of the story, so many times as heavy."""
    return [{"catch_weight": f"{float(each.split()[0]) * times:g} lb"} for each in CATCHES]


def results(facts: Facts) -> dict[str, float]:
    """The main results of a run, in SI."""
    ran = run(facts)
    assert ran.code in {0, 3}, ran.data["refused"]
    return {name: ran.value(name) for name in RESULTS}


FACTORS: list[tuple[dict[str, Any], float, dict[str, float]]] = [
    ({"row_spacing": "15 in"}, 2, {"ground_covered": 2, "target_catch": 2}),
    ({"distance_per_turn": "163 in"}, 2, {"ground_covered": 2, "target_catch": 2}),
    ({"turns": 60}, 2, {"ground_covered": 2, "target_catch": 2}),
    (
        {"rows_caught": 12},
        2,
        {"ground_covered": 2, "target_catch": 2, "target_catch_per_row": 1},
    ),
    (
        {"target": "160 lb/ac"},
        2,
        {"ground_covered": 1, "target_catch": 2, "caught_rate": 2, "bulk_rate": 2},
    ),
]
"""What is told instead, times the catch, and times what each result is; else as before."""


@pytest.mark.parametrize(("instead", "catch", "times"), FACTORS, ids=lambda each: str(each)[:30])
def test_a_doubled_input_moves_each_result_by_its_factor(
    instead: dict[str, Any], catch: float, times: dict[str, float]
) -> None:
    before = results(BASE)
    after = results({**BASE, **instead, "trials": caught(catch)})
    for name in RESULTS:
        share = {"target_catch_per_row": times["target_catch"]}.get(name, 1)
        assert after[name] == pytest.approx(before[name] * times.get(name, share), rel=1e-9), name


@pytest.mark.parametrize("times", [0.98, 1.01])
def test_a_heavier_catch_is_a_higher_rate_by_just_as_much(times: float) -> None:
    before, after = results(BASE), results({**BASE, "trials": caught(times)})
    shown = [float(each["catch_weight"].split()[0]) for each in caught(times)]
    assert after["caught_rate"] / before["caught_rate"] == pytest.approx(sum(shown) / 2.80)
    assert after["target_catch"] == before["target_catch"]


METRIC = {
    "row_spacing": "19.05 cm",
    "distance_per_turn": "2.0701 m",
    "widest_opening": "4 cm",
    "start_opening": "1.4 cm",
    "scale_step": "4.5359237 g",
    "trials": [{"catch_weight": "630.4933943 g"}, {"catch_weight": "639.5652417 g"}],
}
"""The same lengths and weights: 7.5 in, 81.5 in, 40 and 14 mm, 0.01, 1.39 and 1.41 lb."""


def test_the_units_that_are_typed_do_not_matter() -> None:
    before, after = results(BASE), results({**BASE, **METRIC})
    for name in RESULTS:
        assert after[name] == pytest.approx(before[name], rel=1e-9), name
