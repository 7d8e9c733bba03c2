"""Every outcome of every step that ships: which a story walks, and which none can, and why."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from tests.histories.pairs import Outcome, Pair, named
from tests.stories.play import job_named, library, played
from tests.stories.story import stories

Step = tuple[str, str]
"""The file of a part and a step in it."""


@dataclass(frozen=True)
class Unwalked:
    """Outcomes that nobody comes to; `by` tells who proves it, empty where the reason must do."""

    why: str
    steps: tuple[Outcome, ...]
    by: str = ""


@cache
def listed() -> dict[str, list[dict[str, Any]]]:
    """The list of what is never walked."""
    return tomllib.loads((Path(__file__).parent / "not_walked.toml").read_text(encoding="utf-8"))


def unwalked() -> list[Unwalked]:
    """The outcomes listed as never walked."""
    return [
        Unwalked(each["why"], tuple(map(outcome, each["steps"])), each.get("by", ""))
        for each in listed()["edges"]
    ]


def unwalked_pairs() -> list[Pair]:
    """The pairs listed as never walked, though each of their outcomes is."""
    texts = [text for each in listed().get("pairs", []) for text in each["pairs"]]
    return [(outcome(one), outcome(then)) for one, _, then in (t.partition(" > ") for t in texts)]


def outcome(text: str) -> Outcome:
    """An outcome as it is listed: the file, the step, how it came out."""
    file, step, came = text.split(" ", 2)
    return file, step, came


def every() -> set[Outcome]:
    """Every outcome of every step of every job, whichever use of its part it is in."""
    graphs = [job_named(name).graph for name in library().jobs]
    return {named(n, came) for g in graphs for n in g.nodes.values() for came in n.next}


def every_step() -> set[Step]:
    """Every step of every job and part, finishes included."""
    parts = (*library().jobs.values(), *library().parts.values())
    return {(part.file, step.id) for part in parts for step in part.steps}


def steps_told() -> set[Step]:
    """Every step that some story comes to."""
    return {of_file(name, place) for name, place in places_told()}


def places_told() -> set[tuple[str, str]]:
    """Every place of a job that some story comes to."""
    return {
        (story.job, place)
        for story in stories()
        for state in played(story).states
        for place in state.situation.visits
    }


def of_file(job: str, place: str) -> Step:
    """The step at a place, whichever use of its part it is in."""
    file, step, _ = named(job_named(job).graph[place], "")
    return file, step


def told() -> set[Outcome]:
    """Every outcome that some story walks."""
    found: set[Outcome] = set()
    for story in stories():
        here = played(story)
        trail = {step for state in here.states for step in state.situation.trail}
        found |= {named(here.sitting.job.graph[place], came) for place, came in trail}
    return found
