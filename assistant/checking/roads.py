"""Every road through a job at once: the places it can come to, and what is known there.

A state is a place with the choices that are still looked at; without these a second split on the
same choice would be refused wrongly. Of the names of a choice that nothing tells apart any more
one stands for all: that keeps the states few.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from heapq import heappop, heappush

from assistant.checking.knots import finished
from assistant.checking.knowledge import Knowledge
from assistant.checking.leads import Ground, hazards, leads
from assistant.flow.graph import MISSING, NEXT, Node


@dataclass(frozen=True, slots=True, order=True)
class State:
    """A place, and the choices made on the way that are looked at from here on."""

    place: str
    choices: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Edge:
    """One way on: its outcome, where it leads, and what is known on it."""

    outcome: str
    to: State
    known: Knowledge


@dataclass(frozen=True, slots=True)
class Roads:
    """Every state of a job with what is known there, and the edges between them."""

    ground: Ground
    start: State
    known: Mapping[State, Knowledge]
    edges: Mapping[State, tuple[Edge, ...]]

    def node(self, state: State) -> Node:
        """The node at the place of a state."""
        return self.ground.graph[state.place]

    def onward(self) -> dict[State, list[State]]:
        """Where each state leads."""
        return {state: [edge.to for edge in edges] for state, edges in self.edges.items()}

    def ends(self) -> list[State]:
        """The states in which the job has ended."""
        nodes = self.ground.graph.nodes
        return [s for s in self.known if nodes[s.place].step.kind == "finish" and not self.edges[s]]


@dataclass(frozen=True, slots=True)
class Look:
    """A choice, and names of it that are one to what looks at it."""

    fact: str
    names: frozenset[str]
    decides: bool = True
    """False for a question: it goes by a choice that is kept, but is no reason to keep it."""


Standing = dict[str, dict[str, str]]
"""By choice: each of its names, with the name that stands for it."""


def roads_of(ground: Ground) -> Roads:
    """Walk every road until nothing new is learned."""
    looked_at = looks(ground)
    start = State(ground.graph.start)
    known = {start: Knowledge()}
    onward = {place: node.next.values() for place, node in ground.graph.nodes.items()}
    # a place is best looked at after those that lead to it
    turn = {place: at for at, place in enumerate(reversed(finished(onward)))}
    waiting = [(0, start)]
    left = {start}
    edges: dict[State, tuple[Edge, ...]] = {}
    while waiting:
        _, state = heappop(waiting)
        left.discard(state)
        edges[state] = tuple(edges_from(ground, looked_at, state, known[state]))
        for edge in edges[state]:
            old = known.get(edge.to)
            new = old.joined(edge.known) if old else edge.known
            if old is None or new != old:
                known[edge.to] = new
                if edge.to not in left:
                    left.add(edge.to)
                    heappush(waiting, (turn[edge.to.place], edge.to))
    return Roads(ground, start, known, edges)


Wanted = Callable[[State, Knowledge], bool]


def road_to(roads: Roads, wanted: Wanted, tell_apart: Callable[[Knowledge], object]) -> str:
    """The answers and outcomes of the shortest single road to a state that is wanted.

    `tell_apart` gives what two visits of one state may differ in. A dash where no branch is met.
    """
    ground, looked_at = roads.ground, looks(roads.ground)
    seen = {(roads.start, tell_apart(Knowledge()))}
    first: tuple[State, Knowledge, tuple[str, ...]] = (roads.start, Knowledge(), ())
    waiting = deque([first])
    while waiting:
        state, known, said = waiting.popleft()
        if wanted(state, known):
            return ", ".join(said) or "-"
        for edge in edges_from(ground, looked_at, state, known):
            mark = (edge.to, tell_apart(edge.known))
            if mark not in seen:
                seen.add(mark)
                chosen = edge.outcome not in {NEXT, MISSING}
                step = (f"{state.place} = {edge.outcome}",) if chosen else ()
                waiting.append((edge.to, edge.known, (*said, *step)))
    return "-"


def edges_from(
    ground: Ground, looked_at: Mapping[str, Standing], state: State, known: Knowledge
) -> list[Edge]:
    """Every way on from a state with what is known there."""
    found = []
    node = ground.graph[state.place]
    for outcome, after in leads(ground, node, known):
        place = node.next[outcome]
        standing = looked_at[place]
        made = after.choices.items()
        kept = {fact: standing[fact].get(name, name) for fact, name in made if fact in standing}
        there = Knowledge(after.held, kept, after.guarded, after.exposed)
        found.append(Edge(outcome, State(place, tuple(sorted(kept.items()))), there))
    return found


def looks(ground: Ground) -> dict[str, Standing]:
    """The choices that some place reached from each place looks at, and the names told apart."""
    nodes = ground.graph.nodes
    found = {place: {*_looks(ground, node), *_asks(ground, node)} for place, node in nodes.items()}
    above: dict[str, list[str]] = {place: [] for place in nodes}
    for place, node in nodes.items():
        for to in node.next.values():
            above[to].append(place)
    waiting = deque(nodes)
    while waiting:
        place = waiting.popleft()
        for before in above[place]:
            if not found[place] <= found[before]:
                found[before] |= found[place]
                waiting.append(before)
    return {place: _standing(ground, each) for place, each in found.items()}


def _looks(ground: Ground, node: Node) -> Iterator[Look]:
    """What a split or a condition of a caution or of a row looks at."""
    conditions = [ground.cautions[hazard].only for hazard in hazards(node.step)]
    if node.step.kind == "split":
        conditions += [{node.facts[0]: (name,)} for name in node.next]
    for fact in node.facts if node.step.kind == "ask" else ():
        home = ground.graph.home(fact)
        conditions.append(home.only.get(fact, {}) if home else {})
    for condition in conditions:
        for fact, names in condition.items():
            if fact in ground.watched:
                yield Look(fact, frozenset(names))


def _asks(ground: Ground, node: Node) -> Iterator[Look]:
    """What a question goes by where its choice is known already: no reason to keep the choice."""
    for fact in node.facts if node.step.kind == "ask" else ():
        at = f"{fact}_kind" if ground.graph.facts[fact].variants else fact
        if at in ground.watched:
            for name in node.next:
                yield Look(at, frozenset((name,)), decides=False)


def _standing(ground: Ground, found: set[Look]) -> Standing:
    """Each choice kept, with the first of the names that are alike in all that looks at it."""
    standing: Standing = {}
    for fact in {look.fact for look in found if look.decides}:
        groups = [look.names for look in found if look.fact == fact]
        first: dict[tuple[bool, ...], str] = {}
        standing[fact] = {
            name: first.setdefault(tuple(name in group for group in groups), name)
            for name in ground.names_of(fact)
        }
    return standing
