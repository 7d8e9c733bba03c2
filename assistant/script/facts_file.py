"""A facts file: named facts as text with units, in any order, and tables for the series."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from assistant.dialogue.job import Job

WHOLE_NUMBERS = {"rows", "turns", "seeds", "count", "share", "emergence"}
READ = "cautions_read"


class NotTomlError(Exception):
    """The file is missing or not TOML; the message names the line where it can."""


@dataclass(frozen=True, slots=True)
class Refused:
    """A name or a value of the file that can't be used: a code and what it is about."""

    code: str
    name: str
    heard: str


@dataclass(slots=True)
class FactsFile:
    """What the file says: texts by fact, rows by series, and what is wrong with it."""

    texts: dict[str, str] = field(default_factory=dict)
    rows: dict[str, list[dict[str, str]]] = field(default_factory=dict)
    cautions_read: bool = False
    refused: list[Refused] = field(default_factory=list)


def read_facts(path: Path, job: Job) -> FactsFile:
    """Read a facts file for a job. Raises NotTomlError for a missing file or broken TOML."""
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as problem:
        raise NotTomlError(str(problem)) from problem
    facts = FactsFile()
    read = table.pop(READ, False)
    facts.cautions_read = read is True
    if not isinstance(read, bool):
        facts.refused.append(Refused("not_yes_or_no", READ, str(read)))
    for name, value in flat(table):
        take(facts, job, name, value)
    return facts


def flat(table: Mapping[str, Any], above: str = "") -> Iterator[tuple[str, Any]]:
    """Tables such as `[other_half]` as dotted names."""
    for name, value in table.items():
        if isinstance(value, Mapping):
            yield from flat(value, f"{above}{name}.")
        else:
            yield above + name, value


def take(facts: FactsFile, job: Job, name: str, value: Any) -> None:
    """Keep one value under its name, or say why not."""
    if name in job.graph.series and isinstance(value, list):
        prefix = name.removesuffix(job.graph.declared.get(name, name))
        facts.rows[name] = [row_of(facts, job, prefix, row) for row in value]
    elif name not in job.graph.facts or job.graph.home(name):
        facts.refused.append(Refused("unknown_name", name, ""))
    else:
        text = text_of(facts, job, name, value)
        if text is not None:
            facts.texts[name] = text


def row_of(facts: FactsFile, job: Job, prefix: str, row: Any) -> dict[str, str]:
    """One row of a series, under real names."""
    found: dict[str, str] = {}
    for name, value in row.items() if isinstance(row, Mapping) else ():
        if prefix + name not in job.graph.facts:
            facts.refused.append(Refused("unknown_name", prefix + name, ""))
            continue
        text = text_of(facts, job, prefix + name, value)
        if text is not None:
            found[prefix + name] = text
    return found


def text_of(facts: FactsFile, job: Job, name: str, value: Any) -> str | None:
    """A TOML value as the text that a person would type; only counts may be bare numbers."""
    fact = job.fact(name)
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        facts.refused.append(Refused("not_a_text", name, str(value).lower()))
        return None
    if isinstance(value, int) and fact.kind in WHOLE_NUMBERS:
        return str(value)
    if isinstance(value, list) and fact.many:
        parts = [text_of(facts, job, name, each) for each in value]
        return None if None in parts else "; ".join(part for part in parts if part)
    facts.refused.append(Refused("not_a_text", name, str(value)))
    return None
