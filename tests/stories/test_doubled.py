"""A doubled input moves the results of a story by its factor, and no other.

`tests/script/test_other_inputs.py` does the same for a drill on its wheel. No result is looked up:
each story is held against the same one with other lines.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from assistant.dialogue.situation import Value
from tests.stories.play import play
from tests.stories.story import FOLDER, read_story

METER = ("working_width", "bulk_rate", "weight_per_turn", "caught_rate", "percent_off")
GEARS = (*METER, "turns_per_area")
MOTOR = (*METER, "shaft_at_slowest", "shaft_at_fastest")
FIELD = ("seed_in", "seed_used", "weigh_out_rate", "field_off")
DRIVEN = ("working_width", "field_ground", "net_ground", *FIELD)
CRANK = (
    *("bulk_rate", "distance_per_turn", "ground_covered", "target_catch", "target_catch_per_row"),
    *("caught_rate", "percent_off"),
)
RESULTS = {
    "air_ground": GEARS,
    "air_electric": MOTOR,
    "field_one_bag": FIELD,
    "field_distance": DRIVEN,
    "crank_plate": CRANK,
    "crank_rolled": CRANK,
}
HEAVY_METER = {"10, 6.2 lb": "10, 12.4 lb", "20, 12.4 lb": "20, 24.8 lb"}
HEAVY_CATCHES = {"1.37": "2.74", "1.36": "2.72"}

TABLE: list[tuple[str, dict[str, str], dict[str, float]]] = [
    (
        "air_ground",
        {"80 lb/ac": "160 lb/ac", **HEAVY_METER},
        {"bulk_rate": 2, "weight_per_turn": 2, "caught_rate": 2},
    ),
    (
        "air_ground",
        {"64 at 7.5": "64 at 15", **HEAVY_METER},
        {"working_width": 2, "weight_per_turn": 2, "turns_per_area": 0.5},
    ),
    (
        "air_ground",
        {"80 lb/ac": "160 lb/ac", "30, 11.6, 100 ft": "30, 23.2, 100 ft"},
        {"bulk_rate": 2, "turns_per_area": 2, "caught_rate": 2},
    ),
    (
        "air_electric",
        {"80 lb/ac": "160 lb/ac", "0.62 20.0 20.1": "1.24 20.0 20.1"},
        {"bulk_rate": 2, "weight_per_turn": 2, "caught_rate": 2},
    ),
    (
        "air_electric",
        {"80 lb/ac": "40 lb/ac"},
        {"bulk_rate": 0.5, "caught_rate": 0.5, "shaft_at_slowest": 0.5, "shaft_at_fastest": 0.5},
    ),
    (
        "air_electric",
        {
            "64 at 7.5": "64 at 15",
            "40 ft, satellite": "80 ft, satellite",
            "0.62 20.0 20.1": "1.24 20.0 20.1",
        },
        {"working_width": 2, "weight_per_turn": 2},
    ),
    (
        "air_electric",
        {"5 mph 6 mph": "2.5 mph 3 mph"},
        {"shaft_at_slowest": 0.5, "shaft_at_fastest": 0.5},
    ),
    (
        "field_one_bag",
        {"1 bag of 50 lb": "2 bags of 50 lb", "15 lb/ac": "30 lb/ac"},
        {"seed_in": 2, "seed_used": 2, "weigh_out_rate": 2},
    ),
    ("field_one_bag", {"3.33 ac": "6.66 ac", "15 lb/ac": "7.5 lb/ac"}, {"weigh_out_rate": 0.5}),
    (
        "field_one_bag",
        {"1 bag of 50 lb": "2 bags of 50 lb", "3.33 ac": "6.66 ac"},
        {"seed_in": 2, "seed_used": 2},
    ),
    (
        "field_distance",
        {"2 mi, 6 in": "4 mi, 6 in", "80 lb/ac": "40 lb/ac"},
        {"field_ground": 2, "net_ground": 2, "weigh_out_rate": 0.5},
    ),
    (
        "field_distance",
        {
            "24 at 7.5": "24 at 15",
            "2 mi, 15 ft": "2 mi, 30 ft",
            "2 mi, 6 in": "2 mi, 12 in",
            "80 lb/ac": "40 lb/ac",
        },
        {"working_width": 2, "field_ground": 2, "net_ground": 2, "weigh_out_rate": 0.5},
    ),
    (
        "crank_plate",
        {"66.7 = 200 m2": "66.7 = 400 m2", "2.88 kg": "5.76 kg", "2.90 kg": "5.80 kg"},
        {"distance_per_turn": 2, "ground_covered": 2, "target_catch": 2, "target_catch_per_row": 2},
    ),
    (
        "crank_rolled",
        {"20 turns 49 ft": "20 turns 98 ft", **HEAVY_CATCHES},
        {"distance_per_turn": 2, "ground_covered": 2, "target_catch": 2, "target_catch_per_row": 2},
    ),
    (
        "crank_rolled",
        {"90 lb/ac": "180 lb/ac", **HEAVY_CATCHES},
        {"bulk_rate": 2, "target_catch": 2, "target_catch_per_row": 2, "caught_rate": 2},
    ),
    (
        "crank_rolled",
        {"6, 90": "12, 90", **HEAVY_CATCHES},
        {"ground_covered": 2, "target_catch": 2},
    ),
]
"""A story, which lines are typed instead, and times what each result is; else as before."""


def results(name: str, instead: dict[str, str]) -> dict[str, Value | None]:
    """The results of a story with other lines, in SI, where it ends as it did."""
    story = read_story(FOLDER / f"{name}.txt")
    assert {text for _, text in story.moves} >= instead.keys()
    moves = tuple((kind, instead.get(text, text)) for kind, text in story.moves)
    told = play(replace(story, moves=moves))
    assert told.sitting.finish, told.transcript()
    assert told.sitting.finish.outcome == story.finish
    return {each: told.sitting.state.situation.known[each].value for each in RESULTS[name]}


@cache
def as_told(name: str) -> dict[str, Value | None]:
    """The results of a story as it is."""
    return results(name, {})


@pytest.mark.parametrize(("name", "instead", "times"), TABLE, ids=lambda each: str(each)[:40])
def test_a_doubled_input_moves_each_result_by_its_factor(
    name: str, instead: dict[str, str], times: dict[str, float]
) -> None:
    before, after = as_told(name), results(name, instead)
    assert times.keys() <= before.keys()
    wanted = {each: float(value) * times.get(each, 1) for each, value in before.items()}  # type: ignore[arg-type]  # a result is a number
    assert after == pytest.approx(wanted, rel=1e-9)
