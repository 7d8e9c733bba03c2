"""The flows under judgement, and where everything in them stands."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Protocol

from assistant.flow.load import load, read
from assistant.flow.model import Fact, Library, Part, Step
from assistant.flowfile.findings import Finding, finding
from assistant.flowfile.lines import Lines


class Calculation(Protocol):
    """A calculation as the checker sees it: signature, function, and an example per outcome."""

    @property
    def parameters(self) -> Mapping[str, str]:
        """The kind of each parameter."""
        ...

    @property
    def outcomes(self) -> Mapping[str, Mapping[str, str]]:
        """The facts of each outcome, with their kinds."""
        ...

    @property
    def function(self) -> Callable[..., Any]:
        """The sum itself."""
        ...

    def run(self, inputs: Mapping[str, Any]) -> Any:
        """The outcome, from a value of each parameter."""
        ...

    @property
    def examples(self) -> Iterable[Mapping[str, Any]]:
        """Inputs that reach every outcome."""
        ...

    def converted(
        self, inputs: Mapping[str, Any], make: Callable[[str, float], Any]
    ) -> Mapping[str, Any]:
        """The inputs with each number made into what `make` gives for its kind."""
        ...


Where = tuple[str | int, ...]
"""A file, then the path of a table or key in it: `("parts/plan.toml", "step", 2, "next")`."""


@dataclass(frozen=True, slots=True)
class Signed:
    """A calculation with its signature read once: reading annotations takes its time."""

    of: Calculation
    parameters: Mapping[str, str]
    outcomes: Mapping[str, Mapping[str, str]]

    @property
    def results(self) -> frozenset[str]:
        """Every fact that some outcome sets."""
        return frozenset(name for fields in self.outcomes.values() for name in fields)


@dataclass(frozen=True, slots=True)
class Flows:
    """A library with its calculations; `homes` and `sites` tell where facts and steps stand."""

    library: Library
    calculations: Mapping[str, Signed]
    lines: Mapping[str, Lines]
    homes: Mapping[str, tuple[str, ...]]
    sites: Mapping[int, tuple[str, int]]
    folder: Path

    def parts(self) -> Iterator[Part]:
        """Every job and part."""
        yield from self.library.jobs.values()
        yield from self.library.parts.values()

    def steps(self, kind: str = "") -> Iterator[Step]:
        """Every step of every job and part, or those of one kind."""
        for part in self.parts():
            yield from (step for step in part.steps if kind in {"", step.kind})

    def asked(self) -> Mapping[str, Fact]:
        """The facts that some step asks a person; a quiet one only takes what is there."""
        names = {name for step in self.steps("ask") if not step.quiet for name in step.what}
        return {name: fact for name, fact in self.library.facts.items() if name in names}

    def series(self) -> set[str]:
        """The names of all series."""
        return {part.series.name for part in self.parts() if part.series}

    def in_step(self, code: str, step: Step, key: str = "", /, **about: str) -> Finding:
        """A finding at a step, or at one of its keys."""
        file, number = self.sites[id(step)]
        return self.in_file(code, (file, "step", number, key), step.id, **about)

    def in_fact(self, code: str, fact: str, key: str = "", /, **about: str) -> Finding:
        """A finding at the declaration of a fact."""
        return self.in_file(code, (self.homes[fact][-1], fact, key), fact, **about)

    def in_file(self, code: str, where: Where, name: str = "", /, **about: str) -> Finding:
        """A finding in a file, at the path of a table or key; `name` is what it is about."""
        file, *path = where
        return finding(code, str(file), self.lines[str(file)].of(*path), name, **about)


def opened(folder: Path, calculations: Mapping[str, Calculation]) -> Flows:
    """Read flows that have passed the gate. Raises: as `load` does."""
    library = load(folder)
    files = {path.relative_to(folder).as_posix(): path for path in sorted(folder.rglob("*.toml"))}
    lines = {name: Lines(path.read_text(encoding="utf-8")) for name, path in files.items()}
    homes: dict[str, tuple[str, ...]] = {}
    for name, path in files.items():
        if name.startswith("facts/") or name == "limits.toml":
            for fact in read(path):
                homes[fact] = (*homes.get(fact, ()), name)
        if name.startswith("questions/"):
            homes |= {f"questions/{question}": (name,) for question in read(path)}
    sites = {
        id(step): (part.file, number)
        for part in [*library.jobs.values(), *library.parts.values()]
        for number, step in enumerate(part.steps)
    }
    signed = {n: Signed(each, each.parameters, each.outcomes) for n, each in calculations.items()}
    return Flows(library, signed, lines, homes, sites, folder)


def near(name: str, names: Iterable[str]) -> str:
    """The name that a mistyped one looks like, or nothing."""
    return next(iter(get_close_matches(name, list(names), 1)), "")
