"""Which calculation made each worked-out fact of a conversation, so that a card proves itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from assistant.dialogue.job import Job, State
from assistant.flow.graph import MISSING, Node
from assistant.sitting.values import Data, facts_of


def makers(job: Job, state: State) -> dict[str, Node]:
    """The step that worked out each fact; a fact that was carried over keeps its maker."""
    made: dict[str, Node] = {}
    for place, outcome in state.situation.trail:
        node = job.graph[place]
        if node.step.kind == "work_out":
            made |= dict.fromkeys(outputs(job, node), node)
        elif node.step.kind == "use" and outcome == MISSING:
            carried = node.step.carry.items()
            made |= {node.real(name): made[source] for name, source in carried if source in made}
    known = state.situation.known
    return {name: node for name, node in made.items() if name in known and known[name].inputs}


def outputs(job: Job, node: Node) -> Iterator[str]:
    """Every fact that a step may work out, under its real name."""
    for facts in job.calculations[node.step.what[0]].outcomes.values():
        yield from (node.real(node.step.sets.get(name, name)) for name in facts)
    if node.step.records:
        yield node.real(node.step.records)


def card_facts(job: Job, state: State) -> Data:
    """Every fact that is known, as a card keeps it: what was worked out names what made it.

    `by` is the calculation and `revision` its revision.
    """
    made = {name: node.step.what[0] for name, node in makers(job, state).items()}
    facts = facts_of(job, state)
    return {name: {**fact, **stamp(made.get(name))} for name, fact in facts.items()}


def stamp(calculation: str | None) -> Mapping[str, str | int]:
    """What a card says of a calculation; nothing where there was none."""
    if calculation is None:
        return {}
    return {"by": calculation, "revision": revision_of(calculation)}


def revision_of(calculation: str) -> int:
    """The revision of a calculation today, 0 for one that is not there any more."""
    from assistant.calc.catalogue import CATALOGUE

    return CATALOGUE[calculation].revision if calculation in CATALOGUE else 0
