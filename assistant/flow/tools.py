"""What a person should have at hand before a job: named by facts and cautions under `bring`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from assistant.flow.graph import Graph, Node
from assistant.flow.model import Caution, Library

TOOLS = "tools."


def known_tools(words: Mapping[str, str]) -> list[str]:
    """Every tool that can be named, in the order of words.toml."""
    return [name.removeprefix(TOOLS) for name in words if name.startswith(TOOLS)]


def tools_for(graph: Graph, library: Library) -> list[str]:
    """The tools that some road of a job needs, in the order of words.toml.

    Every place counts: the checker finds the places that no road comes to.
    """
    nodes = graph.nodes.values()
    needed = {tool for node in nodes for tool in _needed(graph, library.cautions, node)}
    return [tool for tool in known_tools(library.words) if tool in needed]


def _needed(graph: Graph, cautions: Mapping[str, Caution], node: Node) -> Iterator[str]:
    if node.step.kind == "ask" and not node.step.quiet:
        for name in node.facts:
            yield from graph.facts[name].bring
    if node.step.kind == "caution":
        yield from cautions[node.step.what[0]].bring
