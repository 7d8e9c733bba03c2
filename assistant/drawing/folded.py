"""A graph with its parts folded: what lies in a part is one place of the drawing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from assistant.flow.graph import NEXT, Graph, Node


@dataclass(frozen=True, slots=True)
class Folded:
    """The places of a drawing, and its edges: from where, the outcome, to where.

    A place is the path below the part that is drawn. `nodes` holds the step at it; a part that
    finds out what a person does not know has no step of its own.
    """

    places: tuple[str, ...]
    nodes: dict[str, Node]
    edges: tuple[tuple[str, str, str], ...]


def folded(graph: Graph, part: str = "") -> Folded:
    """Fold a job, or what lies below the path of a part in it.

    Edges that stay inside of one place, or lead out of the drawing, are left out.
    """
    inside = [node for node in graph.nodes.values() if _below(node.part, part)]
    places = dict.fromkeys(_place(node.place, part) for node in inside)
    nodes = {_place(n.place, part): n for n in inside if n.part == part}
    edges = dict.fromkeys(edge for node in inside for edge in _edges(graph, node, part))
    return Folded(tuple(places), nodes, tuple(edges))


def path_of(graph: Graph, part: str) -> str | None:
    """Where a job uses a part first, or finds something out by it."""
    for node in graph.nodes.values():
        if node.step.kind == "use" and node.step.what[0] == part:
            return node.place
        if node.part.endswith(f"?{part}"):
            return node.part
    return None


def _edges(graph: Graph, node: Node, part: str) -> Iterator[tuple[str, str, str]]:
    here = _place(node.place, part)
    for outcome, to in node.next.items():
        target = graph[to]
        there = _place(to, part) if _below(target.part, part) else ""
        into = here == there and target.part != part
        if there and not into:
            named = node.step.what[0] if node.step.kind == "finish" else outcome
            yield here, "" if named == NEXT else named, there


def _below(place: str, part: str) -> bool:
    return not part or place == part or place.startswith(f"{part}/")


def _place(place: str, part: str) -> str:
    return place.removeprefix(f"{part}/" if part else "").partition("/")[0]
