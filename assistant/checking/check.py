"""The judgement of all flows at once."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from assistant.checking.branches import branch_faults
from assistant.checking.dimensions import dimension_faults
from assistant.checking.facts import fact_faults, table_faults
from assistant.checking.flows import Calculation, Flows, opened
from assistant.checking.holes import hole_faults
from assistant.checking.leads import Ground, hazards
from assistant.checking.names import name_faults
from assistant.checking.needs import (
    hazard_faults,
    lacking,
    never_proposed,
    passed_over,
    unguarded,
    unled,
)
from assistant.checking.plain import plain_faults
from assistant.checking.prompts import too_far
from assistant.checking.questions import question_faults
from assistant.checking.readings import reading_faults
from assistant.checking.roads import Roads, roads_of
from assistant.checking.tools import tool_faults
from assistant.checking.unused import unused_faults
from assistant.checking.ways_out import endless, trapped, unreached
from assistant.checking.words import word_faults
from assistant.flow.graph import Graph, compiled, facts_set
from assistant.flow.model import Caution
from assistant.flowfile.findings import Finding, in_order

NO_ROADS = frozenset(
    {
        "unknown_fact",
        "unknown_calculation",
        "unknown_caution",
        "unknown_part",
        "unknown_step",
        "unknown_reads",
        "unknown_sets",
        "step_twice",
        "part_uses_itself",
        "branch_missing",
        "branch_extra",
        "no_next",
        "no_finish",
        "choices_or_not",
        "variants_or_not",
        "variants_without_kind",
    }
)
"""With one of these a road leads nowhere, so that no road can be walked."""

NO_READING = frozenset(
    {
        "fact_lacks",
        "unknown_fact",
        "unknown_kind",
        "unknown_table",
        "not_spelled",
        "choices_or_not",
        "variants_or_not",
    }
)
"""With one of these a question does not know what it can take, so that no text can be read."""


@dataclass(frozen=True, slots=True)
class Judged:
    """Flows with their faults; the roads of each job where nothing stood in the way of walking."""

    flows: Flows
    faults: list[Finding]
    roads: Mapping[str, Roads]


def check(folder: Path, calculations: Mapping[str, Calculation]) -> list[Finding]:
    """Every fault of meaning in flows that have passed the gate, sorted by file and line."""
    return judged(folder, calculations).faults


@contextmanager
def uncollected() -> Iterator[None]:
    """No garbage is looked for meanwhile: a walk makes much to keep and no rings to be found.

    Python would look through all of it again and again, which is half the time of a walk.
    """
    before = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if before:
            gc.enable()


@uncollected()
def judged(folder: Path, calculations: Mapping[str, Calculation]) -> Judged:
    """Judge flows that have passed the gate.

    The roads of the jobs are walked, and texts read, only where nothing stands in the way: what
    rests on a fault would only repeat it.
    """
    flows = opened(folder, calculations)
    found = [each for judge in JUDGES for each in judge(flows)]
    codes = {each.code for each in found}
    if not codes & NO_READING:
        found += reading_faults(flows)
    if codes & NO_ROADS:
        return Judged(flows, in_order(found), {})
    roads = {job: roads_of(ground_of(flows, job)) for job in flows.library.jobs}
    found += road_faults(flows, [*roads.values()])
    return Judged(flows, in_order(found), roads)


JUDGES = (
    name_faults,
    hole_faults,
    branch_faults,
    fact_faults,
    table_faults,
    word_faults,
    hazard_faults,
    dimension_faults,
    question_faults,
    tool_faults,
    unused_faults,
    plain_faults,
)


def road_faults(flows: Flows, jobs: Sequence[Roads]) -> Iterator[Finding]:
    """What is wrong on the roads of the jobs."""
    yield from unreached(flows, jobs)
    for roads in jobs:
        yield from job_faults(flows, roads)


def ground_of(flows: Flows, job: str) -> Ground:
    """A job as the walk of the checker sees it."""
    graph, cautions = (
        compiled(flows.library, job, facts_set(flows.calculations)),
        flows.library.cautions,
    )
    return Ground(graph, cautions, flows.calculations, frozenset(watched(graph, cautions)))


def watched(graph: Graph, cautions: Mapping[str, Caution]) -> set[str]:
    """The choices that some split, series or caution of a job looks at."""
    found = {node.facts[0] for node in graph.nodes.values() if node.step.kind == "split"}
    for series in graph.series.values():
        found |= {fact for under in series.only.values() for fact in under}
    for node in graph.nodes.values():
        for hazard in hazards(node.step):
            found |= set(cautions[hazard].only)
    return found & graph.facts.keys()


def job_faults(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """What is wrong on the roads of one job."""
    for judge in (
        unled,
        trapped,
        too_far,
        endless,
        lacking,
        passed_over,
        never_proposed,
        unguarded,
    ):
        yield from judge(flows, roads)
