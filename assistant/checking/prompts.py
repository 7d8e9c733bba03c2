"""How many prompts a job takes, counted on its own roads: what waits for Enter is a prompt.

Usual: one road. At each fork it takes the way that it took least so far, and of these the one that
stands first in the flow file, which is in the order of the commonest conversation. Nothing is told
early, nothing is typed beside the answers, the book is empty; a card that is taken lends all.

Longest: the road that meets the most different prompts. All that lies on one loop can be met, and
is counted once; each further lap would add to it.
"""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from assistant.checking.branches import NOT_KNOWN
from assistant.checking.flows import Flows
from assistant.checking.knots import knots, turned_round
from assistant.checking.knowledge import Knowledge
from assistant.checking.leads import Ground
from assistant.checking.names import TABLE
from assistant.checking.needs import guards
from assistant.checking.roads import Edge, Roads, State, begun, edges_from, looks, told_apart
from assistant.checking.ways_out import is_typed
from assistant.flow.graph import NEXT, TAKEN, Node
from assistant.flowfile.findings import Finding

LAPS = 9
"""So often a way is taken before a word is typed that leads elsewhere: some loops end only so."""

Lent = Mapping[str, str]
"""What a card lends: a fact, and the choice that it stands at where the flow tells it."""


@dataclass(slots=True)
class Usual:
    """The usual road: its places with their outcomes, and the places of its prompts, in order."""

    trail: list[tuple[str, str]] = field(default_factory=list)
    prompts: list[str] = field(default_factory=list)
    finish: str = ""


def usual(ground: Ground) -> Usual:
    """Walk the usual road of a sound job to its finish."""
    looked_at, road, taken = told_apart(looks(ground)), Usual(), Counter[tuple[str, str]]()
    state, known, lent = State(ground.graph.start), begun(ground), dict[str, str]()
    while True:
        node = ground.graph[state.place]
        edge = _usual_edge(
            ground, node, edges_from(ground, looked_at, state, known), (known, lent, taken)
        )
        outcome = edge.outcome if edge else node.step.what[0]
        if waits(ground, node, known, lent) and _has_cards(node, outcome):
            road.prompts.append(state.place)
        if edge is None:
            road.finish = outcome
            return road
        road.trail.append((state.place, outcome))
        taken[state.place, outcome] += 1
        lent |= _lends(node, outcome)
        state, known = edge.to, edge.known


def longest(roads: Roads) -> int:
    """The most different prompts on one road of a job, each loop counted once."""
    return most_met(roads.onward(), _prompts(roads))


def farthest(roads: Roads) -> int:
    """The most prompts that the shortest way from any place to an end has."""
    return max(ways_to(roads.ends(), roads.onward(), _prompts(roads)).values())


