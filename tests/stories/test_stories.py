"""Every story ends as written: its numbers by hand, its own number of prompts."""

from __future__ import annotations

from fractions import Fraction

import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from assistant.dialogue.fold import replayed
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import exact
from tests.histories.edges import every, every_step, steps_told, told, unwalked
from tests.stories.play import job_named, play, played
from tests.stories.story import FOLDER, Story, sampled, stories
from tests.stories.write_demo import DEMOS, demos

STORIES = list(stories())
TOLD = [story for story in STORIES if story.snapshot]
SNAPSHOTS_MOST = 18  # two more than in 0.2.0: a driven strip and an air drill read unlike any other

BUDGETS = {
    "fluted_plants": 26,
    "fluted_pounds": 22,
    "known_drill": 18,
    "recheck_plants": 8,
    "recheck_treated": 9,
    "strip_straight": 18,
    "crank_plate": 22,
    "recheck_crank": 7,
    "cup_probe": 23,
    "counted": 24,
    "small_seed_box": 22,
    "double_run": 25,
    "crank_rolled": 20,
    "cell_card": 21,
    "agitated_card": 23,
    "two_halves": 32,
    "recheck_two_halves": 8,
}
"""Prompts that a straight story may take: first time, in plants or in pounds; known drill; a new
lot on it, and one that is treated; a strip, a crank by its plate, and a new lot on that; a cup
feed with a probe, a count with a move, a small-seed box, a double run with another sprocket; a
crank that is rolled, a wheel with cells, fluffy seed from an agitated box; a drill in halves."""
AIR_BUDGETS = {
    "air_ground": 20,
    "air_electric": 21,
    "air_electric_metric": 21,
    "air_electric_pulses": 22,
    "air_next_tank": 16,
    "air_outlets_tower": 28,
}
"""The same for an air drill: on a ground wheel, powered, by pulses, a further tank of a known one,
and with the test at the outlets, where a tower is looked into and mended."""
JOB_BUDGETS = {
    "field_one_bag": 7,
    "mix_by_weight": 4,
    "mix_two_boxes": 8,
    "fault_quarter": 5,
    "fault_row_light": 5,
    "fault_waiting": 2,
}
"""The same for a job without a card: a weigh-out; a mix by weight, and in two boxes; a
fault by its ratio, by a sign, and of a job that waits."""
ALL_BUDGETS = {**BUDGETS, **AIR_BUDGETS, **JOB_BUDGETS}

EXPECTED_CATCH_BY = 14


