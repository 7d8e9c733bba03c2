"""Pictures: where the catch stands between light and heavy, and rows beside each other."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.book.nobook import NoBook
from assistant.calc.catalogue import CATALOGUE
from assistant.dialogue.job import Job, job_of
from assistant.dialogue.situation import Known, Row
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from assistant.sitting.sitting import Sitting, open_sitting
from assistant.terminal.pictures import bars, drawn, ruler, verdicts
from tests.terminal.small import world

BAND = 0.05
GRAM = 0.001


@cache
def calibrate() -> Job:
    """The job that has catches."""
    return job_of(load(flows_folder()), "calibrate", CATALOGUE)


def judged(off: float, *catches: Row, prefix: str = "", odd: tuple[float, ...] = ()) -> Sitting:
    """A conversation in which the last of these catches was judged so far off."""
    sitting, _ = open_sitting(calibrate(), NoBook(), world())
    at = sitting.state.situation.copy()
    at.known[f"{prefix}percent_off"] = Known(off, inputs=("trials",))
    at.known[f"{prefix}odd_rows"] = Known(odd, inputs=("trials",))
    at.rows[f"{prefix}trials"] = catches
    sitting.state = replace(sitting.state, situation=at)
    return sitting


def weighed(*grams: float, prefix: str = "") -> Row:
    """A catch, row by row."""
    return {f"{prefix}row_weights": Known(tuple(each * GRAM for each in grams))}


@pytest.mark.parametrize(
    ("off", "line"),
    [
        (-0.40, "x---------[==|==]----------"),
        (-0.13, "-----x----[==|==]----------"),
        (-0.05, "----------[x=|==]----------"),
        (0.0, "----------[==x==]----------"),
        (0.02, "----------[==|x=]----------"),
        (0.06, "----------[==|==]x---------"),
        (9.0, "----------[==|==]---------x"),
    ],
)
def test_the_catch_stands_on_its_side_of_the_target(off: float, line: str) -> None:
    assert ruler(off, BAND, 28) == line


@given(
    st.floats(-1, 5, allow_nan=False),
    st.floats(0.005, 0.5),
    st.integers(9, 60),
)
def test_the_catch_is_inside_the_brackets_exactly_when_it_is_near_enough(
    off: float, band: float, room: int
) -> None:
    line = ruler(off, band, room)
    place = line.index("x")
    assert len(line) <= room
    assert (line.index("[") < place < line.index("]")) is (abs(off) <= band)
    middle = (len(line) - 1) / 2
    assert place <= middle if off < 0 else place >= middle


@given(st.lists(st.floats(-0.19, 0.19), min_size=2, max_size=2))
def test_a_heavier_catch_never_stands_further_left(offs: list[float]) -> None:
    light, heavy = sorted(offs)
    assert ruler(light, BAND, 28).index("x") <= ruler(heavy, BAND, 28).index("x")


def test_bars_run_from_zero() -> None:
    assert bars([0.05, 0.1, 0.0]) == ["#" * 10, "#" * 20, ""]
    assert bars([0.0, 0.0]) == ["", ""]


def test_a_judged_catch_is_drawn_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    sitting = judged(-0.13, {})
    lines = drawn(sitting, {}, colour=False)
    assert lines[0] == "light -----x----[==|==]---------- heavy"
    assert max(map(len, lines)) <= 40
    assert drawn(sitting, verdicts(sitting), colour=False) == []


def test_a_second_catch_that_weighs_the_same_is_drawn_too() -> None:
    before = verdicts(judged(-0.01, {}))
    assert drawn(judged(-0.01, {}, {}), before, colour=False) != []


def test_nothing_is_drawn_before_a_catch() -> None:
    sitting, _ = open_sitting(calibrate(), NoBook(), world())
    assert drawn(sitting, {}, colour=False) == []


def test_the_other_half_has_its_own_picture() -> None:
    sitting = judged(0.02, {}, prefix="other_half.")
    assert list(verdicts(sitting)) == ["other_half"]
    assert "x" in drawn(sitting, {}, colour=False)[0]


def test_rows_weighed_by_themselves_are_drawn_beside_each_other() -> None:
    lines = drawn(judged(0.0, weighed(54, 57, 28.5), odd=(3.0,)), {}, colour=False)
    assert lines[:3] == [
        "row  1 ###################  54 g",
        "row  2 #################### 57 g",
        "row  3 ##########           28.5 g look",
    ]


def test_odd_rows_are_drawn_before_their_catch_is_judged() -> None:
    sitting = judged(0.0, weighed(80, 70, 82, 70))
    at = sitting.state.situation
    del at.known["percent_off"], at.known["odd_rows"]
    at.known["light_rows"] = Known((2.0, 4.0), inputs=("trials",))
    lines = drawn(sitting, {}, colour=False)
    assert [line.endswith(" look") for line in lines] == [False, True, False, True]
    before = verdicts(sitting)
    at.known["percent_off"] = Known(0.0, inputs=("trials",))
    assert "x" in drawn(sitting, before, colour=False)[-2]


@pytest.mark.parametrize("rows", [1, 13])
def test_one_row_or_more_than_fit_get_no_bars(rows: int) -> None:
    lines = drawn(judged(0.0, weighed(*[50] * rows)), {}, colour=False)
    assert not any("#" in line for line in lines)


def test_colour_adds_no_sign() -> None:
    plain = drawn(judged(-0.13, {}), {}, colour=False)
    painted = drawn(judged(-0.13, {}), {}, colour=True)
    assert painted[0].replace("\x1b[1m", "").replace("\x1b[0m", "") == plain[0]
    assert painted[0] != plain[0]
    assert "\x1b" not in "".join(plain)
