"""A facts file: named facts as text with units, in any order, and tables for the series."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from assistant.dialogue.job import Job
from assistant.dialogue.walk import CARD
from assistant.flow.model import Series

WHOLE_NUMBERS = {"rows", "turns", "seeds", "count", "share", "emergence"}
READ = "cautions_read"

HEADER = re.compile(r"\s*(\[\[?)\s*([\w.\"' -]+?)\s*\]")
KEY = re.compile(r"\s*([\w.\"'-]+)\s*=")


class NotTomlError(Exception):
    """The file is missing or not TOML; the message names the line where it can."""


@dataclass(frozen=True, slots=True)
class Refused:
    """A name or a value of the file that can't be used: a code, what it is about, and its line."""

    code: str
    name: str
    heard: str
    line: int


@dataclass(slots=True)
class FactsFile:
    """What the file says: texts by fact, rows by series, and what is wrong with it."""

    path: str
    lines: Mapping[tuple[str, int], int]
    texts: dict[str, str] = field(default_factory=dict)
    rows: dict[str, list[dict[str, str]]] = field(default_factory=dict)
    cautions_read: bool = False
    refused: list[Refused] = field(default_factory=list)

    def line(self, name: str, row: int = 0) -> int:
        """The line of a name, in a row of a series counted from 1; 0 where it can't be found."""
        above = name.rpartition(".")[0]
        return self.lines.get((name, row)) or self.lines.get((above, row)) or 0

    def refuse(self, code: str, name: str, heard: str = "", row: int = 0) -> None:
        """Keep what is wrong; a name once."""
        refused = Refused(code, name, heard, self.line(name, row))
        if refused not in self.refused:
            self.refused.append(refused)


def read_facts(path: Path, job: Job) -> FactsFile:
    """Read a facts file for a job. Raises NotTomlError for a missing file or broken TOML."""
    try:
        text = path.read_text(encoding="utf-8-sig")
        table = tomllib.loads(text)
    except OSError as problem:
        raise NotTomlError(problem.strerror or str(problem)) from problem
    except (ValueError, RecursionError) as problem:
        raise NotTomlError(str(problem)) from problem
    facts = FactsFile(path.name, dict(found_lines(text)))
    read = table.pop(READ, False)
    facts.cautions_read = read is True
    if not isinstance(read, bool):
        facts.refuse("not_yes_or_no", READ, str(read))
    for name, value in flat(table):
        take(facts, job, name, value)
    return facts


def found_lines(text: str) -> Iterator[tuple[tuple[str, int], int]]:
    """Where each name stands: its dotted name and the row of its series, from 1; 0 elsewhere."""
    table, rows, row = "", Counter[str](), 0
    for number, line in enumerate(text.splitlines(), 1):
        header, key = HEADER.match(line), KEY.match(line)
        if header:
            table = re.sub(r"[\"' ]", "", header[2])
            rows[table] += 1
            row = rows[table] if header[1] == "[[" else 0
            yield (table, row), number
        elif key:
            yield (f"{table}.{key[1]}".strip(".\"'"), row), number


def flat(table: Mapping[str, Any], above: str = "") -> Iterator[tuple[str, Any]]:
    """Tables such as `[other_half]` as dotted names."""
    for name, value in table.items():
        if isinstance(value, Mapping):
            yield from flat(value, f"{above}{name}.")
        else:
            yield above + name, value


def take(facts: FactsFile, job: Job, name: str, value: Any) -> None:
    """Keep one value under its name, or say why not."""
    series = job.graph.series.get(name)
    if series:
        facts.rows[name] = list(rows_of(facts, job, series, value))
    elif name == CARD and isinstance(value, str):
        facts.texts[name] = value
    elif name not in job.graph.facts or name in members(job):
        facts.refuse("unknown_name", name)
    else:
        text = text_of(facts, job, name, value)
        if text is not None:
            facts.texts[name] = text


def members(job: Job) -> set[str]:
    """The facts that belong into a row of a series."""
    return {name for series in job.graph.series.values() for name in in_a_row(job, series)}


def in_a_row(job: Job, series: Series) -> set[str]:
    """The facts that a row of a series may hold: its members, and what they may be told as."""
    told_as = {each for name in series.members for each in job.fact(name).variants.values()}
    return {*series.members, *told_as}


def rows_of(facts: FactsFile, job: Job, series: Series, value: Any) -> Iterator[dict[str, str]]:
    """The rows of a series, under real names."""
    if not isinstance(value, list) or not all(isinstance(row, Mapping) for row in value):
        facts.refuse("not_rows", series.name)
        return
    prefix = series.name.removesuffix(job.graph.declared.get(series.name, series.name))
    for number, row in enumerate(value, 1):
        found: dict[str, str] = {}
        for name, each in row.items():
            if prefix + name not in in_a_row(job, series):
                facts.refuse("unknown_name", f"{series.name}.{name}", row=number)
                continue
            text = text_of(facts, job, prefix + name, each, (f"{series.name}.{name}", number))
            if text is not None:
                found[prefix + name] = text
        yield found


def text_of(
    facts: FactsFile, job: Job, name: str, value: Any, at: tuple[str, int] | None = None
) -> str | None:
    """A TOML value as the text that a person would type; only counts may be bare numbers.

    `at` is the name in the file and the row of its series.
    """
    fact = job.fact(name)
    if isinstance(value, str):
        return value
    if isinstance(value, int) and not isinstance(value, bool) and fact.kind in WHOLE_NUMBERS:
        return str(value)
    if isinstance(value, list) and fact.many:
        parts = [text_of(facts, job, name, each, at) for each in value]
        return None if None in parts else "; ".join(part for part in parts if part)
    where, row = at or (name, 0)
    facts.refuse("not_a_text", where, str(value), row)
    return None
