"""The judgement of all flows at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from assistant.checking.branches import branch_faults
from assistant.checking.dimensions import dimension_faults
from assistant.checking.facts import fact_faults, table_faults
from assistant.checking.flows import Calculation, Flows, opened
from assistant.checking.leads import Ground, watched
from assistant.checking.names import name_faults
from assistant.checking.needs import hazard_faults, lacking, never_proposed, passed_over, unguarded
from assistant.checking.readings import reading_faults
from assistant.checking.roads import Roads, roads_of
from assistant.checking.ways_out import endless, trapped, unreached
from assistant.checking.words import word_faults
from assistant.flow.graph import compiled, facts_set
from assistant.flowfile.findings import Finding, in_order

HARMLESS = frozenset({"not_asked_here", "card_lacks_outcome", "falls_through", "not_a_member"})
"""Faults of names and branches with which the roads can be walked all the same."""


def check(folder: Path, calculations: Mapping[str, Calculation]) -> list[Finding]:
    """Every fault of meaning in flows that have passed the gate, sorted by file and line.

    The roads of the jobs are walked only where every name and branch leads somewhere, and texts are
    read only where the facts are sound: what rests on a fault would only repeat it.
    """
    flows = opened(folder, calculations)
    joints = [*name_faults(flows), *branch_faults(flows)]
    facts = [*fact_faults(flows), *table_faults(flows)]
    found = [*joints, *facts, *word_faults(flows), *hazard_faults(flows), *dimension_faults(flows)]
    if not facts:
        found += reading_faults(flows)
    if all(each.code in HARMLESS for each in joints) and not facts:
        found += road_faults(flows)
    return in_order(found)


def road_faults(flows: Flows) -> Iterator[Finding]:
    """What is wrong on the roads of the jobs."""
    jobs = [roads_of(ground_of(flows, job)) for job in flows.library.jobs]
    yield from unreached(flows, jobs)
    for roads in jobs:
        yield from job_faults(flows, roads)


def ground_of(flows: Flows, job: str) -> Ground:
    """A job as the walk of the checker sees it."""
    graph, cautions = compiled(flows.library, job, facts_set(flows.calculations)), flows.library.cautions
    return Ground(graph, cautions, flows.calculations, frozenset(watched(graph, cautions)))


def job_faults(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """What is wrong on the roads of one job."""
    for judge in (trapped, endless, lacking, passed_over, never_proposed, unguarded):
        yield from judge(flows, roads)
