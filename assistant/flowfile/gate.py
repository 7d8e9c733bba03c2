"""Reads flow files that are not known to be sound and finds every fault of their shape at once."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from pydantic import BaseModel, TypeAdapter, ValidationError

from assistant.flow.load import STEP_KINDS, flat
from assistant.flowfile.findings import Finding, finding, in_order
from assistant.flowfile.lines import Lines
from assistant.flowfile.lines import Path as TablePath
from assistant.flowfile.shape import STEPS, CautionShape, FactShape, PartHead, SeriesShape
from assistant.flowfile.texts import (
    AskingShape,
    CardShape,
    PlainShape,
    QuestionShape,
    SentenceShape,
)

AT_LINE = re.compile(r"\(at line (\d+), column \d+\)|\(at end of document\)")


@dataclass(frozen=True, slots=True)
class Form:
    """What a table must look like, and the model whose keys a mistyped key is compared with."""

    adapter: TypeAdapter[Any]
    model: type[BaseModel] = BaseModel


def rows_of(model: type[BaseModel]) -> Form:
    """The form of a table of such tables, each under a name of its own."""
    return Form(TypeAdapter(dict[str, model]), model)  # type: ignore[valid-type]  # made at run time


def one(model: type[BaseModel]) -> Form:
    """The form of one such table."""
    return Form(TypeAdapter(model), model)


FACTS = rows_of(FactShape)
SINGLE = {
    "limits.toml": FACTS,
    "cautions.toml": rows_of(CautionShape),
    "glossary.toml": Form(TypeAdapter(dict[str, str])),
    "card.toml": one(CardShape),
    "findings.toml": rows_of(SentenceShape),
    "asking.toml": one(AskingShape),
    "plain.toml": one(PlainShape),
}
QUESTIONS = rows_of(QuestionShape)
NEEDED = (
    *("limits.toml", "cautions.toml", "glossary.toml", "card.toml", "words.toml"),
    *("asking.toml", "plain.toml"),
)
TABLES = Form(TypeAdapter(dict[str, dict[str, str | list[str]]]))
WORDS = Form(TypeAdapter(dict[str, str]))
COMMANDS = Form(TypeAdapter(dict[str, list[str]]))
HEADS = {"part": one(PartHead), "series": one(SeriesShape)}
KINDS = {kind: one(shape) for kind, shape in STEPS.items()}

CODES = {
    "extra_forbidden": "unknown_key",
    "missing": "missing_key",
    "string_type": "not_a_text",
    "bool_type": "not_true_or_false",
    "list_type": "not_a_list",
    "dict_type": "not_a_table",
    "model_type": "not_a_table",
    "model_attributes_type": "not_a_table",
    "literal_error": "not_one_of",
    "string_too_short": "empty",
    "too_short": "too_few",
    "too_long": "too_many",
}
"""Our code for each kind of fault that pydantic tells apart."""


def shape_faults(folder: Path) -> list[Finding]:
    """Every fault of shape in the flow files below a folder, sorted by file and line."""
    missing = [name for name in NEEDED if not (folder / name).is_file()]
    found = [finding("missing_file", name, 1) for name in missing]
    for path in sorted(folder.rglob("*.toml")):
        found += file_faults(path, path.relative_to(folder).as_posix())
    return in_order(found)


def file_faults(path: Path, name: str) -> list[Finding]:
    """The faults of one file; `name` is its name from the folder of the flows."""
    raw = path.read_bytes()
    try:
        text = raw.decode("utf-8").replace("\r\n", "\n")
        table = tomllib.loads(text)
    except UnicodeDecodeError as problem:
        return [finding("not_utf8", name, raw.count(b"\n", 0, problem.start) + 1)]
    except tomllib.TOMLDecodeError as problem:
        return [_not_toml(name, text, str(problem))]
    return list(_judged(name, table, Lines(text)))


def _not_toml(name: str, text: str, said: str) -> Finding:
    at = AT_LINE.search(said)
    line = int(at[1]) if at and at[1] else text.rstrip("\n").count("\n") + 1
    return finding("not_toml", name, line, what=AT_LINE.sub("", said).strip())


def _judged(name: str, table: dict[str, Any], lines: Lines) -> Iterator[Finding]:
    folder, _, _ = name.rpartition("/")
    if name == "words.toml":
        yield from _words(name, table, lines)
    elif name in SINGLE:
        yield from _faults(SINGLE[name], table, name, lines, ())
    elif folder == "facts":
        yield from _faults(FACTS, table, name, lines, ())
    elif folder == "questions":
        yield from _faults(QUESTIONS, table, name, lines, ())
    elif folder == "tables":
        yield from _faults(TABLES, table, name, lines, ())
    elif folder in {"jobs", "parts"}:
        yield from _part(name, table, lines)
    else:
        yield finding("unknown_file", name, 1)


def _words(name: str, table: dict[str, Any], lines: Lines) -> Iterator[Finding]:
    if "commands" not in table:
        yield finding("missing_key", name, 1, key="commands")
    commands = table.pop("commands", {})
    yield from _faults(COMMANDS, commands, name, lines, ("commands",))
    for fault in _errors(WORDS, flat(table)):
        path = tuple(fault["loc"][0].split("."))
        yield finding("not_a_text", name, lines.of(*path), key=path[-1])


def _part(name: str, table: dict[str, Any], lines: Lines) -> Iterator[Finding]:
    for key, form in HEADS.items():
        if key in table:
            yield from _faults(form, table[key], name, lines, (key,))
        elif key == "part":
            yield finding("missing_key", name, 1, key=key)
    for key in table.keys() - {"part", "series", "step"}:
        yield finding("unknown_key", name, lines.of(key), key=key, near="")
    steps = table.get("step")
    if not isinstance(steps, list) or not steps:
        yield finding("no_steps", name, lines.of("step"))
        return
    for number, step in enumerate(steps):
        yield from _step(name, number, step, lines)


def _step(name: str, number: int, step: Any, lines: Lines) -> Iterator[Finding]:
    at = ("step", number)
    if not isinstance(step, dict):
        yield finding("not_a_table", name, lines.of(*at), key="step")
        return
    kinds = [kind for kind in STEP_KINDS if kind in step] or ["say"] * ("say" in step)
    if len(kinds) != 1:
        code, label = ("two_kinds" if kinds else "no_kind"), _label(at, step)
        yield finding(code, name, lines.of(*at), label, kinds=", ".join(kinds))
        return
    yield from _faults(KINDS[kinds[0]], step, name, lines, at)


def _faults(form: Form, table: Any, name: str, lines: Lines, above: TablePath) -> Iterator[Finding]:
    for fault in _errors(form, table):
        where, missing = fault["loc"], fault["type"] == "missing"
        inside = _reached(table, where)
        of_several = len(inside) < len(where) - missing
        code = "wrong_value" if of_several else CODES.get(fault["type"], "wrong_value")
        path = (*above, *inside)
        about = {"key": _key(where if code == "missing_key" else path)}
        if code == "unknown_key":
            about["near"] = _near(form, about["key"])
        if code == "not_one_of":
            about["wanted"] = str(fault["ctx"]["expected"])
        yield finding(code, name, lines.of(*path), _label(above, table, inside), **about)


def _errors(form: Form, table: Any) -> list[Any]:
    try:
        form.adapter.validate_python(table)
    except ValidationError as problem:
        return list(problem.errors(include_url=False, include_input=False))
    return []


def _reached(table: Any, where: TablePath) -> TablePath:
    """How far the place of a fault leads into the table: what lies behind names no key of it.

    pydantic puts the name of the shape into the place where a value may have one of several.
    """
    path: TablePath = ()
    for key in where:
        inside = key in table if isinstance(table, Mapping) else isinstance(key, int)
        if not inside:
            break
        table = table[key]
        path = (*path, key)
    return path


def _key(path: TablePath) -> str:
    return next((key for key in reversed(path) if isinstance(key, str)), "")


def _label(above: TablePath, table: Any, inside: TablePath = ()) -> str:
    """The id of the step, or the name of the table, that a fault lies in."""
    if above and above[0] == "step":
        return str(table.get("id", ""))
    return str(inside[0]) if inside and not above else ""


def _near(form: Form, key: str) -> str:
    """The key of that shape that a mistyped one looks like."""
    keys = [field.alias or name for name, field in form.model.model_fields.items()]
    return next(iter(get_close_matches(key, keys, 1)), "")
