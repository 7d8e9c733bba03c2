"""What works at every question works at every place that the stories come to."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

import pytest

from assistant.dialogue.advance import advance, begin
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Message, Say, Trouble
from assistant.dialogue.questions import caution_word
from tests.stories.play import job_named, library, played
from tests.stories.story import FOLDER, read_story, stories

MOST_BACK, FEWEST_BACK = 80, 4
FIRST = {"recheck": {"card"}, "fault": {"waits", "where"}}
"""Where a job is asked first, if not where it begins: some books offer nothing there."""
WALKED_BACK = ("fluted_plants", "recheck_plants", "two_halves", "cup_other_range", "rows_odd")


def waits(state: State) -> bool:
    """Whether a question is open, and nothing half-asked beside it."""
    open_ = state.situation.open
    ended = open_ is None or open_.kind in {"ended", "fetch"}
    return not (ended or state.moment or state.left)


@cache
def places() -> dict[str, tuple[Job, State]]:
    """One state for each place of each job that waits for a person.

    Not made while tests are collected: each worker would play all stories for it.
    """
    found: dict[str, tuple[Job, State]] = {}
    for story in stories():
        for state in filter(waits, played(story).states):
            assert state.situation.open
            name = f"{story.job} {state.situation.place} {state.situation.open.kind}"
            found.setdefault(name, (job_named(story.job), state))
    return found


def heard(job: Job, state: State, line: str) -> tuple[State, Sequence[Message]]:
    """The state and the messages after a line."""
    after, reply = advance(job, state, Typed(line))
    return after, reply.messages


def is_first(said: Sequence[Message]) -> bool:
    return any(isinstance(m, Say) and m.text == library().words["back.first"] for m in said)


def test_the_stories_come_to_most_places_where_a_person_is_asked() -> None:
    assert len(places()) > 90


@pytest.mark.parametrize("word", ["back", "<"])
def test_the_way_back_leads_to_the_first_question_from_everywhere(word: str) -> None:
    for place, (job, there) in places().items():
        state = there
        for _ in range(MOST_BACK):
            before, (state, said) = state, heard(job, state, word)
            assert not any(isinstance(each, Trouble) for each in said), place
            if is_first(said):
                break
            moved = state.situation.used != before.situation.used or state.log != before.log
            assert moved, place
        assert is_first(said), place
        first = FIRST.get(job.graph.job) or {begin(job)[0].situation.place}
        assert state.situation.place in first, place


def again(job: Job, state: State) -> str:
    """What stands for the answer that was given here before: Enter, or the word of a caution."""
    open_ = state.situation.open
    assert open_
    if open_.kind in {"caution", "guard"}:
        return caution_word(job, state, open_)
    return "done" if open_.kind == "wait" else ""


@pytest.mark.parametrize("name", WALKED_BACK)
def test_so_many_steps_back_and_the_same_answers_lead_to_the_same_state(name: str) -> None:
    told = played(read_story(FOLDER / f"{name}.txt"))
    job = told.sitting.job
    there = next(s for s in reversed(told.states) if waits(s) and s.situation.open)
    state, steps = there, 0
    while True:
        state, said = heard(job, state, "back")
        if is_first(said):
            break
        steps += 1
        back, asked = state, 0
        while back.situation.known != there.situation.known or back.situation.open != (
            there.situation.open
        ):
            assert back.situation.open
            asked += back.situation.open.kind not in {"caution", "guard", "wait", "review"}
            assert asked <= steps, back.situation.open
            back, _ = heard(job, back, again(job, back))
        assert back.situation.rows == there.situation.rows
    assert steps >= FEWEST_BACK


@pytest.mark.parametrize("word", ["help", "?"])
def test_help_tells_of_this_question_and_is_no_misreading(word: str) -> None:
    for job, state in places().values():
        assert state.situation.open
        after, said = heard(job, state, word)
        text = getattr(said[0], "text", "")
        assert after.log == state.log
        assert after.misread == state.misread
        for name in state.situation.open.facts:
            fact = job.fact(name)
            assert fact.help in text
            assert fact.help != fact.ask
        assert "At any question you can type" in text
        assert said[1:] == heard(job, state, "repeat")[1]


def test_every_word_of_the_glossary_is_told_at_every_question() -> None:
    terms = list(library().glossary)
    for at, (job, state) in enumerate(places().values()):
        for term in terms[at % 5 :: 5]:
            after, said = heard(job, state, f"what is {term}")
            assert said[0] == Say(library().glossary[term])
            assert after.log == state.log
            assert said[1:] == heard(job, state, "repeat")[1]
