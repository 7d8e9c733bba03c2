"""Who asks how the job was checked is told what the check found of the very steps in use."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from assistant.book.nobook import NoBook
from assistant.checking.shipped import shipped_proof
from assistant.dialogue.events import Typed
from assistant.dialogue.messages import Ask, Say
from assistant.flow.graph import shape_of
from assistant.flow.place import flows_folder
from assistant.sitting.checked import how_checked
from assistant.sitting.plain_text import folded
from assistant.sitting.sitting import open_sitting
from tests.stories.play import job_named, library, world

JOBS = sorted(library().jobs)
SMALL, ROWS = 40, 16


def proof(job: str) -> Mapping[str, Any]:
    return shipped_proof(flows_folder(), job)


@pytest.mark.parametrize("name", JOBS)
def test_it_tells_the_figures_of_the_report_and_the_mark_of_the_steps_in_use(name: str) -> None:
    job, shipped = job_named(name), proof(name)
    told = how_checked(job, shipped).text
    for figure in ("places", "farthest", "longest"):
        assert f" {shipped[figure]} " in told, figure
    assert f"Mark of the steps in use: {shape_of(job.graph)}." in told
    assert f"Of {shipped['mutants']['tried']} faults put in" in told
    assert len(folded(told, SMALL)) <= ROWS


@pytest.mark.parametrize("shipped", [{}, {"flow": "another"}])
def test_steps_that_did_not_ship_so_get_no_figures(shipped: Mapping[str, Any]) -> None:
    told = how_checked(job_named("calibrate"), shipped).text
    assert "They are not those that shipped" in told
    assert "can be reached" not in told
    assert shape_of(job_named("calibrate").graph) in told


def test_faults_put_into_earlier_steps_are_told_as_such() -> None:
    shipped = dict(proof("calibrate"))
    shipped["mutants"] = {**shipped["mutants"], "flows": {"calibrate": "another"}}
    assert "put into earlier steps" in how_checked(job_named("calibrate"), shipped).text


def test_it_is_asked_at_any_question_and_leaves_no_trace() -> None:
    outside = replace(world(), proof=proof)
    with NoBook() as book:
        sitting, _ = open_sitting(job_named("calibrate"), book, outside)
        before = sitting.state.log
        for typed in ("about this job", "About this flow?", "who checked this?"):
            first, *_, last = sitting.hear(Typed(typed))
            assert isinstance(first, Say)
            assert first == how_checked(sitting.job, proof("calibrate"))
            assert isinstance(last, Ask)
        assert sitting.state.log == before
