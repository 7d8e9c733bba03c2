"""At a list for the hands an earlier answer can be put right in a line, and nothing else is taken.

By hand: 1.40324 lb at 7.5 in is 1.40324 x 7 / 7.5 = 1.30969 lb at 7 in.
"""

from __future__ import annotations

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import State
from assistant.dialogue.messages import Offer, Trouble
from tests.stories.play import calibrate, played
from tests.stories.story import FOLDER, read_story

POUND = 0.45359237


def at_the_list() -> State:
    """A conversation at the list before the first catch."""
    state = played(read_story(FOLDER / "fluted_pounds.txt")).states[14]
    assert state.situation.open
    assert state.situation.open.kind == "wait"
    return state


@pytest.mark.parametrize(
    "typed",
    [
        "no wait, rows are 7 in apart",
        "wait, spacing is 7 in",
        "no, spacing 7 in",
        "spacing 7 in",
        "I meant 7 in apart",
    ],
)
def test_an_answer_is_put_right_and_the_list_still_waits(typed: str) -> None:
    asked, reply = advance(calibrate(), at_the_list(), Typed(typed))
    (offer,) = [each for each in reply.messages if isinstance(each, Offer)]
    assert offer.text.startswith("Row spacing: from 7.5 in to 7 in.")
    changed, _ = advance(calibrate(), asked, Typed("yes"))
    target = changed.situation.known["target_catch"].value
    assert target == pytest.approx(1.30969 * POUND, rel=1e-5)
    assert changed.situation.open
    assert changed.situation.open.kind == "wait"


ABOUT_THE_HANDS = (
    *("rows are long", "I forgot the jack", "7 in", "14", "not yet", "no, not yet", "3 not done"),
    *("no it's down", "wait, lower it", "wait nobody near the drill", "wait drill is down"),
    *("no seed on the ground", "no, left side", "no, none", "wait, half of them", "no, 14 mm"),
    *("wait the wheel is touching", "wait, row 5 is off", "wait 4 rows", "no, row 4", "step 3?"),
    *("oops wrong lot, 4472", "no crank", "scale reads 0", "actually 14", "wait, all of them"),
)
"""What people say at a list of what the hands do: a step of it, or how things are."""


@pytest.mark.parametrize("typed", ABOUT_THE_HANDS)
def test_what_names_no_answer_and_its_value_changes_nothing(typed: str) -> None:
    state, reply = advance(calibrate(), at_the_list(), Typed(typed))
    assert [each.code for each in reply.messages if isinstance(each, Trouble)] == ["not_done"]
    assert state.log == at_the_list().log
    assert state.moment is None


@pytest.mark.parametrize("typed", ["no it's down", "wait, lower it", "no more seed"])
def test_at_a_catch_no_word_about_the_drill_is_taken_for_a_choice(typed: str) -> None:
    """`down` and `lower` are words of the way that the lever opens."""
    catching = played(read_story(FOLDER / "fluted_pounds.txt")).states[16]
    state, reply = advance(calibrate(), catching, Typed(typed))
    assert not [each for each in reply.messages if isinstance(each, Offer)]
    assert state.log == catching.log
