"""A folded job as a Mermaid flow chart."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from assistant.drawing.folded import Folded
from assistant.flow.graph import Node
from assistant.flow.model import Caution

SHAPES = {
    "ask": '["{}"]',
    "work_out": '[/"{}"/]',
    "say": '("{}")',
    "caution": '{{{{"{}"}}}}',
    "recall": '[("{}")]',
    "use": '[["{}"]]',
    "split": '{{"{}"}}',
    "finish": '(["{}"])',
}
"""How each kind of step looks: a caution has six sides, a part double ones."""


def mermaid(drawing: Folded, cautions: Mapping[str, Caution]) -> str:
    """The text of the chart: every place on a line, then every edge with its outcome."""
    return "\n".join(["flowchart TD", *_places(drawing, cautions), *_arrows(drawing)])


def _places(drawing: Folded, cautions: Mapping[str, Caution]) -> Iterator[str]:
    for place in drawing.places:
        node = drawing.nodes.get(place)
        kind = node.step.kind if node else "use"
        yield f"  {name_of(place)}{SHAPES[kind].format(label(place, node, cautions))}"


def _arrows(drawing: Folded) -> Iterator[str]:
    """Edges with the same ends share an arrow."""
    shared: dict[tuple[str, str], list[str]] = {}
    for here, outcome, there in drawing.edges:
        shared.setdefault((here, there), []).append(outcome)
    for (here, there), outcomes in shared.items():
        said = ", ".join(filter(None, outcomes))
        arrow = f'-->|"{said}"|' if said else "-->"
        yield f"  {name_of(here)} {arrow} {name_of(there)}"


def name_of(place: str) -> str:
    """A name that Mermaid takes for no word of its own, such as "end"."""
    return "at_" + re.sub(r"\W", "__", place)


def label(place: str, node: Node | None, cautions: Mapping[str, Caution]) -> str:
    """The id of the step, its kind, and what it is about: of a caution with its grade.

    A recall is about what its cards must match; what they lend would fill the picture.
    """
    if node is None:
        return place.replace("?", ": use ")
    step = node.step
    about = ", ".join(step.match if step.kind == "recall" else step.what)
    grade = f", {cautions[step.what[0]].grade}" if step.kind == "caution" else ""
    return " ".join(filter(None, (f"{place}:", step.kind, f"{about}{grade}")))
