"""A job with its parts inlined: one flat graph of places, seen alike by machine and checker."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from hashlib import sha256
from typing import Protocol

from assistant.flow.model import LEANS, Fact, Library, Part, Series, Step

NEXT = "next"
MISSING, KNOWN = "missing", "known"
TAKEN, NONE = "taken", "none"


class Signature(Protocol):
    """What the graph must know of a calculation: names and kinds, in and out."""

    @property
    def parameters(self) -> Mapping[str, str]:
        """Kinds by parameter."""

    @property
    def outcomes(self) -> Mapping[str, Mapping[str, str]]:
        """Kinds by fact, by outcome."""


@dataclass(frozen=True)
class Node:
    """One place of the graph.

    `next` leads from each outcome to a place; `scope` turns the names of the part into the names of
    this use of it; `part` is the path of the part that the step stands in. `state` is how the
    machine should stand while one is here.
    """

    place: str
    step: Step
    part: str
    scope: Mapping[str, str]
    next: Mapping[str, str] = field(default_factory=dict)
    series: str = ""
    gives: tuple[str, ...] = ()
    state: str = ""

    def real(self, name: str) -> str:
        """The name of a fact or a series of the part in this use of the part."""
        return self.scope.get(name, name)

    def result(self, name: str) -> str:
        """The real name of the fact that a result of this step's calculation sets."""
        return self.real(self.step.sets.get(name, name))

    @cached_property
    def facts(self) -> tuple[str, ...]:
        """The facts that this step names, under their real names."""
        return tuple(self.real(name) for name in self.step.what)


@dataclass(frozen=True)
class Graph:
    """A compiled job: every node by its place, and the facts and series under their real names."""

    job: str
    title: str
    start: str
    nodes: Mapping[str, Node]
    facts: Mapping[str, Fact]
    series: Mapping[str, Series]
    declared: Mapping[str, str]
    homes: Mapping[str, Series] = field(default_factory=dict)

    def __getitem__(self, place: str) -> Node:
        return self.nodes[place]

    def home(self, name: str) -> Series | None:
        """The series that a fact is a member of, if any."""
        return self.homes.get(name)

    @cached_property
    def named_alone(self) -> tuple[str, ...]:
        """The facts asked for that words can name at any question.

        What each row is asked by the same words is told of a row, and of nothing after the rows.
        """
        asked = {n for node in self.nodes.values() if node.step.kind == "ask" for n in node.facts}
        of_rows = {word for member in self.homes for word in self._words_for(member)}
        alone = sorted(name for name in asked if not self._words_for(name) & of_rows)
        return tuple(name for name in alone if self.facts[name].names and "." not in name)

    def _words_for(self, name: str) -> set[tuple[str, str]]:
        return {(self.facts[name].kind, word) for word in self.facts[name].names}


Sets = Mapping[str, Collection[str]]
"""The facts that each calculation can set."""


def facts_set(calculations: Mapping[str, Signature]) -> dict[str, list[str]]:
    """The facts that each calculation can set, by its name."""
    return {
        name: sorted({fact for facts in each.outcomes.values() for fact in facts})
        for name, each in calculations.items()
    }


def compiled(library: Library, job: str, sets: Sets) -> Graph:
    """Inline the parts of a job. Raises KeyError where a name is missing (the gate finds all)."""
    builder = _Builder(library, sets)
    start = builder.lay(library.jobs[job], "", {}, {})
    return Graph(
        job=job,
        title=library.jobs[job].title,
        start=start,
        nodes=builder.nodes,
        facts={**library.facts, **builder.facts},
        series=builder.series,
        declared=builder.declared,
        homes={member: each for each in builder.series.values() for member in each.members},
    )


