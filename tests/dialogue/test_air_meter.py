"""An air meter turned into a box drill at the review, on a small flow of our own."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from assistant.dialogue.advance import advance, begin
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State, job_of
from assistant.dialogue.messages import Message, Offer
from assistant.flow.load import load
from assistant.flow.model import Choice, Fact, Part, Series, Step
from assistant.flow.place import flows_folder

KINDS = (Choice("air", "An air drill"), Choice("box", "A box drill"))
FACTS = (
    Fact("kind", "choice", "Kind", ask="Which kind?", choices=KINDS),
    Fact("meter_turns", "turns", "Meter turns", ask="How many?", names=("meter",)),
    Fact("opening", "length", "Opening", ask="How wide?", metric="mm", us="mm", bare=("mm",)),
    Fact("caught", "mass", "Caught", ask="How heavy?", us="lb", metric="g", bare=("lb",)),
)
LAP = Step("lap", "ask", ("meter_turns", "opening", "caught"), ask="What was set, and caught?")
STEPS = (
    Step("kind", "ask", ("kind",), next={"air": "lap", "box": "lap"}),
    LAP,
    Step("done", "finish", ("proven",), card=True, say="Done."),
)
TRIALS = Series(
    "trials",
    ("meter_turns", "opening", "caught"),
    ("caught",),
    under=("kind",),
    only={"meter_turns": {"kind": ("air",)}, "opening": {"kind": ("box",)}},
)


@cache
def job() -> Job:
    """The small job, compiled."""
    library = replace(
        load(flows_folder()),
        facts={fact.name: fact for fact in FACTS},
        jobs={"air": Part("air", "Air", STEPS, {}, series=TRIALS)},
        parts={},
    )
    return job_of(library, "air", {})


def talk(*lines: str) -> tuple[State, tuple[Message, ...]]:
    """The state after these lines, and what was said last."""
    state, reply = begin(job())
    for line in lines:
        state, reply = advance(job(), state, Typed(line))
    return state, reply.messages


AIR = ("air", "10, 6.2 lb")


def test_the_lap_asks_what_the_kind_of_drill_has() -> None:
    state, _ = talk("air")
    assert state.situation.open
    assert state.situation.open.facts == ("meter_turns", "caught")


def test_the_change_is_foretold_with_the_question_that_opens() -> None:
    _, said = talk(*AIR, "change 1 box")
    (offer,) = said
    assert isinstance(offer, Offer)
    assert "Opening, Caught" in offer.text


def test_no_row_of_the_air_meter_is_left_on_the_box_drill() -> None:
    state, _ = talk(*AIR, "change 1 box", "yes")
    assert state.situation.open
    assert state.situation.open.kind == "ask"
    assert state.situation.open.facts == ("opening", "caught")
    assert state.situation.rows.get("trials", ()) == ()


def test_it_ends_as_a_fresh_conversation_about_a_box_drill() -> None:
    changed, _ = talk(*AIR, "change 1 box", "yes", "14 mm, 1.4 lb")
    fresh, _ = talk("box", "14 mm, 1.4 lb")
    assert changed.situation.known == fresh.situation.known
    assert changed.situation.rows == fresh.situation.rows
    assert changed.situation.open == fresh.situation.open
