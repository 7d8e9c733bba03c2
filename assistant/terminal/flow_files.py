"""The flow files: trusted as they shipped, judged when they did not; and what a job takes."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from itertools import groupby
from operator import attrgetter
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.flow.load import flat, load, read
from assistant.terminal.leaving import TROUBLE, USAGE, Ended, NotDone
from assistant.terminal.screen import filled, tell

if TYPE_CHECKING:
    from assistant.checking.differing import Difference
    from assistant.flow.model import Library
    from assistant.terminal.desk import Desk


def words_of(folder: Path) -> Mapping[str, str]:
    """The program's own sentences, without the rest of the flow files."""
    words = dict(read(folder / "words.toml"))
    words.pop("commands")
    return flat(words)


def trusted(folder: Path, *, shipped: bool) -> Library:
    """The library, judged first unless it is just as it shipped. Raises Ended for faults."""
    if not shipped and told_faults(folder):
        raise Ended(TROUBLE)
    return load(folder)


def told_faults(folder: Path) -> bool:
    """Judge the flow files and write their faults, if any."""
    from assistant.checking.judge import faults

    found = faults(folder)
    for fault in found:
        tell(fault, sys.stderr)
    return bool(found)


def check(desk: Desk) -> int:
    """Judge the flow files, whether they are as they shipped or not."""
    if desk.options.report or desk.options.json:
        return report(desk)
    if told_faults(desk.folder):
        return TROUBLE
    tell(load(desk.folder).words["cli.sound"])
    return 0


def report(desk: Desk) -> int:
    """Judge the flow files, and tell what they hold."""
    from assistant.checking.judge import lines_for, whole
    from assistant.checking.report import faults_told
    from assistant.checking.report import report as reported

    judged = whole(desk.folder)
    if isinstance(judged, list):
        if desk.options.json:
            print(json.dumps(faults_told(judged), ensure_ascii=False, indent=2))
        else:
            tell("\n".join(lines_for(judged)), sys.stderr)
        return TROUBLE
    found = reported(judged)
    if desk.options.json:
        print(json.dumps(found, ensure_ascii=False, indent=2))
        return 0
    tell("\n".join(report_lines(judged.flows.library.words, found)))
    return 0


def report_lines(words: Mapping[str, str], found: Mapping[str, Any]) -> Iterator[str]:
    """The report as plain lines."""
    yield words["report.title"]
    for job in found["jobs"]:
        tools = ", ".join(words[f"tools.{tool}"] for tool in job["bring"])
        told = {key: str(value) for key, value in job.items()} | {"bring": tools}
        yield ""
        yield filled(words["cli.job"], **told)
        for line in ("prompts", "takes", "bring"):
            if told.get(line, line):
                yield filled(words[f"report.{line}"], **told)
    yield from ("", words["report.cautions"])
    for each in found["cautions"]:
        told = {**each, "guards": ", ".join(each["guards"])}
        yield filled(words["report.caution"], **told)
    if mutants := found["mutants"]:
        now = {job["name"]: job["flow"] for job in found["jobs"]}
        line = "mutants" if mutants["flows"] == now else "mutants_before"
        told = {key: str(mutants[key]) for key in ("killed", "tried")}
        yield from ("", filled(words[f"report.{line}"], **told))
    yield from ("", words["report.how"], filled(words["report.words"], words=found["words"]))


def diff(desk: Desk) -> int:
    """What differs from one folder of flow files to another; the second is the one in use.

    Files need not be sound, only readable.
    """
    from assistant.checking.differing import differences

    words, options = words_of(desk.folder), desk.options
    old, new = Path(options.old), Path(options.new) if options.new else desk.folder
    for folder in (old, new):
        if not (folder / "words.toml").is_file():
            raise NotDone(USAGE, "no_flows", filled(words["cli.no_flows"], path=str(folder)))
    try:
        found = differences(old, new)
    except ValueError as problem:
        why = filled(words["cli.not_read"], why=str(problem))
        raise NotDone(TROUBLE, "not_read", why) from problem
    if options.json:
        print(json.dumps([asdict(each) for each in found], ensure_ascii=False, indent=2))
    else:
        tell("\n".join(diff_lines(words, found)))
    return 0


def diff_lines(words: Mapping[str, str], found: Sequence[Difference]) -> Iterator[str]:
    """The differences as plain lines, file by file."""
    if not found:
        yield words["diff.none"]
    for file, those in groupby(found, key=attrgetter("file")):
        yield file
        for each in those:
            where = each.where or words["diff.file"]
            yield filled(words[f"diff.{each.change}"], where=where)
            values = (("before", each.before), ("now", each.now))
            yield from (filled(words[f"diff.{key}"], value=text) for key, text in values if text)


def draw(desk: Desk) -> int:
    """A job, or a part as the job uses it, as a Mermaid chart."""
    from assistant.drawing.folded import folded, path_of
    from assistant.drawing.mermaid import mermaid

    name, part = desk.options.job, desk.options.part
    if name not in desk.library.jobs:
        raise unknown(desk, name)
    graph = desk.job(name).graph
    path = path_of(graph, part) if part else ""
    if path is None:
        raise unknown(desk, str(part))
    print(mermaid(folded(graph, path), desk.library.cautions))
    return 0


def unknown(desk: Desk, heard: str) -> NotDone:
    """One sentence on a name that nothing answers to."""
    return NotDone(USAGE, "unknown", filled(desk.library.words["cli.unknown"], heard=heard))


def facts(desk: Desk) -> int:
    """The facts that a job takes, a line each or as data."""
    from assistant.checking.takes import facts_taken

    name = desk.options.job
    words = desk.library.words
    if name not in desk.library.jobs:
        raise unknown(desk, name)
    taken = facts_taken(desk.job(name))
    if desk.options.json:
        print(json.dumps(taken, ensure_ascii=False, indent=2))
        return 0
    for fact in taken:
        tell(fact_line(words, fact))
    return 0


def fact_line(words: Mapping[str, str], fact: Mapping[str, Any]) -> str:
    """One fact: its name and kind, its unit, its choices, and whether a script must give it."""
    line = filled(words["cli.fact"], name=str(fact["name"]), kind=str(fact["kind"]))
    if fact["unit"]:
        line += filled(words["cli.unit"], unit=str(fact["unit"]))
    if fact["choices"]:
        line += filled(words["cli.choices"], choices=", ".join(map(str, fact["choices"])))
    if fact["needed"]:
        line += words["cli.needed"]
    if fact["example"]:
        line += filled(words["cli.example"], example=str(fact["example"]))
    return line
