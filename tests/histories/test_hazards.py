"""No act near a hazard without its caution, and no end before the list of what to put back (N10).

The watch keeps its own account of what was said. That it can fail is shown by taking out each
caution and each list in turn: then the watch must see it, and `flows check` too.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import settings

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.flows import opened
from assistant.checking.judge import findings
from tests.campaigns.killers import jobs_by_file, road_faults
from tests.histories import seeded
from tests.histories.guarded import Guarded
from tests.histories.mutants import (
    Caution,
    Lists,
    cautions,
    flows_without,
    flows_without_lists,
    jobs_of,
    near,
    put_backs,
    retold,
)
from tests.histories.seeded import run_seeded
from tests.histories.talk import STARTS
from tests.histories.watch import Watch
from tests.stories.play import job_named
from tests.stories.story import Story, stories

JOBS = pytest.mark.parametrize("name", sorted(STARTS))
CAUTIONS = cautions()
PUT_BACKS = put_backs()
OF_CALIBRATE = {"jobs/calibrate.toml", "parts/catch.toml"}
MANY = settings(seeded.MANY, max_examples=40, stateful_step_count=40)
FEW = settings(MANY, max_examples=4)


@JOBS
def test_no_hazard_without_its_caution_and_no_end_or_pause_without_the_list(name: str) -> None:
    run_seeded(Guarded, 0, FEW, job=job_named(name))


@JOBS
@pytest.mark.campaign
@pytest.mark.parametrize("seed", range(1, 11))
def test_no_hazard_without_its_caution_in_many_histories(name: str, seed: int) -> None:
    run_seeded(Guarded, seed, MANY, job=job_named(name))


@pytest.mark.parametrize("hazard", ["treated_seed", "raised_drill"])
def test_the_machine_misses_a_caution_that_is_gone(hazard: str, tmp_path: Path) -> None:
    gone = next(c for c in CAUTIONS if c.hazard == hazard and c.file in OF_CALIBRATE)
    job = jobs_of(flows_without(gone, tmp_path))["calibrate"]
    with pytest.raises(AssertionError, match=gone.hazard):
        run_seeded(Guarded, 0, MANY, job=job)


@pytest.mark.campaign
@pytest.mark.parametrize(
    "story", [s for s in stories() if all(k == ">" for k, _ in s.moves)], ids=lambda s: s.name
)
def test_every_story_keeps_its_cautions(story: Story) -> None:
    assert retold(job_named(story.job), story).faults == []


def sees_it_gone(caution: Caution, folder: Path) -> None:
    """Assert that watch and checker both see that a caution was taken out."""
    flows = flows_without(caution, folder)
    jobs = jobs_of(flows)
    assert any(retold(jobs[each.job], each).faults for each in near(caution.file, (caution.step,)))
    unguarded = [each for each in findings(flows) if each.code == "unguarded"]

    assert caution.hazard in {dict(each.about)["hazard"] for each in unguarded}


@pytest.mark.parametrize("caution", CAUTIONS[-1:], ids=str)
def test_a_caution_taken_out_is_missed_by_watch_and_checker(
    caution: Caution, tmp_path: Path
) -> None:
    sees_it_gone(caution, tmp_path)


@pytest.mark.campaign
@pytest.mark.parametrize("caution", CAUTIONS, ids=str)
def test_every_caution_taken_out_is_missed_by_watch_and_checker(
    caution: Caution, tmp_path: Path
) -> None:
    sees_it_gone(caution, tmp_path)


def left_raised(watch: Watch) -> bool:
    """Whether the watch saw a job end before the list."""
    return any("while the drill stands raised" in fault for fault in watch.faults)


def left_undone(gone: Lists, flows: Path) -> bool:
    """Whether the checker finds an end before the list."""
    found = road_faults(opened(flows, CATALOGUE), jobs_by_file()[gone.file])
    return any(each.code == "not_put_back" for each in found)


def sees_lists_gone(gone: Lists, folder: Path) -> None:
    """Assert that watch and checker both see that the put-back lists of a part were taken out.

    While one of them is left, the job itself shows that before its end.
    """
    flows = flows_without_lists(gone, folder)
    jobs = jobs_of(flows)
    assert any(left_raised(retold(jobs[each.job], each)) for each in near(gone.file, gone.steps))
    assert left_undone(gone, flows)


@pytest.mark.parametrize("gone", PUT_BACKS[:1], ids=str)
def test_put_back_lists_taken_out_are_missed_by_watch_and_checker(
    gone: Lists, tmp_path: Path
) -> None:
    sees_lists_gone(gone, tmp_path)


@pytest.mark.campaign
@pytest.mark.parametrize("gone", PUT_BACKS, ids=str)
def test_all_put_back_lists_taken_out_are_missed_by_watch_and_checker(
    gone: Lists, tmp_path: Path
) -> None:
    sees_lists_gone(gone, tmp_path)


@pytest.mark.campaign
@pytest.mark.parametrize(
    "gone", [Lists(each.file, (step,)) for each in PUT_BACKS for step in each.steps], ids=str
)
def test_each_put_back_list_taken_out_is_missed_by_the_checker(gone: Lists, tmp_path: Path) -> None:
    assert left_undone(gone, flows_without_lists(gone, tmp_path))
