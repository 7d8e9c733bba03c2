"""Whatever is typed, a conversation stands where its log stands, and can be gone on with."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.dialogue.fold import replayed
from assistant.dialogue.job import State
from assistant.dialogue.questions import question
from tests.dialogue.walks import walk
from tests.stories.play import calibrate


def stands_where_its_log_stands(state: State) -> None:
    """One step of the fold and a replay from the start come to the same."""
    again = replayed(calibrate(), state.log)[0].situation
    here = state.situation
    assert (again.place, again.visits) == (here.place, here.visits)
    assert again.known == here.known
    assert again.rows == here.rows
    assert again.open == here.open
    assert again.pool == here.pool


def fresh(state: State) -> State:
    """A conversation with the final answers alone: no change, no slip, nothing that waits."""
    log = replace(state.log, entries=tuple(state.situation.used), told=(), again={}, struck=())
    return replayed(calibrate(), log)[0]


@pytest.mark.parametrize("seed", range(12))
def test_a_random_conversation_equals_its_replay_after_every_event(seed: int) -> None:
    for state in walk(calibrate(), seed)[::2]:
        stands_where_its_log_stands(state)


@pytest.mark.parametrize("seed", range(200, 216))
def test_a_conversation_with_changes_equals_a_fresh_one_with_the_final_answers(seed: int) -> None:
    state = walk(calibrate(), seed)[-1]
    again = fresh(state).situation
    assert again.known == state.situation.known
    assert again.rows == state.situation.rows


@pytest.mark.parametrize("seed", range(100, 112))
def test_a_random_conversation_always_has_a_question_or_an_end(seed: int) -> None:
    for state in walk(calibrate(), seed):
        open_ = state.situation.open
        assert open_ is not None
        if open_.kind not in {"ended", "fetch"} and not state.left:
            assert question(calibrate(), state)


@pytest.mark.campaign
@pytest.mark.parametrize("block", range(100))
def test_ten_thousand_random_conversations_equal_their_replay(block: int) -> None:
    for seed in range(block * 100, block * 100 + 100):
        state = walk(calibrate(), seed)[-1]
        stands_where_its_log_stands(state)
        assert fresh(state).situation.known == state.situation.known
