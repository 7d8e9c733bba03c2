"""What no rule can find, as the flow file is all that tells it: held against a list kept by hand.

A step that no longer says that it is near a hazard, a stop that becomes a mind, a caution that is
due for fewer choices, a list that no longer says that it puts the drill back, a question that is no
longer asked again: each leaves sound flows. `by_hand.txt` says what a practitioner agreed to.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from assistant.flow.load import load
from assistant.flow.model import Library, Step
from assistant.flow.place import flows_folder
from tests.flowfile.small import spoil
from tests.stories.play import library

BY_HAND = Path(__file__).with_name("by_hand.txt")


def as_listed(flows: Library) -> Iterator[str]:
    """The cautions with their grade, when they are due and what they guard; then other marks."""
    for name, caution in flows.cautions.items():
        due = [f"{fact} {' or '.join(names)}" for fact, names in caution.only.items()]
        undone = ["to be undone"] if caution.undone else []
        yield f"{name}: {', '.join([caution.grade, *due, *undone])}"
        yield from _steps(flows, lambda step, name=name: name in step.exposes)  # type: ignore[misc]  # mypy takes no default of a lambda
    yield "puts back:"
    yield from _steps(flows, lambda step: step.put_back)
    yield "asks again:"
    yield from _steps(flows, lambda step: step.again)


def _steps(flows: Library, wanted: Callable[[Step], bool]) -> Iterator[str]:
    for part in (*flows.jobs.values(), *flows.parts.values()):
        yield from (f"  {part.name}/{step.id}" for step in part.steps if wanted(step))


def listed() -> list[str]:
    return BY_HAND.read_text(encoding="utf-8").splitlines()


def test_cautions_and_marks_are_those_that_were_agreed_to() -> None:
    assert list(as_listed(library())) == listed()


RAISED = '[raised_drill]\ngrade = "stop"\nwords = ["chocks", "jack", "manual"]\n'
DUE = 'only = { treated = ["yes", "not_sure"] }'
DRIVE = 'ask = ["timed_distance", "time_taken", "shown_speed"]\n'
SLIPS = {
    "a stop that is a mind": ("cautions.toml", RAISED, RAISED.replace("stop", "mind")),
    "due for fewer choices": ("cautions.toml", DUE, DUE.replace(', "not_sure"', "")),
    "near no hazard": ("parts/pace.toml", DRIVE + 'exposes = ["rolling"]\n', DRIVE),
    "puts nothing back": ("parts/put_back.toml", "put_back = true\n", ""),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_that_leaves_sound_flows_is_missed_in_the_list(slip: str, tmp_path: Path) -> None:
    folder = Path(shutil.copytree(flows_folder(), tmp_path / "flows"))
    spoil(folder, *SLIPS[slip])
    assert list(as_listed(load(folder))) != listed()
