"""A conversation that was left under another flow: what fits is kept, the rest is told early."""

from __future__ import annotations

from dataclasses import replace

from assistant.dialogue.advance import resume
from assistant.dialogue.log import FlowChanged
from tests.stories.play import calibrate, play
from tests.stories.story import FOLDER, read_story


def test_an_answer_whose_place_is_gone_is_told_early() -> None:
    state = play(read_story(FOLDER / "fluted_pounds.txt")).states[7]
    moved = tuple(
        replace(each, place="old/rows") if each.place == "rows" else each
        for each in state.log.entries
    )
    after, reply = resume(calibrate(), replace(state.log, entries=moved))
    known, before = after.situation.known, state.situation.known
    assert isinstance(reply.records[0], FlowChanged)
    assert {each.fact for each in reply.records[0].gone} == {"row_count", "row_spacing"}
    assert known["row_count"].value == before["row_count"].value
    assert known["row_spacing"].settled == before["row_spacing"].settled
    assert after.situation.place == state.situation.place


def test_a_flow_that_is_the_same_tells_of_nothing() -> None:
    state = play(read_story(FOLDER / "fluted_pounds.txt")).states[7]
    _, reply = resume(calibrate(), state.log)
    assert not any(isinstance(record, FlowChanged) for record in reply.records)
