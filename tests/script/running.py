"""Runs by script inside this process: facts and answers in, exit code, JSON and words out."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterable, Mapping
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import cache
from hashlib import sha256
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from assistant.book.book import Book
from assistant.book.nobook import NoBook
from assistant.calc.catalogue import CATALOGUE
from assistant.dialogue.job import Job, job_of
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from assistant.script.start import run_script
from assistant.sitting.sitting import Sitting, go_on, open_sitting
from assistant.sitting.world import World

Facts = Mapping[str, Any]

BASE: Facts = {
    "cautions_read": True,
    "drill": "the old one",
    "feed": "fluted",
    "row_count": 24,
    "row_spacing": "7.5 in",
    "drive_halves": "one",
    "crop": "wheat",
    "lot": "A1",
    "treated": "no",
    "target": "80 lb/ac",
    "wheel_method": "taped",
    "distance_per_turn": "81.5 in",
    "scale_step": "0.01 lb",
    "rows_caught": 6,
    "turns": 30,
    "lever_top": "10",
    "widest_opening": "40 mm",
    "lever_opens": "higher",
    "start_opening": "14 mm",
    "final_lever_mark": "4.5",
    "trials": [{"catch_weight": "1.39 lb"}, {"catch_weight": "1.41 lb"}],
}
"""A whole story: 80 lb/ac wants 1.4032 lb on that ground, and two catches near it agree."""

CUP: Facts = {
    **{name: value for name, value in BASE.items() if "opening" not in name},
    "feed": "cup",
    "lever_step": "0.5",
    "start_range": "low",
    "start_mark": "5",
    "trials": [
        {"lever_mark": "5", "drive_range": "low", "catch_weight": "1.39 lb"},
        {"catch_weight": "1.41 lb"},
    ],
}
"""The same with a cup feed."""


RUNS = count(100, 100)  # so that ids never meet in a book


@dataclass(frozen=True)
class Ran:
    """How a run ended, and what it left."""

    code: int
    out: str
    err: str
    sitting: Sitting
    data: dict[str, Any] = field(default_factory=dict)

    @property
    def facts(self) -> dict[str, Any]:
        """The facts of the JSON object."""
        found: dict[str, Any] = self.data["facts"]
        return found

    def value(self, name: str) -> float:
        """A fact's value in SI."""
        return float(self.facts[name]["value"])


@cache
def calibrate() -> Job:
    """The main job."""
    return job_of(load(flows_folder()), "calibrate", CATALOGUE)


def world(first: int = 1) -> World:
    """A clock that stands still, and ids that count up."""
    numbers = count(first)
    return World(
        clock=lambda: datetime(2026, 4, 14, 7, 30, tzinfo=UTC),
        chance=lambda size: sha256(str(next(numbers)).encode()).digest()[:size],
    )


def run(
    facts: Facts | str | None = None,
    lines: Iterable[str] | None = None,
    *,
    book: Book | None = None,
    resumes: str = "",
    as_json: bool = True,
) -> Ran:
    """Run the main job; `resumes` names a conversation of the book to go on with."""
    kept = book or NoBook()
    outside = world(next(RUNS) if book else 1)
    if resumes:
        talk = kept.talk(resumes)
        assert talk is not None
        sitting, said = go_on(calibrate(), kept, outside, talk, lends_book=book is not None)
    else:
        sitting, said = open_sitting(
            calibrate(), kept, outside, scripted=True, lends_book=book is not None
        )
    out, err = io.StringIO(), io.StringIO()
    with TemporaryDirectory() as folder, redirect_stdout(out), redirect_stderr(err):
        code = run_script(
            sitting,
            said,
            facts=written(folder, "facts.toml", facts),
            answers=written(folder, "answers.txt", lines),
            as_json=as_json,
        )
    data = json.loads(out.getvalue()) if as_json else {}
    return Ran(code, out.getvalue(), err.getvalue(), sitting, data)


def written(folder: str, name: str, content: Facts | str | Iterable[str] | None) -> str | None:
    """The path of a file with this content; facts become TOML, lines are joined."""
    if content is None:
        return None
    path = Path(folder) / name
    if isinstance(content, Mapping):
        content = toml(content)
    elif not isinstance(content, str):
        content = "".join(f"{line}\n" for line in content)
    path.write_text(content, encoding="utf-8")
    return str(path)


def toml(facts: Facts) -> str:
    """Named facts as TOML: plain values, tables, and tables of a series."""
    plain = {k: v for k, v in facts.items() if not isinstance(v, Mapping) and not is_rows(v)}
    lines = [f"{key(name)} = {json.dumps(value)}" for name, value in plain.items()]
    for name, value in facts.items():
        if isinstance(value, Mapping):
            inner = {k: v for k, v in value.items() if not is_rows(v)}
            lines += [f"[{name}]", toml(inner)]
            rows = {f"{name}.{k}": v for k, v in value.items() if is_rows(v)}
            lines.append(toml(rows))
        elif is_rows(value):
            lines += [f"[[{name}]]\n{toml(row)}" for row in value]
    return "\n".join(lines) + "\n"


def key(name: str) -> str:
    """A name as TOML spells it."""
    return name if re.fullmatch(r"[\w.-]+", name) else json.dumps(name)


def is_rows(value: object) -> bool:
    """Whether a value is the rows of a series."""
    return isinstance(value, list) and all(isinstance(each, Mapping) for each in value)


def without(facts: Facts, *names: str) -> dict[str, Any]:
    """The facts without some of them."""
    return {name: value for name, value in facts.items() if name not in names}
