"""The flow files: trusted as they shipped, judged when they did not; and what a job takes."""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.flow.load import load
from assistant.terminal.leaving import TROUBLE, USAGE, Ended, NotDone
from assistant.terminal.screen import filled, tell

if TYPE_CHECKING:
    from assistant.flow.model import Library
    from assistant.terminal.desk import Desk


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
    if told_faults(desk.folder):
        return TROUBLE
    tell(load(desk.folder).words["cli.sound"])
    return 0


def facts(desk: Desk) -> int:
    """The facts that a job takes, a line each or as data."""
    from assistant.checking.takes import facts_taken

    name = desk.options.job
    words = desk.library.words
    if name not in desk.library.jobs:
        raise NotDone(USAGE, "unknown", filled(words["cli.unknown"], heard=name))
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
