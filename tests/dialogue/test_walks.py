"""Whatever is typed, a conversation stands where its log stands, and can be gone on with."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from assistant.dialogue.fold import replayed
from assistant.dialogue.job import Job, State
from assistant.dialogue.questions import question
from tests.dialogue.walks import walk
from tests.stories.play import job_named

SEEDS = pytest.mark.parametrize("seed", range(6))
JOBS = pytest.mark.parametrize("name", ["calibrate", "recheck", "air"])


@cache
def walked(name: str, seed: int) -> list[State]:
    """A random walk through a job, which some tests look at."""
    return walk(job_named(name), seed)


def stands_where_its_log_stands(job: Job, state: State) -> None:
    """One step of the fold and a replay from the start come to the same."""
    again = replayed(job, state.log)[0].situation
    here = state.situation
    assert (again.place, again.visits) == (here.place, here.visits)
    assert again.known == here.known
    assert again.rows == here.rows
    assert again.open == here.open
    assert again.pool == here.pool


def fresh(job: Job, state: State) -> State:
    """A conversation with the final answers alone: no change, no slip, nothing that waits."""
    log = replace(state.log, entries=tuple(state.situation.used), told=(), again={}, struck=())
    return replayed(job, log)[0]


@JOBS
@SEEDS
def test_a_random_conversation_equals_its_replay_after_every_event(name: str, seed: int) -> None:
    job = job_named(name)
    for state in walked(name, seed)[::2]:
        stands_where_its_log_stands(job, state)


@JOBS
@SEEDS
def test_a_conversation_with_changes_equals_a_fresh_one_with_the_final_answers(
    name: str, seed: int
) -> None:
    job = job_named(name)
    state = walked(name, seed)[-1]
    again = fresh(job, state).situation
    assert again.known == state.situation.known
    assert again.rows == state.situation.rows


@JOBS
@SEEDS
def test_a_random_conversation_always_has_a_question_or_an_end(name: str, seed: int) -> None:
    job = job_named(name)
    for state in walked(name, seed):
        open_ = state.situation.open
        assert open_ is not None
        if open_.kind not in {"ended", "fetch"} and not state.left:
            assert question(job, state)


@JOBS
@pytest.mark.campaign
@pytest.mark.parametrize("block", range(100))
def test_ten_thousand_random_conversations_equal_their_replay(name: str, block: int) -> None:
    job = job_named(name)
    for seed in range(block * 100, block * 100 + 100):
        state = walk(job, seed)[-1]
        stands_where_its_log_stands(job, state)
        assert fresh(job, state).situation.known == state.situation.known