class TextSnapshot(SingleFileSnapshotExtension):
    """One text file for each story."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


def by_name(story: Story) -> str:
    return story.name


def ends_as_written(story: Story) -> None:
    told = played(story)
    finish = told.sitting.finish
    assert (finish.outcome if finish else "open") == story.finish, told.transcript()
    assert told.prompts == story.prompts


def has_its_numbers(story: Story) -> None:
    """Those that were worked out by hand."""
    known = played(story).sitting.state.situation.known
    for name, written in story.hand:
        value = known[name].value
        assert isinstance(value, float), name
        by_hand, half = worked_by_hand(played(story).sitting.job.fact(name).kind, written)
        assert abs(value - by_hand) <= half, f"{name}: {value} is not {written}"


def worked_by_hand(kind: str, written: str) -> tuple[float, float]:
    """A number worked out by hand in SI, and half of its last digit."""
    number, _, unit = written.partition(" ")
    digits = len(number.partition(".")[2])
    form = "" if not unit else f" {unit}"
    one = exact(kind, f"1{form}") if KINDS[kind].form != "number" else Fraction(1)
    return float(Fraction(number) * one), float(one / (2 * 10**digits)) * (1 + 1e-9)


def walks_its_branches(story: Story) -> None:
    """Those that it is there for."""
    trail = set(played(story).sitting.state.situation.trail)
    assert set(story.edges) <= trail


def test_every_outcome_of_every_step_is_walked_by_a_story() -> None:
    """Here and not in `tests/histories`, where all stories would be played once more."""
    listed = [each for group in unwalked() for each in group.steps]
    assert len(listed) == len(set(listed))
    assert every() - told() == set(listed)


def test_every_step_is_come_to_by_a_story_or_listed() -> None:
    """An end of a job has no outcome, so that the test above does not look at it."""
    listed = {(file, step) for group in unwalked() for file, step, _ in group.steps}
    assert every_step() - steps_told() - listed == set()


def says_its_words(story: Story) -> None:
    """On the screen, or on the card."""
    told = played(story)
    heard = f"{told.heard()} {told.sitting.card}"
    for words in story.says:
        assert words in heard


def is_guarded(story: Story) -> None:
    """No guard fires in the first sitting: each caution comes in its place."""
    for state in played(story).states:
        if state.log.sitting == 1:
            assert state.situation.guards == 0


HOLDS = (ends_as_written, has_its_numbers, walks_its_branches, says_its_words, is_guarded)
"""What must be true of each story."""


@pytest.mark.parametrize("story", STORIES, ids=by_name)
def test_a_story_comes_to_what_is_written_with_it(story: Story) -> None:
    """One test of a story for all of it: of thousands of small ones the telling takes longest."""
    for holds in HOLDS:
        holds(story)


@pytest.mark.parametrize("story", TOLD, ids=by_name)
def test_the_conversation_reads_as_it_did(story: Story, snapshot: SnapshotAssertion) -> None:
    before = snapshot.with_defaults(extension_class=TextSnapshot)
    assert played(story).transcript() == before


def test_each_snapshot_belongs_to_a_story_and_there_are_few() -> None:
    names = [path.stem for path in (FOLDER / "__snapshots__").rglob("*.txt")]
    files = {name.partition("[")[2].rstrip("]") for name in names}
    assert files == {story.name for story in TOLD}
    assert len(TOLD) <= SNAPSHOTS_MOST


def test_each_demo_is_written_as_it_is_told() -> None:
    told = {path.name: path.read_text(encoding="utf-8") for path in DEMOS.glob("*.txt")}
    assert told == dict(demos()), "run python -m tests.stories.write_demo"


@pytest.mark.parametrize("name", sorted(ALL_BUDGETS))
def test_straight_stories_keep_their_budget_of_prompts(name: str) -> None:
    story = next(s for s in STORIES if s.name == name)
    assert story.prompts <= ALL_BUDGETS[name]


EACH_CATCH_MORE = 1


def test_each_further_catch_of_a_recheck_is_one_prompt_more() -> None:
    prompts = {story.name: story.prompts for story in STORIES}
    assert prompts["recheck_move"] == prompts["recheck_plants"] + EACH_CATCH_MORE


@pytest.mark.parametrize("name", sorted(BUDGETS))
def test_the_expected_catch_is_on_the_screen_by_prompt_14(name: str) -> None:
    told = played(next(s for s in STORIES if s.name == name))
    seen = next(at for at, (_, said) in enumerate(told.exchanges) if "Near enough: " in str(said))
    assert seen < EXPECTED_CATCH_BY


@pytest.mark.parametrize("story", sampled(STORIES, 2))
def test_at_every_line_a_replay_stands_where_the_conversation_stands(story: Story) -> None:
    for state in played(story).states:
        again = replayed(job_named(story.job), state.log)[0].situation
        assert again.place == state.situation.place
        assert again.known == state.situation.known
        assert again.rows == state.situation.rows
        assert again.open == state.situation.open


@pytest.mark.parametrize("story", sampled(STORIES, 12))
def test_a_story_resumed_after_every_line_knows_the_same(story: Story) -> None:
    whole, parts = played(story), play(story, resume_everywhere=True)
    assert parts.sitting.state.situation.known == whole.sitting.state.situation.known
    assert parts.sitting.state.situation.rows == whole.sitting.state.situation.rows
