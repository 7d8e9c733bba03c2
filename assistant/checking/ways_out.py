"""Every step can be reached, every step has a way to a finish, and no loop runs by itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from assistant.checking.flows import Flows
from assistant.checking.knots import knots, turned_round
from assistant.checking.roads import Roads, State
from assistant.flow.model import Step
from assistant.flowfile.findings import Finding


def unreached(flows: Flows, jobs: Iterable[Roads]) -> Iterator[Finding]:
    """Steps that no road of any job comes to, and parts that no job uses."""
    laid, reached = dict[int, Step](), set[int]()
    for roads in jobs:
        nodes = roads.ground.graph.nodes
        laid |= {id(node.step): node.step for node in nodes.values()}
        reached |= {id(nodes[state.place].step) for state in roads.known}
    for number, step in laid.items():
        if number not in reached:
            yield flows.in_step("unreachable", step)
    for part in flows.library.parts.values():
        if not any(id(step) in laid for step in part.steps):
            yield flows.in_file("unused_part", (part.file, "part"), part=part.name)


def trapped(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """Steps from which no road leads to a finish of the job."""
    above = turned_round(roads.onward())
    front = roads.ends()
    out = set(front)
    while front:
        new = [state for state in above[front.pop()] if state not in out]
        out.update(new)
        front += new
    for state in roads.known:
        if state not in out:
            yield flows.in_step("no_way_out", roads.node(state).step)


def endless(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """Loops in which the machine never waits: it would turn in them for ever."""
    onward = {
        state: [edge.to for edge in edges if not is_typed(edge.outcome)]
        for state, edges in roads.edges.items()
        if not _waits(roads, state)
    }
    onward = {state: [to for to in found if to in onward] for state, found in onward.items()}
    for loop in loops(onward):
        steps = {id(step): step for step in (roads.node(state).step for state in loop)}
        names = ", ".join(sorted({step.id for step in steps.values()}))
        first = min(steps.values(), key=lambda step: flows.sites[id(step)])
        yield flows.in_step("loop_without_question", first, steps=names)


def is_typed(outcome: str) -> bool:
    """Whether an edge is taken only by what a person types anew."""
    return outcome.startswith(("leave:", "unknown:"))


def _waits(roads: Roads, state: State) -> bool:
    """Whether the machine is sure to wait here: a member of a row, an `again`, a list to be done.

    A caution is no such place: once acknowledged it shows its short line and goes on.
    """
    node, known = roads.node(state), roads.known[state]
    if node.step.kind == "say":
        return node.step.wait
    if node.step.kind != "ask" or node.step.quiet:
        return False
    homes = {fact: roads.ground.graph.home(fact) for fact in node.facts}
    member = any(home and known.counts(home.only, fact) for fact, home in homes.items())
    return node.step.again or member


def loops(onward: Mapping[State, list[State]]) -> Iterator[list[State]]:
    """The knots of a graph that hold a loop."""
    return (knot for knot in knots(onward) if len(knot) > 1 or knot[0] in onward[knot[0]])
