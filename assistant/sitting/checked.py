"""How the steps of a job were checked before anybody talked to them, told to who asks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from assistant.dialogue.job import Job
from assistant.dialogue.messages import Say
from assistant.dialogue.wording import say
from assistant.flow.graph import shape_of


def how_checked(job: Job, proof: Mapping[str, Any]) -> Say:
    """What the check found of the job in use, from what shipped; else that it was checked here."""
    return Say("\n".join(_lines(job, proof, shape_of(job.graph))))


def _lines(job: Job, proof: Mapping[str, Any], flow: str) -> Iterator[str]:
    yield say(job, "checked.title", title=job.graph.title)
    if proof.get("flow") != flow:
        yield say(job, "checked.here", flow=flow)
        yield say(job, "checked.limits")
        return
    mutants = proof["mutants"]
    told = {key: str(value) for key, value in {**proof, **mutants}.items()} | {"flow": flow}
    for line in ("reached", "longest", "unknown", "sums", "cautions"):
        yield say(job, f"checked.{line}", **told)
    if mutants:
        line = "found" if mutants["flows"].get(job.graph.job) == flow else "found_before"
        yield say(job, f"checked.{line}", **told)
    yield say(job, "checked.mark", **told)
    yield say(job, "checked.limits")
