"""Pairs of outcomes that follow each other in a part or a job.

Parts are folded, steps of one way are passed. Told apart are what can follow by the shape of
a flow, what the checker finds a road for, and what was
walked.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache

from assistant.checking.roads import Roads, State
from assistant.flow.graph import MISSING, Graph, Node
from tests.stories.play import library

Outcome = tuple[str, str, str]
"""The file of a part, a step, how the step came out; a used part comes out as it ended."""
Pair = tuple[Outcome, Outcome]


@cache
def files() -> Mapping[int, str]:
    """The file of each step, by the identity of the step."""
    parts = (*library().jobs.values(), *library().parts.values())
    return {id(step): part.file for part in parts for step in part.steps}


def named(node: Node, outcome: str) -> Outcome:
    """An outcome of a step, whichever use of its part it is in."""
    return files()[id(node.step)], node.step.id, outcome


class Folded:
    """A compiled job, seen part by part: where each outcome of a step leads inside its own part."""

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.ends: dict[str, list[Node]] = {}
        for node in graph.nodes.values():
            if node.step.kind == "finish":
                self.ends.setdefault(node.part, []).append(node)
        self.ways = {place: dict(self._ways(node)) for place, node in graph.nodes.items()}

    def _ways(self, node: Node) -> Iterator[tuple[str, str]]:
        for outcome, to in node.next.items():
            if node.step.kind == "use" and outcome == MISSING:
                yield from ((e.step.what[0], e.next["next"]) for e in self.ends[node.place])
            elif node.step.kind != "finish":
                yield outcome, node.place if outcome.startswith("unknown:") else to

    def endings(self) -> Iterator[Outcome]:
        """How each used part may end; one that is passed over may come out under the same name."""
        for place, ends in self.ends.items():
            if place in self.graph.nodes:
                yield from (named(self.graph[place], each.step.what[0]) for each in ends)

    def decides(self, place: str) -> bool:
        """Whether a step has more than one way on."""
        return len(self.ways[place]) > 1

    def pairs(self) -> Iterator[Pair]:
        """Every pair that can follow each other by the shape of the flow."""
        for place, ways in self.ways.items():
            for outcome, to in ways.items() if self.decides(place) else ():
                after = self.next_decision(to)
                for then in self.ways[after] if after else ():
                    yield named(self.graph[place], outcome), named(self.graph[after], then)

    def next_decision(self, place: str) -> str:
        """The next step with more than one way, empty at the end of the part."""
        while not self.decides(place):
            if not self.ways[place]:
                return ""
            place = next(iter(self.ways[place].values()))
        return place

    # -- what was walked --------------------------------------------------------------------

    def walked(
        self, trail: Iterable[tuple[str, str]], last: dict[str, Outcome | None]
    ) -> set[Pair]:
        """The pairs of a conversation, from the places and outcomes that it came through.

        `last` comes to hold the last outcome in each part that was entered.
        """
        found: set[Pair] = set()
        for node, outcome in self.folded(trail, last):
            if self.decides(node.place):
                before, now = last.get(node.part), named(node, outcome)
                if before:
                    found.add((before, now))
                last[node.part] = now
        return found

    def folded(
        self, trail: Iterable[tuple[str, str]], last: dict[str, Outcome | None]
    ) -> Iterator[tuple[Node, str]]:
        """The steps of a trail, a used part as one step that comes out as the part ended."""
        for place, outcome in trail:
            node = self.graph[place]
            if node.step.kind == "use" and outcome == MISSING:
                last[place] = None
            elif node.step.kind == "finish":
                if node.part in self.graph.nodes:
                    yield self.graph[node.part], node.step.what[0]
            else:
                if outcome.startswith("unknown:"):
                    last[self.graph[node.next[outcome]].part] = None
                yield node, outcome

    # -- what the checker finds a road for --------------------------------------------------

    def on_roads(self, roads: Roads) -> set[Pair]:
        """The pairs that lie on some road of the checker."""
        found: set[Pair] = set()
        outcomes = {s: set(self.comes_out(roads, s)) for s in roads.known if self.decides(s.place)}
        follows: dict[tuple[State, str], set[Outcome]] = {}
        for state, after in outcomes.items():
            for outcome, to in after:
                mark = (to, roads.node(state).part)
                if mark not in follows:
                    follows[mark] = set(self.then(roads, *mark, outcomes))
                first = named(self.graph[state.place], outcome)
                found |= {(first, then) for then in follows[mark]}
        return found

    def comes_out(self, roads: Roads, state: State) -> Iterator[tuple[str, State]]:
        """Each outcome of the step at a state, a used part as a whole, and the state after it."""
        for edge in roads.edges[state]:
            if roads.node(state).step.kind == "use" and edge.outcome == MISSING:
                yield from self.through(roads, edge.to, state.place)
            elif edge.outcome.startswith("unknown:"):
                back = self.through(roads, edge.to, roads.node(edge.to).part)
                yield from ((edge.outcome, after) for _, after in back)
            else:
                yield edge.outcome, edge.to

    def through(self, roads: Roads, start: State, part: str) -> Iterator[tuple[str, State]]:
        """The ends of a part entered at a state, with the states after them."""
        seen, waiting = {start}, [start]
        while waiting:
            state = waiting.pop()
            node = roads.node(state)
            for edge in roads.edges[state]:
                if node.step.kind == "finish" and node.part == part:
                    yield node.step.what[0], edge.to
                elif edge.to not in seen:
                    seen.add(edge.to)
                    waiting.append(edge.to)

    def then(
        self,
        roads: Roads,
        start: State,
        part: str,
        outcomes: Mapping[State, set[tuple[str, State]]],
    ) -> Iterator[Outcome]:
        """What the next step with more than one way may come out as, in the same part."""
        seen, waiting = {start}, [start]
        while waiting:
            state = waiting.pop()
            node = roads.node(state)
            if node.part == part and self.decides(state.place):
                here = self.graph[state.place]
                yield from (named(here, outcome) for outcome, _ in outcomes[state])
                continue
            if node.part == part and node.step.kind == "finish":
                continue
            for edge in roads.edges[state]:
                if edge.to not in seen:
                    seen.add(edge.to)
                    waiting.append(edge.to)