def too_far(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """Steps from which the shortest way to an end has more prompts than the job allows."""
    limit = flows.library.jobs[roads.ground.graph.job].ends_within
    if limit is None:
        return
    for state, far in ways_to(roads.ends(), roads.onward(), _prompts(roads)).items():
        if far > limit:
            step = roads.node(state).step
            yield flows.in_step("end_too_far", step, questions=str(far), limit=str(limit))


def ways_to(
    ends: Iterable[State], onward: Mapping[State, Iterable[State]], prompts: Iterable[State]
) -> dict[State, int]:
    """The prompts on the shortest way to an end, its own and the end's with it, from each place."""
    back = turned_round(onward)
    costs, left = frozenset(prompts), dict[State, int]()
    front = deque((int(state in costs), state) for state in sorted(ends, key=costs.__contains__))
    while front:  # nearest first: a step that costs nothing is as near as the one behind it
        so_far, state = front.popleft()
        if state in left:
            continue
        left[state] = so_far
        for before in back[state]:
            if before in costs:
                front.append((so_far + 1, before))
            else:
                front.appendleft((so_far, before))
    return left


def _prompts(roads: Roads) -> dict[State, str]:
    known, ground = roads.known, roads.ground
    return {s: s.place for s in known if waits(ground, roads.node(s), known[s], {})}


def most_met(onward: Mapping[State, Iterable[State]], prompts: Mapping[State, str]) -> int:
    """The most different prompts that one walk over a graph can meet.

    A knot can be walked through whole before it is left, so that its prompts all count. One that is
    met in two knots, on the two sides of a choice, counts twice.
    """
    most, met = dict.fromkeys(onward, 0), [0]
    for knot in knots(onward):
        here = {prompts[state] for state in knot if state in prompts}
        met.append(max(most[state] for state in knot) + len(here))
        for to in (to for state in knot for to in onward[state]):
            most[to] = max(most[to], met[-1])
    return max(met)


def waits(ground: Ground, node: Node, known: Knowledge, lent: Iterable[str]) -> bool:
    """Whether a step waits for Enter when the machine comes to it with what is known."""
    step = node.step
    match step.kind:
        case "ask":
            return not step.quiet and any(_is_due(ground, node, known, f, lent) for f in node.facts)
        case "caution":
            only = ground.cautions[step.what[0]].only
            return known.holds(only) and not guards(known, step.what[0], node)
        case "say":
            return step.wait
        case "recall":
            return not step.quiet
        case "finish":
            return step.card and not node.next  # the review
    return False


def _is_due(ground: Ground, node: Node, known: Knowledge, fact: str, lent: Iterable[str]) -> bool:
    home = ground.graph.home(fact)
    if home:
        return known.counts(home.only, fact)
    if node.step.again:
        return True
    return not (known.is_sure(fact) or fact in known.choices or fact in lent)


# -- the usual way at a fork ---------------------------------------------------------------------

Told = tuple[Knowledge, Lent, Mapping[tuple[str, str], int]]


def _usual_edge(ground: Ground, node: Node, edges: list[Edge], told: Told) -> Edge | None:
    """The way that is taken; none where the job ends."""
    known, lent, taken = told
    if node.step.quiet and node.step.kind == "ask":
        edges = _quietly(ground, node, edges, known, lent)
    named = {lent[fact] for fact in node.facts if lent.get(fact)}
    order = list(node.next)

    def rank(edge: Edge) -> tuple[bool, int, int]:
        out = edge.outcome
        laps = taken.get((node.place, out), 0) + (LAPS if is_typed(out) else 0)
        return out not in named, laps, order.index(out)

    return min(edges, key=rank, default=None)


def _quietly(
    ground: Ground, node: Node, edges: list[Edge], known: Knowledge, lent: Lent
) -> list[Edge]:
    """A quiet question takes what is there: lent, proposed or known; else it stays unknown."""
    there = all(_is_there(ground, node, known, fact, lent) for fact in node.facts)

    def has_value(edge: Edge) -> bool:
        if NEXT in node.next:
            return all(map(edge.known.is_sure, node.facts))
        return edge.outcome != NOT_KNOWN

    return [edge for edge in edges if has_value(edge) == there] or edges


def _is_there(ground: Ground, node: Node, known: Knowledge, fact: str, lent: Lent) -> bool:
    graph = ground.graph
    sources = node.step.propose.get(graph.declared.get(fact, fact), ())
    if any(source.startswith(TABLE) for source in sources):
        return True
    names = (fact, *map(node.real, sources))
    return any(n in lent or known.is_sure(n) or bool(graph.facts[n].stands_at) for n in names)


def _lends(node: Node, outcome: str) -> Lent:
    """What a card lends that is taken: by a person, or by a quiet step."""
    if node.step.kind != "recall" or not (outcome == TAKEN or node.step.quiet):
        return {}
    reads = node.step.reads
    return {
        node.real(name): reads.get(name, "")[1:] if reads.get(name, "")[:1] == "=" else ""
        for name in node.step.what
    }


def _has_cards(node: Node, outcome: str) -> bool:
    """A book that is empty has no cards to offer."""
    return node.step.kind != "recall" or outcome == TAKEN
