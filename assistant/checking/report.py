"""What sound flows hold, as data: what each job takes of a person, the cautions, the hashes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.check import Judged, ground_of
from assistant.checking.flows import Flows, opened
from assistant.checking.prompts import farthest, longest, usual
from assistant.checking.roads import Roads
from assistant.checking.shipped import shipped_mutants
from assistant.flow.graph import shape_of, words_of
from assistant.flow.tools import tools_for
from assistant.flowfile.findings import Finding, line_for, sentences

FORMAT = 1
PROVEN = ("usual", "longest", "farthest", "places", "flow")


def report(judged: Judged) -> dict[str, Any]:
    """The report on flows that were found sound."""
    flows = judged.flows
    return {
        "format": FORMAT,
        "jobs": [_job(flows, name, roads) for name, roads in judged.roads.items()],
        "cautions": [_caution(flows, name) for name in flows.library.cautions],
        "words": words_of(flows.library),
        "mutants": shipped_mutants(flows.folder),
    }


def proven(told: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """What ships of each job out of the report: how it was found, and the hash of its flow."""
    return {job["name"]: {key: job[key] for key in PROVEN} for job in told["jobs"]}


def faults_told(found: Iterable[Finding]) -> dict[str, Any]:
    """The faults of flows as data: code, file, line, step, the sentence, and what it names."""
    said = sentences()
    return {
        "format": FORMAT,
        "faults": [
            {
                "code": each.code,
                "file": each.file,
                "line": each.line,
                "step": each.step,
                "told": line_for(each, said),
                "about": dict(each.about),
            }
            for each in found
        ],
    }


def usual_prompts(folder: Path) -> dict[str, int]:
    """The usual number of prompts of each job in a folder of sound flows."""
    flows = opened(folder, CATALOGUE)
    return {job: len(usual(ground_of(flows, job)).prompts) for job in flows.library.jobs}


def _job(flows: Flows, name: str, roads: Roads) -> dict[str, Any]:
    graph, nodes = roads.ground.graph, roads.ground.graph.nodes
    return {
        "name": name,
        "title": graph.title,
        "takes": flows.library.jobs[name].takes,
        "usual": len(usual(roads.ground).prompts),
        "longest": longest(roads),
        "farthest": farthest(roads),
        "bring": tools_for(graph, flows.library),
        "places": len(nodes),
        "edges": sum(len(node.next) for node in nodes.values()),
        "flow": shape_of(graph),
    }


def _caution(flows: Flows, name: str) -> dict[str, Any]:
    exposed = [
        f"{part.name}/{step.id}"
        for part in flows.parts()
        for step in part.steps
        if name in step.exposes
    ]
    return {"name": name, "grade": flows.library.cautions[name].grade, "guards": exposed}
