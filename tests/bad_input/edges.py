"""The ends of every range, typed: the last value that is taken, and the first that is not.

`edges.toml` holds them a second time, and limits and units too, so that none of them moves by a
slip in a flow file.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from assistant.answers.expect import Refusal, Settled, Unusual
from assistant.answers.read import judge, read
from assistant.dialogue.expecting import expect
from assistant.dialogue.job import Job
from assistant.dialogue.log import Log
from assistant.dialogue.situation import Known, Situation
from assistant.dialogue.wording import shown_value
from assistant.flow.graph import Graph
from assistant.flow.model import Library
from assistant.quantities.kinds import KINDS

EDGES: Mapping[str, Any] = tomllib.loads(
    Path(__file__).with_name("edges.toml").read_text(encoding="utf-8")
)
NUMBER = re.compile(r"-?\d+(?:\.(\d+))?(?= |$)")
TAKEN, ASKED, REFUSED = "taken", "asked about", "refused"


def faults(library: Library) -> list[str]:
    """Every value at an end or beyond it that does not fare as it should, and every limit moved."""
    judges = (_undeclared, _ends, _by_crop, _limits, _units)
    return [fault for judge in judges for fault in judge(library)]


def _undeclared(library: Library) -> Iterator[str]:
    for key in ("possible", "usual"):
        ranged = {name for name, fact in library.facts.items() if getattr(fact, key)}
        yield from (f"{key} {name}" for name in ranged ^ EDGES[key].keys())
    for table, crops in EDGES["tables"].items():
        ranged = {crop for crop, row in library.tables[table].items() if "least" in row}
        yield from (f"{table} {crop}" for crop in ranged ^ crops.keys())


def _ends(library: Library) -> Iterator[str]:
    for name, ends in EDGES["possible"].items():
        for value, inside in at_ends(library.facts[name].kind, ends):
            if (fares(library, name, value) != REFUSED) != inside:
                yield f"possible {name} {value}"
    for name, ends in EDGES["usual"].items():
        for value, inside in at_ends(library.facts[name].kind, ends):
            if (fares(library, name, value) == TAKEN) != inside:
                yield f"usual {name} {value}"


def _by_crop(library: Library) -> Iterator[str]:
    for table, crops in EDGES["tables"].items():
        for fact in (each for each in library.facts.values() if each.table == table):
            for crop, ends in crops.items():
                for value, inside in at_ends(fact.kind, ends):
                    fared = fares(library, fact.name, value, {fact.usual_by: crop})
                    if (fared == TAKEN) != inside:
                        yield f"{fact.name} of {crop} {value}"


def _limits(library: Library) -> Iterator[str]:
    stand = {name: fact.stands_at for name, fact in library.facts.items() if fact.stands_at}
    for name in stand.keys() | EDGES["limits"].keys():
        if stand.get(name) != EDGES["limits"].get(name):
            yield f"{name} stands at {stand.get(name)}"


def _units(library: Library) -> Iterator[str]:
    shown = {name for name, fact in library.facts.items() if fact.us or fact.metric}
    yield from (f"shown {name}" for name in shown ^ EDGES["shown"].keys())
    for name, texts in EDGES["shown"].items():
        if list(shown_in_both(library, name)) != texts:
            yield f"{name} is shown as {shown_in_both(library, name)}"
    alone = {name: list(fact.bare) for name, fact in library.facts.items() if fact.bare}
    for name in alone.keys() | EDGES["alone"].keys():
        if alone.get(name) != EDGES["alone"].get(name):
            yield f"{name} alone is {alone.get(name)}"


def shown_in_both(library: Library, name: str) -> tuple[str, str]:
    """The value 1 in SI of a fact, as it is shown in US and in metric units."""
    fact = library.facts[name]
    return (
        shown_value(Log(system="us"), Situation(""), fact, 1.0),
        shown_value(Log(system="metric"), Situation(""), fact, 1.0),
    )


def at_ends(kind: str, ends: list[str]) -> Iterator[tuple[str, bool]]:
    """Both ends, which are inside, and what is just beyond each, which is not."""
    for end, sign in zip(ends, (-1, 1), strict=True):
        yield end, True
        yield beyond(kind, end, sign), False


def beyond(kind: str, end: str, sign: int) -> str:
    """A value beyond an end by a tenth of its last digit, or by one of what is counted whole.

    Raises ValueError where an end holds no number.
    """
    found = NUMBER.match(end)
    if not found:
        raise ValueError(end)
    digits = len(found[1] or "") + (not KINDS[kind].whole)
    number = Fraction(found[0]) + Fraction(sign, 10**digits)
    return f"{float(number):.{digits}f}{end[found.end() :]}"


def fares(library: Library, name: str, value: str, known: Mapping[str, str] | None = None) -> str:
    """How a typed value fares at the question for a fact, with some choices known."""
    at = Situation("", known={fact: Known(each, each) for fact, each in (known or {}).items()})
    job = Job(Graph("", "", "", {}, library.facts, {}, {}), library, dict)
    expected = replace(expect(job, Log(), at, name), many=False)
    found = read(expected, value)
    match judge(expected, found) if isinstance(found, Settled) else found:
        case None:
            return TAKEN
        case Unusual():
            return ASKED
        case Refusal():
            return REFUSED
        case doubt:
            return str(doubt)
