"""Every road through a job at once: the places it can come to, and what is known there.

A state is a place with the choices that are still looked at; without these a second split on the
same choice would be refused wrongly. Of the names of a choice that nothing tells apart any more
one stands for all: that keeps the states few.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from heapq import heappop, heappush

from assistant.checking.knots import finished, turned_round
from assistant.checking.knowledge import Guards, Knowledge, Under
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
    known = {start: begun(ground)}
    # a place is best looked at after those that lead to it
    turn = {place: at for at, place in enumerate(reversed(finished(places_after(ground))))}
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
    apart = told_apart(looked_at)  # or it would name outcomes that its own answers do not have
    first: tuple[State, Knowledge, tuple[str, ...]] = (roads.start, begun(ground), ())
    seen = {(roads.start, tell_apart(first[1]))}
    waiting = deque([first])
    while waiting:
        state, known, said = waiting.popleft()
        if wanted(state_at(state.place, looked_at, known.choices), known):
            return ", ".join(said) or "-"
        for edge in edges_from(ground, apart, state, known):
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
    ways = (
        (name, after)
        for outcome, after in leads(ground, node, known)
        for name in alike(node, looked_at[state.place], known, outcome)
    )
    for outcome, after in ways:
        if outcome not in node.next:
            continue  # told by itself: `needs.unled`
        to = state_at(node.next[outcome], looked_at, after.choices)
        guarded = after.guarded if after.choices == known.choices else excused(ground, known, after)
        there = Knowledge(after.held, dict(to.choices), guarded, after.exposed)
        found.append(Edge(outcome, to, there))
    return found


def state_at(place: str, looked_at: Mapping[str, Standing], choices: Mapping[str, str]) -> State:
    """A place with those of the choices made that are looked at from there, each by what stands."""
    standing = looked_at[place]
    made = choices.items()
    kept = ((fact, standing[fact].get(name, name)) for fact, name in made if fact in standing)
    return State(place, tuple(sorted(kept)))


def begun(ground: Ground) -> Knowledge:
    """What is known at the start: a caution that goes by a choice is not needed before it."""
    conditional = (name for name, caution in ground.cautions.items() if caution.only)
    return Knowledge(guarded=frozenset((name, "") for name in conditional))


def excused(ground: Ground, before: Knowledge, after: Knowledge) -> Guards:
    """The cautions that guard once a choice is made.

    Those that go by the choice are not needed where it says so, and due anew where it does not.
    That is kept instead of the choice, which would keep more states apart.
    """
    guarded = after.guarded
    for name, caution in ground.cautions.items():
        only = caution.only
        if any(f in only and before.choices.get(f) != made for f, made in after.choices.items()):
            guarded = frozenset(each for each in guarded if each[0] != name)
            if not after.holds(only):
                guarded |= {(name, "")}
    return guarded


def alike(node: Node, standing: Standing, known: Knowledge, outcome: str) -> Iterable[str]:
    """The outcomes that one stands for: at a split on a choice made, those that lead as it does."""
    if node.step.kind != "split" or node.facts[0] not in known.choices:
        return (outcome,)
    stands = standing[node.facts[0]]
    return [name for name in node.next if stands[name] == stands[outcome]]


def looks(ground: Ground) -> dict[str, Standing]:
    """The choices that some place reached from each place looks at, and the names told apart."""
    nodes = ground.graph.nodes
    found = {place: {*_looks(ground, node), *_asks(ground, node)} for place, node in nodes.items()}
    made = {place: set(_makes(ground, node)) for place, node in nodes.items()}
    above = turned_round(places_after(ground))
    waiting = deque(nodes)
    while waiting:
        place = waiting.popleft()
        for before in above[place]:
            more = {look for look in found[place] if look.fact not in made[before]}
            if not more <= found[before]:
                found[before] |= more
                waiting.append(before)
    return {place: _standing(ground, each) for place, each in found.items()}


def places_after(ground: Ground) -> dict[str, Iterable[str]]:
    """Where each place leads, whatever is known there."""
    return {place: node.next.values() for place, node in ground.graph.nodes.items()}


def told_apart(looked_at: Mapping[str, Standing]) -> dict[str, Standing]:
    """The same choices, each name standing for itself alone: for a single road."""
    return {
        place: {fact: {name: name for name in names} for fact, names in standing.items()}
        for place, standing in looked_at.items()
    }


def _looks(ground: Ground, node: Node) -> Iterator[Look]:
    """What a split or a condition of a caution or of a row looks at."""
    cautions = [ground.cautions[hazard].only for hazard in hazards(node.step)]
    conditions: list[Under] = [
        only for only in cautions if node.step.kind == "caution" or len(only) > 1
    ]  # else it was excused or came due when its one choice was made
    if node.step.kind == "split":
        fact, ways = node.facts[0], node.next
        conditions += [{fact: [n for n in ways if ways[n] == to]} for to in {*ways.values()}]
    for fact in node.facts if node.step.kind == "ask" else ():
        home = ground.graph.home(fact)
        conditions.append(home.only.get(fact, {}) if home else {})
    for condition in conditions:
        for fact, names in condition.items():
            if fact in ground.watched:
                yield Look(fact, frozenset(names))


def _makes(ground: Ground, node: Node) -> Iterator[str]:
    """The choices that a step makes anew whatever they were before."""
    if node.step.kind == "work_out":
        yield from map(node.result, ground.calculations[node.step.what[0]].results)
    for fact in node.facts if node.step.kind == "ask" else ():
        if node.step.again or ground.graph.home(fact):
            yield ground.choice_of(fact)


def _asks(ground: Ground, node: Node) -> Iterator[Look]:
    """What a question goes by where its choice is known already: no reason to keep the choice."""
    for fact in node.facts if node.step.kind == "ask" else ():
        at = ground.choice_of(fact)
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
