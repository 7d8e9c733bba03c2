"""A strict reader of the Mermaid that we write: what it does not know is an error."""

import re
from dataclasses import dataclass, field

PLACE = re.compile(r'  (?P<name>\w+)(?P<open>[\[({/]+)"(?P<label>[^"]+)"(?P<shut>[\])}/]+)')
ARROW = re.compile(r'  (?P<here>\w+) -->(?:\|"(?P<said>[^"|]+)"\|)? (?P<there>\w+)')
SHUT = {"[": "]", "(": ")", "{": "}", "/": "/"}
RESERVED = {"end", "graph", "subgraph", "class", "click", "style", "default"}


@dataclass
class Chart:
    """Labels and shapes by name, and the edges: from where, the outcome, to where."""

    labels: dict[str, str] = field(default_factory=dict)
    shapes: dict[str, str] = field(default_factory=dict)
    edges: set[tuple[str, str, str]] = field(default_factory=set)


def read_chart(text: str) -> Chart:
    """Read a chart. Raises ValueError for a line that is none of ours, or a name without a line."""
    first, *lines = text.splitlines()
    chart = Chart()
    if first != "flowchart TD":
        raise ValueError(first)
    for line in lines:
        if place := PLACE.fullmatch(line):
            _place(chart, place)
        elif arrow := ARROW.fullmatch(line):
            _arrow(chart, arrow)
        else:
            raise ValueError(line)
    return chart


def _place(chart: Chart, place: re.Match[str]) -> None:
    name, opened, shut = place["name"], place["open"], place["shut"]
    if name in chart.labels or name in RESERVED:
        raise ValueError(name)
    if "".join(SHUT[sign] for sign in reversed(opened)) != shut:
        raise ValueError(place[0])
    chart.labels[name], chart.shapes[name] = place["label"], opened


def _arrow(chart: Chart, arrow: re.Match[str]) -> None:
    for end in (arrow["here"], arrow["there"]):
        if end not in chart.labels:
            raise ValueError(end)
    for outcome in (arrow["said"] or "").split(", "):
        edge = (arrow["here"], outcome, arrow["there"])
        if edge in chart.edges:
            raise ValueError(edge)
        chart.edges.add(edge)
