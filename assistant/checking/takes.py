"""The facts that a job takes, for those who write a facts file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from assistant.dialogue.job import Job
from assistant.flow.model import Fact
from assistant.quantities.kinds import KINDS


def facts_taken(job: Job) -> list[dict[str, Any]]:
    """Each fact that a job takes, in the order of its roads; limits last.

    `needed` says that a run without a person ends where the fact is not given.
    """
    asked: dict[str, bool] = {}
    for name, needed in asked_facts(job):
        asked[name] = asked.get(name, False) or needed
    limits = [n for n, fact in job.graph.facts.items() if fact.stands_at and fact.names]
    return [one(job, n, needed=asked.get(n, False)) for n in dict.fromkeys([*asked, *limits])]


def asked_facts(job: Job) -> Iterator[tuple[str, bool]]:
    """The facts of every question, and whether it needs each; a one-of fact with its variants."""
    for node in job.graph.nodes.values():
        for name in node.facts if node.step.kind == "ask" else ():
            fact = job.fact(name)
            if not (fact.ask or fact.names):
                continue  # only a card lends it
            proposed = job.graph.declared.get(name, name) in node.step.propose
            yield name, not (proposed or node.step.quiet or can_do_without(fact))
            yield from ((variant, False) for variant in fact.variants.values())


def can_do_without(fact: Fact) -> bool:
    """Whether a guess or going without stands in for the fact."""
    return fact.unknown is not None and fact.unknown.way in {"guess", "go_without"}


def one(job: Job, name: str, *, needed: bool) -> dict[str, Any]:
    """One fact as data: how it is written, what it may be, and what not knowing it leads to."""
    fact = job.fact(name)
    return {
        "name": name,
        "kind": fact.kind,
        "unit": fact.us or (KINDS[fact.kind].json_unit if fact.kind in KINDS else ""),
        "choices": [choice.name for choice in fact.choices],
        "needed": needed,
        "example": fact.choices[0].name if fact.choices else fact.example or fact.stands_at,
        "unknown": fact.unknown.way if fact.unknown else "",
    }