class _Builder:
    def __init__(self, library: Library, sets: Sets) -> None:
        self.library = library
        self.sets = sets
        self.nodes: dict[str, Node] = {}
        self.facts: dict[str, Fact] = {}
        self.series: dict[str, Series] = {}
        self.declared: dict[str, str] = {}

    def lay(self, part: Part, path: str, scope: Mapping[str, str], exits: Mapping[str, str]) -> str:
        """Lay the steps of a part under `path`; returns the place of the first."""
        series = self._series(part, scope)
        gives = next((tuple(v) for v in part.gives.values() if v), ())
        for at, step in enumerate(part.steps):
            below = part.steps[at + 1].id if at + 1 < len(part.steps) else ""
            state = step.state or part.state
            node = Node(joined(path, step.id), step, path, scope, series=series, state=state)
            self.nodes[node.place] = node  # its place in the order, before what it uses
            self.nodes[node.place] = self._linked(node, below, exits, gives)
        return joined(path, part.steps[0].id)

    def _series(self, part: Part, scope: Mapping[str, str]) -> str:
        if not part.series:
            return ""
        series = part.series
        name = scope.get(series.name, series.name)
        self.series[name] = replace(
            series,
            name=name,
            members=tuple(scope.get(m, m) for m in series.members),
            last=tuple(scope.get(m, m) for m in series.last),
            under=tuple(scope.get(m, m) for m in series.under),
            only={
                scope.get(m, m): {scope.get(fact, fact): names for fact, names in under.items()}
                for m, under in series.only.items()
            },
        )
        return name

    def _linked(
        self, node: Node, below: str, exits: Mapping[str, str], gives: tuple[str, ...]
    ) -> Node:
        step = node.step
        if step.kind == "finish":
            target = exits.get(step.what[0], "")
            return replace(node, next={NEXT: target} if target else {})
        after = step.next or below
        table = after if isinstance(after, Mapping) else {NEXT: after}
        links = {outcome: joined(node.part, to) for outcome, to in table.items()}
        links |= {f"leave:{word}": joined(node.part, to) for word, to in step.leave.items()}
        if step.kind == "use":
            return self._using(node, links)
        if step.kind == "ask":
            links |= dict(self._detours(node))
        return replace(node, next=links, gives=gives)

    def _using(self, node: Node, exits: Mapping[str, str]) -> Node:
        part = self.library.parts[node.step.what[0]]
        if NEXT in exits:
            exits = dict.fromkeys(finishes(part), exits[NEXT])
        scope = dict(node.scope)
        if node.step.alias:
            scope |= self._renamed(part, node.step.alias)
        start = self.lay(part, node.place, scope, exits)
        first = next(iter(part.gives), "")
        given = tuple(scope.get(name, name) for name in part.gives.get(first, ()))
        links = {MISSING: start}
        if given:
            links[KNOWN] = exits.get(first, exits.get(NEXT, ""))
        gathers = part.series.name if part.series else ""
        series = scope.get(gathers, gathers)
        return replace(node, next=links, gives=given, scope=scope, series=series)

    def _detours(self, node: Node) -> Iterator[tuple[str, str]]:
        for name in node.step.what:
            policy = self.library.facts[name].unknown
            if policy and policy.way == "part":
                part = self.library.parts[policy.value]
                exits = dict.fromkeys(finishes(part), node.place)
                path = f"{node.place}?{part.name}"
                yield f"unknown:{node.real(name)}", self.lay(part, path, node.scope, exits)

    def _renamed(self, part: Part, alias: str) -> dict[str, str]:
        names = sorted(self._settable(part))
        scope = {name: f"{alias}.{name}" for name in names}
        self.declared |= {real: name for name, real in scope.items()}
        for name in names:
            if name in self.library.facts:
                self.facts[scope[name]] = renamed(self.library.facts[name], scope)
        return scope

    def _settable(self, part: Part) -> set[str]:
        """Every fact and series that a part, with the parts in it, can set."""
        names: set[str] = set()
        if part.series:
            names |= {part.series.name, *part.series.members}
        for step in part.steps:
            if step.kind == "ask":
                names |= self._asked(step)
            elif step.kind == "work_out":
                names |= self._worked(step)
            elif step.kind == "use":
                names |= self._settable(self.library.parts[step.what[0]])
            names |= set(step.carry)
        return names

    def _asked(self, step: Step) -> set[str]:
        names: set[str] = set()
        for name in step.what:
            fact = self.library.facts[name]
            names |= {name, *fact.variants.values()}
            if fact.variants:
                names.add(f"{name}_kind")
            if fact.unknown and fact.unknown.way == "part":
                names |= self._settable(self.library.parts[fact.unknown.value])
        return names

    def _worked(self, step: Step) -> set[str]:
        worked = {step.sets.get(fact, fact) for fact in self.sets[step.what[0]]}
        return worked | ({step.records} if step.records else set())


def renamed(fact: Fact, scope: Mapping[str, str]) -> Fact:
    """A fact of a part as a second use of the part names it, with the facts that it names."""
    return replace(
        fact,
        name=scope[fact.name],
        variants={kind: scope.get(name, name) for kind, name in fact.variants.items()},
        misses_by=scope.get(fact.misses_by, fact.misses_by),
        **{key: scope.get(name, name) for key in LEANS if (name := getattr(fact, key))},
    )


def joined(path: str, step: str) -> str:
    """A place from the path of its part and the id of its step."""
    return f"{path}/{step}" if path and step else step


def finishes(part: Part) -> tuple[str, ...]:
    """The outcomes that a part can end with."""
    return tuple(step.what[0] for step in part.steps if step.kind == "finish")


def shape_of(graph: Graph) -> str:
    """A hash of what decides a conversation: places, steps, edges, kinds and ranges."""
    facts = [
        (f.name, f.kind, f.choices, f.possible, f.unknown, f.stands_at)
        for f in graph.facts.values()
    ]
    steps = [
        (n.place, n.step.kind, n.step.what, sorted(n.next.items())) for n in graph.nodes.values()
    ]
    return hashed([facts, steps])


def words_of(library: Library) -> str:
    """A hash of what is said: questions, texts of steps, and the machine's own sentences."""
    steps = [step.say for part in library.parts.values() for step in part.steps]
    return hashed([[f.ask for f in library.facts.values()], steps, sorted(library.words.items())])


def hashed(data: object) -> str:
    """A short hash of plain frozen values."""
    return sha256(repr(data).encode()).hexdigest()[:16]
