"""Every answer of a story changed to another one: foretold truly, and as if told so at first."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.fold import replayed
from assistant.dialogue.foretelling import PREVIEW
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Offer
from assistant.dialogue.review import Target, targets
from assistant.dialogue.situation import Known
from assistant.dialogue.wording import shown
from tests.dialogue.test_everywhere import waits
from tests.stories.play import library, played
from tests.stories.story import FOLDER, Story, read_story, stories

SOME = ("fluted_plants", "recheck_plants", "cup_probe", "rows_odd", "two_halves")
ALL = [story for story in stories() if story.name != "recheck_told_odd"]
"""That one ends at what was told early and is asked about: it has no fresh conversation beside."""

MOST_ASKED = 4
MOVES = re.compile(re.sub(r"\\{\w+\\}", "(.+)", re.escape(library().words["change.moves"])))


def other_than(job: Job, target: Target) -> str:
    """Another answer to a question that was answered."""
    fact, settled = job.fact(target.entry.fact), target.entry.settled
    if fact.choices:
        return next(choice.name for choice in fact.choices if choice.name != settled)
    if fact.kind == "text":
        return "another"
    number, _, unit = settled.partition(" ")
    try:
        return f"{float(number) * 1.1 or 0.1:.3g} {unit}" if unit else str(round(float(number)) + 1)
    except ValueError:  # unknown, or several values
        return fact.example


def foretold(job: Job, state: State, number: int, value: str) -> tuple[State, str]:
    """The state at the question whether to do a change, and what it would move."""
    after, reply = advance(job, state, Typed(f"change {number} {value}"))
    for _ in range(MOST_ASKED):
        if after.moment is None or after.moment.kind == PREVIEW:
            break
        after, reply = advance(job, after, Typed("1"))
    offer = reply.messages[-1]
    assert isinstance(offer, Offer)
    assert after.moment
    assert after.moment.kind == PREVIEW
    return after, offer.text


def fresh(job: Job, state: State) -> State:
    """A conversation with the final answers alone."""
    log = replace(state.log, entries=tuple(state.situation.used), told=(), again={}, struck=())
    return replayed(job, log)[0]


def moves_in(text: str) -> set[tuple[str, str]]:
    """Each old and new value that a preview tells, but for the change itself."""
    lines = text.split("\n")[1:]
    return {(found[2], found[3]) for found in map(MOVES.fullmatch, lines) if found}


def moves_of(job: Job, before: State, after: State, target: Target) -> set[tuple[str, str]]:
    """Each main result that is shown as another value after the change, old and new."""
    pairs = set()
    for name, fact in job.graph.facts.items():
        old, new = (s.situation.known.get(name) for s in (before, after))
        if fact.main and name != target.entry.fact and old and new and differ(old, new):
            was, now = (
                shown(job, s.log, s.situation, fact, k) for s, k in ((before, old), (after, new))
            )
            pairs |= {(was, now)} if was != now else set()
    return pairs


def differ(old: Known, new: Known) -> bool:
    """Whether both have a value, and not the same: another step of the scale moves nothing."""
    return None not in {old.value, new.value} and old.value != new.value


def change_each_answer(story: Story) -> int:
    """Change each answer at the last question of a story, each time from there; how many."""
    told = played(story)
    job = told.sitting.job
    state = next((s for s in reversed(told.states) if waits(s)), None)
    if state is None:
        return 0
    for number, target in enumerate(targets(job, state.situation), 1):
        value = other_than(job, target)
        asked, text = foretold(job, state, number, value)
        assert asked.moment
        assert advance(job, asked, Typed("no"))[0].log == state.log
        done, _ = advance(job, asked, Typed("yes"))
        assert moves_in(text) == moves_of(job, state, done, target), (number, value)
        again = fresh(job, done).situation
        assert again.known == done.situation.known, (number, value)
        assert again.rows == done.situation.rows, (number, value)
    return len(targets(job, state.situation))


@pytest.mark.parametrize("name", SOME)
def test_a_change_is_foretold_truly_and_ends_as_if_told_so_at_first(name: str) -> None:
    assert change_each_answer(read_story(FOLDER / f"{name}.txt")) > 10


@pytest.mark.campaign
def test_each_answer_of_each_story_can_be_changed() -> None:
    assert sum(map(change_each_answer, ALL)) > 1500
