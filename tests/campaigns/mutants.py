"""Mutants of the flow files: one small fault each, as it could slip into a file by hand.

A mutant is a change of one file's table. Its name stays the same from run to run, so that one that
survives can be listed with a reason.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from fractions import Fraction
from functools import partial
from itertools import chain, pairwise
from pathlib import Path
from typing import Any

Table = dict[str, Any]
Path_ = tuple[str | int, ...]
Edit = tuple[Path_, Any]
Files = Mapping[str, Table]
GONE = object()
"""What a key is set to that is taken out."""

TEXTS = "swap_texts"
"""The operator that is counted apart: it may leave a flow sound and only say the wrong thing."""

NO_ROADS = frozenset({"shift_range", "change_unit"})
"""Operators whose mutants leave the roads of a job as they were: no edge looks at a number."""

OTHER_UNIT = {
    "in": "cm",
    "cm": "in",
    "ft": "m",
    "m": "ft",
    "mm": "in",
    "lb": "kg",
    "kg": "lb",
    "oz": "lb",
    "g": "oz",
    "lb/ac": "kg/ha",
    "kg/ha": "lb/ac",
    "lb/bu": "kg/hL",
    "kg/hL": "lb/bu",
    "seed/lb": "seed/kg",
    "seed/kg": "seed/lb",
    "seed/ac": "seed/ha",
    "seed/ha": "seed/ac",
    "seed/ft^2": "seed/m^2",
    "seed/m^2": "seed/ft^2",
    "seed/ft": "seed/m",
    "seed/m": "seed/ft",
    "plant/ft^2": "plant/m^2",
    "plant/m^2": "plant/ft^2",
    "plant/ft": "plant/m",
    "plant/m": "plant/ft",
    "ft^2": "m^2",
    "m^2": "ft^2",
}
"""For each unit another of its kind, as a slip would put it."""

NUMBER = re.compile(r"-?\d+(?:\.(\d+))?(?= |$)")


@dataclass(frozen=True, slots=True)
class Mutant:
    """One fault: its operator, its file, the step or fact it is in, and what it changes there."""

    operator: str
    file: str
    where: str
    what: str
    edits: tuple[Edit, ...] = field(hash=False)  # a value may be a list

    @property
    def name(self) -> str:
        """The same words for the same fault, run after run."""
        return f"{self.operator} {self.file} {self.where} {self.what}"

    def apply(self, folder: Path) -> None:
        """Put the fault into its file below a folder."""
        path = folder / self.file
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        path.write_text(as_toml(edited(table, self.edits)), encoding="utf-8")


def edited(table: Table, edits: tuple[Edit, ...]) -> Table:
    """A copy of a table with some of its keys set anew or taken out."""
    copy = deepcopy(table)
    for (*above, key), value in edits:
        inner: Any = copy
        for each in above:
            inner = inner[each]
        if value is GONE:
            del inner[key]
        else:
            inner[key] = value
    return copy


def as_toml(table: Table) -> str:
    """A table as TOML, each of its keys on a line of its own."""
    return "".join(f"{json.dumps(key)} = {_inline(value)}\n" for key, value in table.items())


def _inline(value: Any) -> str:
    if isinstance(value, Mapping):
        pairs = ", ".join(f"{json.dumps(key)} = {_inline(each)}" for key, each in value.items())
        return f"{{ {pairs} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_inline, value))}]"
    return json.dumps(value)  # a JSON string, number or truth is one of TOML too


def mutants(folder: Path) -> list[Mutant]:
    """Every mutant of the flow files below a folder, in the order of files and operators.

    Those that look into other files come last, so that they leave the samples of the others alone.
    """
    paths = sorted(folder.rglob("*.toml"))
    files = {
        path.relative_to(folder).as_posix(): tomllib.loads(path.read_text(encoding="utf-8"))
        for path in paths
    }
    across = (("negate_condition", partial(negate_condition, choices_of(files))),)
    return [*_made(files, OPERATORS), *_made(files, across)]


def _made(files: Files, operators: Operators) -> Iterator[Mutant]:
    for name, table in files.items():
        for operator, make in operators:
            for where, what, edits in make(name, table):
                yield Mutant(operator, name, where, what, tuple(edits))


Made = Iterator[tuple[str, str, list[Edit]]]
Operators = tuple[tuple[str, Callable[[str, Table], Made]], ...]


def _steps(table: Table) -> Iterator[tuple[int, Table, str]]:
    """Each step with its number, and the step after it in the file."""
    steps = table.get("step", [])
    for number, step in enumerate(steps):
        yield number, step, steps[number + 1]["id"] if number + 1 < len(steps) else ""


def _facts(file: str, table: Table) -> Iterator[tuple[str, Table]]:
    if file.startswith("facts/") or file == "limits.toml":
        yield from table.items()


def _branches(table: Table) -> Iterator[tuple[str, Path_, Mapping[str, str]]]:
    for number, step, _ in _steps(table):
        for key in ("next", "leave"):
            if isinstance(step.get(key), dict):
                yield step["id"], ("step", number, key), step[key]


def drop_edge(_: str, table: Table) -> Made:
    """A branch is taken out, or a step falls through to the one below it."""
    for where, path, branches in _branches(table):
        for outcome in branches:
            yield where, f"{path[-1]}.{outcome}", [((*path, outcome), GONE)]
    for number, step, below in _steps(table):
        if isinstance(step.get("next"), str) and below and step["next"] != below:
            yield step["id"], "next", [(("step", number, "next"), GONE)]


def swap_targets(_: str, table: Table) -> Made:
    """Two branches of a step that stand side by side lead where the other should."""
    for where, path, branches in _branches(table):
        for (one, to), (other, there) in pairwise(branches.items()):
            if to != there:
                edits: list[Edit] = [((*path, one), there), ((*path, other), to)]
                yield where, f"{path[-1]}.{one}/{other}", edits


def shift_range(file: str, table: Table) -> Made:
    """An end of a range, or a limit, is one more or one less in its last digit."""
    ends: list[tuple[str, Path_, str]] = []
    for name, fact in _facts(file, table):
        for key in ("possible", "usual"):
            ends += [(name, (name, key, at), end) for at, end in enumerate(fact.get(key, ()))]
        ends += [(name, (name, "stands_at"), fact["stands_at"])] if "stands_at" in fact else []
    if file.startswith("tables/"):
        for name, row in table.items():
            ends += [(name, (name, key), row[key]) for key in ("least", "most") if key in row]
    for name, path, end in ends:
        for sign in (1, -1):
            moved = shifted(end, sign)
            if moved:
                what = ".".join(map(str, path[1:]))
                yield name, f"{what} {moved}", [(path, moved)]


def shifted(end: str, sign: int) -> str:
    """A value one more or one less in its last digit; nothing where it holds no number."""
    found = NUMBER.match(end)
    if not found:
        return ""
    digits = len(found[1] or "")
    moved = Fraction(found[0]) + Fraction(sign, 10**digits)
    return "" if moved < 0 else f"{float(moved):.{digits}f}{end[found.end() :]}"


def change_unit(file: str, table: Table) -> Made:
    """A value is shown, read or bounded in another unit of its kind."""
    units: list[tuple[str, Path_, str]] = []
    for name, fact in _facts(file, table):
        units += [(name, (name, key), fact[key]) for key in ("us", "metric") if key in fact]
        for key in ("bare", "possible", "usual"):
            units += [(name, (name, key, at), unit) for at, unit in enumerate(fact.get(key, ()))]
        units += [(name, (name, "stands_at"), fact["stands_at"])] if "stands_at" in fact else []
    for name, path, text in units:
        number, _, unit = text.rpartition(" ")
        other = OTHER_UNIT.get(unit)
        if other and not (path[1] == "bare" and other in table[name]["bare"]):
            new = f"{number} {other}".strip()
            yield name, f"{'.'.join(map(str, path[1:]))} {new}", [(path, new)]


def drop_caution(_: str, table: Table) -> Made:
    """A caution is taken out of a flow, or does not count any more for one choice."""
    yield from _dropped(table, "caution")
    for name, caution in table.items():
        for fact, choices in _only(caution).items():
            for at, choice in enumerate(choices):
                if len(choices) > 1:
                    yield name, f"only.{fact} {choice}", [((name, "only", fact, at), GONE)]


def _only(caution: object) -> Mapping[str, list[str]]:
    return caution.get("only", {}) if isinstance(caution, dict) and "grade" in caution else {}


def drop_policy(file: str, table: Table) -> Made:
    """A question does not know any more what "don't know" leads to."""
    for name, fact in _facts(file, table):
        if "unknown" in fact:
            yield name, "unknown", [((name, "unknown"), GONE)]


def unset_fact(_: str, table: Table) -> Made:
    """A fact is not handed on, recorded, lent or worked out any more."""
    for outcome, names in table.get("part", {}).get("gives", {}).items():
        for at, name in enumerate(names):
            yield "part", f"gives.{outcome} {name}", [(("part", "gives", outcome, at), GONE)]
    for number, step, _below in _steps(table):
        for key in ("sets", "carry"):
            for name in step.get(key, {}):
                yield step["id"], f"{key}.{name}", [(("step", number, key, name), GONE)]
        if "records" in step:
            yield step["id"], "records", [(("step", number, "records"), GONE)]
        lent = step.get("recall", [])
        for at, name in enumerate(lent if isinstance(lent, list) else []):
            yield step["id"], f"recall {name}", [(("step", number, "recall", at), GONE)]
    yield from _dropped(table, "work_out")


def drop_ask(_: str, table: Table) -> Made:
    """A question, or one of a pair, is not asked any more."""
    yield from _dropped(table, "ask")
    for number, step, _below in _steps(table):
        names = step.get("ask")
        for at, name in enumerate(names if isinstance(names, list) else []):
            yield step["id"], f"ask {name}", [(("step", number, "ask", at), GONE)]


def _dropped(table: Table, kind: str) -> Made:
    """Each step of a kind is left out: what led to it leads where it went first."""
    for number, step, below in _steps(table):
        onward = step.get("next", below)
        to = next(iter(onward.values())) if isinstance(onward, dict) else onward
        if kind in step and to:
            edits = [edit for edit in _leading(table, step["id"], to) if edit[0][1] != number]
            yield step["id"], f"{kind} step", [*edits, (("step", number), GONE)]


def _leading(table: Table, gone: str, to: str) -> Iterator[Edit]:
    for number, step, below in _steps(table):
        if step.get("next", below) == gone:
            yield ("step", number, "next"), to
        for key in ("next", "leave"):
            branches = step.get(key)
            for outcome, target in branches.items() if isinstance(branches, dict) else ():
                if target == gone:
                    yield ("step", number, key, outcome), to


def drop_mark(_: str, table: Table) -> Made:
    """A step is not told any more to be near a hazard, to put back or to be asked again."""
    for number, step, _below in _steps(table):
        for mark in ("exposes", "put_back", "again"):
            if mark in step:
                yield step["id"], mark, [(("step", number, mark), GONE)]


def negate_condition(choices: Mapping[str, list[str]], _: str, table: Table) -> Made:
    """What stands under some choices of a fact stands under all the others instead."""
    for where, path, names in _conditions(table, ()):
        others = [each for each in choices[str(path[-1])] if each not in names]
        if others:
            inside = path[path.index("only") :]
            yield where, ".".join(map(str, inside)), [(path, others)]


def _conditions(inside: Any, path: Path_) -> Iterator[tuple[str, Path_, list[str]]]:
    """Each choice fact under an `only`, with the place of that and the choices named."""
    named = inside.items() if isinstance(inside, dict) else ()
    for key, value in named or (enumerate(inside) if isinstance(inside, list) else ()):
        if "only" in path and isinstance(value, list):
            yield ".".join(map(str, path[: path.index("only")])), (*path, key), value
        else:
            yield from _conditions(value, (*path, key))


def choices_of(files: Files) -> dict[str, list[str]]:
    """The choices of each choice fact; the outcome of a card is a finish that makes one."""
    found = {
        name: [choice["name"] for choice in fact["choices"]]
        for file, table in files.items()
        for name, fact in _facts(file, table)
        if "choices" in fact
    }
    steps = (step for table in files.values() for step in table.get("step", ()))
    made = dict.fromkeys(step["finish"] for step in steps if step.get("card"))
    return {**found, "outcome": [*made]}


def swap_texts(file: str, table: Table) -> Made:
    """Two texts that stand one after the other say what the other should."""
    said: dict[str, list[tuple[str, Path_, str]]] = {"say": [], "label": [], "ask": [], "text": []}
    for number, step, _below in _steps(table):
        if "say" in step:
            said["say"].append((step["id"], ("step", number, "say"), step["say"]))
    for name, fact in _facts(file, table):
        for key in ("label", "ask"):
            said[key] += [(name, (name, key), fact[key])] if key in fact else []
    if file == "cautions.toml":
        said["text"] = [(name, (name, "text"), each["text"]) for name, each in table.items()]
    for key, texts in said.items():
        for (one, path, text), (other, there, words) in pairwise(texts):
            if text != words:
                yield one, f"{key} {other}", [(path, words), (there, text)]


OPERATORS: Operators = tuple(
    (make.__name__, make)
    for make in chain(
        (drop_edge, swap_targets, shift_range, change_unit),
        (drop_caution, drop_policy, unset_fact, drop_ask, drop_mark, swap_texts),
    )
)
