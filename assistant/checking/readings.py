"""Texts that a fact says it accepts or refuses are read by the reader of answers itself."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.answers.expect import Expect, Settled, Unusual
from assistant.answers.read import judge, read
from assistant.checking.facts import is_number
from assistant.checking.flows import Flows
from assistant.dialogue.expecting import expect
from assistant.dialogue.job import Job
from assistant.dialogue.log import Log
from assistant.dialogue.situation import Situation
from assistant.flow.graph import Graph
from assistant.flow.model import Fact
from assistant.flowfile.findings import Finding


def reading_faults(flows: Flows) -> Iterator[Finding]:
    """Examples and accepted texts not read, refused texts that are, of every fact that is asked.

    The facts must be sound.
    """
    library = flows.library
    graph = Graph("", "", "", {}, library.facts, {}, {})
    job = Job(graph, library, dict)
    asked = flows.asked()
    variants = {name for fact in asked.values() for name in fact.variants.values()}
    for name in sorted({*asked, *variants} & library.facts.keys()):
        expected = expect(job, Log(), Situation(""), name)
        yield from _faults(flows, library.facts[name], expected)


def _faults(flows: Flows, fact: Fact, expected: Expect) -> Iterator[Finding]:
    for text in fact.accepts:
        if not is_read(expected, text):
            yield flows.in_fact("not_accepted", fact.name, "accepts", text=text)
    for text in (*fact.refuses, *never(fact)):
        if is_read(expected, text):
            yield flows.in_fact("not_refused", fact.name, "refuses", text=text)
    if fact.example and not is_usual(expected, fact.example):
        yield flows.in_fact("example_not_read", fact.name, "example", text=fact.example)


def never(fact: Fact) -> tuple[str, ...]:
    """What no number can be: letters, an unknown unit, and a unit of another kind."""
    if not is_number(fact):
        return ()
    return "qwxz", "3 furlongs", "3 lb" if fact.kind == "time" else "3 s"


def is_read(expected: Expect, text: str) -> bool:
    """Whether a text is read in one way and lies in the possible range."""
    found = read(expected, text)
    return isinstance(found, Settled) and isinstance(judge(expected, found), Unusual | None)


def is_usual(expected: Expect, text: str) -> bool:
    """Whether a text is read in one way and nothing more would be asked about it."""
    found = read(expected, text)
    return isinstance(found, Settled) and judge(expected, found) is None
