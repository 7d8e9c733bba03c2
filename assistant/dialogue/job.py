"""What a conversation is held over: a compiled job, its library and its calculations."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Protocol, get_args

from assistant.dialogue.log import Log
from assistant.dialogue.situation import Situation
from assistant.flow.graph import Graph, compiled, facts_set
from assistant.flow.model import Caution, Fact, Library


class WaysDifferError(Exception):
    """A calculation, and its facts that another way gets otherwise: nothing may rest on them."""


class Calculation(Protocol):
    """A calculation as the machine sees it: what it takes, how it comes out, and the doing."""

    @property
    def parameters(self) -> Mapping[str, str]:
        """Kinds by parameter."""

    @property
    def outcomes(self) -> Mapping[str, Mapping[str, str]]:
        """Kinds by fact, by outcome."""

    @property
    def hints(self) -> Mapping[str, Any]:
        """Annotations by parameter."""

    def run(self, inputs: Mapping[str, Any]) -> Any:
        """The outcome, from a value of each parameter."""

    def differing(self, inputs: Mapping[str, Any], result: Any) -> list[str]:
        """The facts of an outcome that come out otherwise by another way."""


@dataclass(frozen=True, slots=True)
class Job:
    """A compiled job with everything that its conversation needs."""

    graph: Graph
    library: Library
    catalogue: Callable[[], Mapping[str, Calculation]]

    @property
    def calculations(self) -> Mapping[str, Calculation]:
        """The calculations, looked up when the first one is run."""
        return self.catalogue()

    def fact(self, name: str) -> Fact:
        """The declaration of a fact under its real name."""
        return self.graph.facts[name]

    def caution(self, hazard: str) -> Caution:
        """The caution that guards a hazard."""
        return self.library.cautions[hazard]

    def word(self, name: str) -> str:
        """A sentence of the machine's own, by its dotted name."""
        return self.library.words[name]


def row_type(calculation: Calculation, parameter: str) -> Any:
    """The dataclass of the rows that a series parameter holds."""
    return get_args(calculation.hints[parameter])[0]


def job_of(library: Library, name: str, calculations: Mapping[str, Calculation]) -> Job:
    """Compile a job. Raises KeyError for a job that is not in the library."""
    return Job(compiled(library, name, facts_set(calculations)), library, lambda: calculations)


@dataclass(frozen=True, slots=True)
class Moment:
    """A half-asked thing. It belongs to the state, never to the log: losing one costs one question.

    `kind` tells what is asked; `options` are what the numbered answers stand for.
    """

    kind: str
    options: tuple[Any, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class State:
    """A conversation between two events."""

    log: Log
    situation: Situation
    moment: Moment | None = None
    misread: int = 0
    left: bool = False
