"""Every question of the main job, with the state in which it is put."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from typing import Any

from assistant.book.nobook import NoBook
from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import State
from assistant.dialogue.messages import Message
from assistant.dialogue.questions import caution_word
from assistant.flow.model import Step
from assistant.script.facts_file import FactsFile
from assistant.script.run import Script
from assistant.sitting.sitting import open_sitting
from tests.script.running import BASE, CUP, RUNS, Facts, calibrate, world

SIZE: Facts = {"seeds_per_weight": "12,500", "germination": "90 %"}
PLANTS: Facts = {"target": "28 plants per sq ft", "emergence": "85 %", **SIZE}
HALF: Facts = {"wheel_method": "taped", "distance_per_turn": "80 in", "turns": "30"}
WEIGHED: Facts = {"catch_weight": "1.39 lb"}
LITTLE: Facts = {"catch_weight": "0.3 lb"}
BETWEEN = [{"opening": "5 mm", "catch_weight": f"{each} lb"} for each in (1.36, 1.45, 1.37, 1.46)]
"""Catches after which no mark promises more."""
NARROW: Facts = {"start_opening": "5 mm", "widest_opening": "12 mm"}
"""There the mark that is shown as an example is usual."""
CRANKED: Facts = {**BASE, "method": "crank"}
STRIP: Facts = {**BASE, "method": "strip", "strip_distance": "150 ft"}
SPROCKETS: Facts = {
    "feed": "double_run",
    "feed_side": "coarse",
    "swapped_sprocket": "driver",
    "teeth_offered": "15 18 60 200",
    "start_teeth": "15",
    "trials": [{"teeth": "15", **WEIGHED}],
}

COUNTED: Facts = {
    **{name: text for name, text in BASE.items() if name != "scale_step"},
    "crop": "soybean",
    "target": "50 lb/ac",
    "measured_by": "count",
    "tag_size": "2800",
    "trials": [{"opening": "14 mm", "seeds_caught": "410 412 408 409 411 410"}],
}

TURNED: Facts = {"rolled_turns": "66.5", "rolled_distance": "10 ft"}
"""A turn of 1.8 in, which is asked about."""
OTHER_ROWS = "other rows"

ROADS: tuple[Facts, ...] = (
    {**BASE, "treated": "yes"},
    CUP,
    {**BASE, **PLANTS},
    {**BASE, "target": "30 seeds per sq ft", "purity": "80 %", **SIZE},
    {
        **BASE,
        "crop": "clover",
        "target": "60 seeds per sq ft",
        "seeds_per_weight": "270,000",
        "is_coated": "yes",
        "coating": "34 %",
        "seed_counted_as": "bag",
    },
    {**BASE, "target": "30 seeds per sq ft", "seeds_counted": "100", "counted_weight": "3.6 g"},
    {
        **BASE,
        "target": "30 seeds per sq ft",
        "seeds_counted": "100 100 100",
        "counted_weight": "3 g 4 g",
    },
    {**BASE, "target": "10 lb PLS/ac", "purity": "98 %", "germination": "95 %", "hard_seed": "9 %"},
    {**BASE, "target": "20 PLS per sq ft", "purity": "98 %", **SIZE},
    {**BASE, "target": "1.5 bu/ac", "test_weight": "50 lb/bu", "trade_bushel": "60 lb/bu"},
    {**BASE, "target": "1.5 bu/ac"},
    {**BASE, "wheel_method": "axle", "axle_height": "13 in"},
    {**BASE, "wheel_method": "rolled", "rolled_turns": "10", "rolled_distance": "68 ft"},
    *(
        {**BASE, "wheel_method": "rolled", **TURNED, "turn_is_so": so}
        for so in ("as_it_is", "once_more")
    ),
    {**BASE, "wheel_method": "last_time"},
    {**BASE, "trials": [LITTLE], "once_more": "yes"},
    {**BASE, **NARROW, "tolerance": "1 %", "trials": BETWEEN},
    {**BASE, "trials": [{"row_weights": "80; 70; 82; 69; 79; 71 g"}], "rows_mended": "as_they_are"},
    {**BASE, "tolerance": "0.5 %", "trials": [{"catch_weight": "1.385 lb"}]},
    {
        **CUP,
        "tolerance": "0.5 %",
        "trials": [
            {"lever_mark": "5.5", "catch_weight": "1.43 lb"},
            {"lever_mark": "5", "catch_weight": "1.38 lb"},
        ],
    },
    {**BASE, "target": "10 lb PLS/ac"},
    COUNTED,
    {
        **BASE,
        "target": "20 PLS per sq ft",
        "purity": "75 %",
        "coating": "43 %",
        "seed_counted_as": "bag",
        "germination": "95 %",
        "seeds_per_weight": "12,500",
    },
    {**BASE, "drive_halves": "no"},
    {**CRANKED, "crank_known_by": "plate", "crank_turns": "58", "crank_area": "1/10 ac"},
    {**CRANKED, "crank_known_by": "rolled", "rolled_turns": "10", "rolled_distance": "68 ft"},
    *(
        {**CRANKED, "crank_known_by": "rolled", **TURNED, "turn_is_so": so}
        for so in ("as_it_is", "once_more")
    ),
    {
        **CRANKED,
        "crank_known_by": "plate",
        "crank_turns": "500",
        "crank_area": "0.01 ac",
        "turn_is_so": "once_more",
    },
    {**CRANKED, "crank_known_by": "last_time"},
    STRIP,
    {**STRIP, **SPROCKETS},
    {**BASE, **SPROCKETS, "trials": [{"teeth": "15", **LITTLE}], "take_teeth": "heavier"},
    {**CUP, "trials": [LITTLE, {"lever_mark": "10", **LITTLE}], "other_range": "yes"},
    {
        **BASE,
        "drive_halves": "two",
        "trials": [WEIGHED, WEIGHED],
        "other_half": {**HALF, "trials": [LITTLE], "once_more": "yes"},
    },
    {
        **CUP,
        "drive_halves": "two",
        "other_half": {
            **HALF,
            "trials": [LITTLE, {"lever_mark": "10", **LITTLE}],
            "other_range": "yes",
        },
    },
)
"""Facts that lead along every road, each to its end or to a question that comes twice."""


@cache
def states() -> tuple[State, ...]:
    """A state for each question: the first one in which it was put."""
    found: dict[tuple[Any, ...], State] = {}
    kept = NoBook()  # the second time, it has a card to offer
    books = [*(NoBook() for _ in ROADS), kept, kept]
    for road, book in zip((*ROADS, BASE, BASE), books, strict=True):
        for state in with_left(along(road, book)):
            open_ = state.situation.open
            if open_ and open_.kind not in {"ended", "fetch"}:
                found.setdefault((open_.kind, open_.place, open_.facts), state)
    return tuple(found.values())


def with_left(states_: Iterable[State]) -> Iterator[State]:
    """These states, and beside each where a word leads from it that no script types."""
    for state in states_:
        yield state
        if OTHER_ROWS in step_of(state).leave:
            yield answered(state, OTHER_ROWS)[0]


def step_of(state: State) -> Step:
    """The step that a state stands at."""
    return calibrate().graph[state.situation.place].step


def along(road: Facts, book: NoBook) -> Iterator[State]:
    """Every state that a script comes through."""
    sitting, said = open_sitting(calibrate(), book, world(next(RUNS)), scripted=True)
    seen: list[State] = []

    def show(_typed: str, _said: tuple[Message, ...]) -> None:
        seen.append(sitting.state)

    Script(sitting, show, file_of(road)).run(said)
    yield from seen


def file_of(road: Facts, above: str = "") -> FactsFile:
    """A facts file without a file."""
    file = FactsFile("road", {}, cautions_read=True)
    for name, value in road.items():
        if name == "trials":
            file.rows[above + name] = [{above + k: v for k, v in row.items()} for row in value]
        elif isinstance(value, dict):
            inner = file_of(value, f"{name}.")
            file.texts |= inner.texts
            file.rows |= inner.rows
        elif name != "cautions_read":
            file.texts[above + name] = str(value)
    return file


def answered(state: State, *lines: str) -> tuple[State, Sequence[Message]]:
    """The state after some typed lines, and what was said to the last."""
    said: Sequence[Message] = ()
    for line in lines:
        state, reply = advance(calibrate(), state, Typed(line))
        said = reply.messages
    return state, said


def asks(state: State) -> tuple[str, ...]:
    """The facts that a question is for."""
    open_ = state.situation.open
    return open_.facts if open_ and open_.kind == "ask" else ()


def at_question(*facts: str) -> State:
    """The first state that asks for these facts together."""
    return next(state for state in states() if asks(state) == facts)


def word_of(state: State) -> str:
    """The word that passes the caution that is open."""
    open_ = state.situation.open
    assert open_
    return caution_word(calibrate(), state, open_)
