"""Flow files to plain values. Files that may be faulty pass the gate in `flowfile` first."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from assistant.flow.model import (
    Block,
    CardLayout,
    Caution,
    Choice,
    Fact,
    Library,
    PageLayout,
    Part,
    Series,
    Span,
    Step,
    Unknown,
)

Table = Mapping[str, Any]  # what tomllib gives: shape is judged by the gate, not here

STEP_KINDS = ("ask", "work_out", "caution", "recall", "use", "split", "finish")


def load(folder: Path) -> Library:
    """Read every flow file below `folder`.

    Raises: OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, KeyError or TypeError for files
    that would not have passed the gate.
    """
    facts = {
        name: fact(name, table)
        for path in [*sorted((folder / "facts").glob("*.toml")), folder / "limits.toml"]
        for name, table in read(path).items()
    }
    words = dict(read(folder / "words.toml"))
    commands = words.pop("commands")
    return Library(
        facts=facts,
        cautions={n: caution(n, t) for n, t in read(folder / "cautions.toml").items()},
        words=flat(words),
        commands={name: tuple(typed) for name, typed in commands.items()},
        glossary=dict(read(folder / "glossary.toml")),
        tables={p.stem: read(p) for p in sorted((folder / "tables").glob("*.toml"))},
        card=card(read(folder / "card.toml")),
        jobs={p.stem: part(p) for p in sorted((folder / "jobs").glob("*.toml"))},
        parts={p.stem: part(p) for p in sorted((folder / "parts").glob("*.toml"))},
        asides=cache(lambda: (questions(folder), read(folder / "asking.toml"))),
    )


def read(path: Path) -> Table:
    """One TOML file as a table; always UTF-8."""
    with path.open("rb") as file:
        return tomllib.load(file)


def questions(folder: Path) -> dict[str, Table]:
    """The plain questions with their answers, by name."""
    paths = sorted((folder / "questions").glob("*.toml"))
    return {name: table for path in paths for name, table in read(path).items()}


def card(table: Table) -> CardLayout:
    """The layout of the card."""
    return CardLayout(
        title=table["title"],
        outcomes={name: table[name] for name in ("proven", "one_catch", "worked_out")},
        dated=table["dated"],
        half=table["half"],
        lines=tuple(table["lines"]),
        half_lines=tuple(table["half_lines"]),
        shared_lines=tuple(table["shared_lines"]),
        after=tuple(table["after"]),
        after_with={fact: tuple(lines) for fact, lines in table.get("after_with", {}).items()},
        page=page(table["page"]),
    )


def page(table: Table) -> PageLayout:
    """The layout of the page to print."""
    plain = {name: text for name, text in table.items() if name != "block"}
    return PageLayout(blocks=tuple(block(each) for each in table["block"]), **plain)


def block(table: Table) -> Block:
    """Lines that stand together on the page."""
    only = {on: tuple(names) for on, names in table.get("only", {}).items()}
    return Block(**{**table, "lines": tuple(table["lines"]), "only": only})


def flat(table: Table, above: str = "") -> dict[str, str]:
    """Nested tables of words as one table of dotted names."""
    found: dict[str, str] = {}
    for name, value in table.items():
        if isinstance(value, Mapping):
            found |= flat(value, f"{above}{name}.")
        else:
            found[above + name] = value
    return found


def fact(name: str, table: Table) -> Fact:
    """One declared fact."""
    plain = {k: v for k, v in table.items() if k not in {"choices", "possible", "usual", "unknown"}}
    for key in ("names", "bare", "accepts", "refuses", "bring"):
        plain[key] = tuple(plain.get(key, ()))
    return Fact(
        name=name,
        choices=tuple(choice(each) for each in table.get("choices", ())),
        possible=span(table.get("possible")),
        usual=span(table.get("usual")),
        unknown=unknown(table.get("unknown"), table.get("unknown_says", "")),
        **{k: v for k, v in plain.items() if k != "unknown_says"},
    )


def choice(table: Table) -> Choice:
    """One choice of a fact."""
    return Choice(table["name"], table["label"], tuple(table.get("words", ())))


def span(ends: list[str] | None) -> Span | None:
    """A range from its two ends, or none."""
    return Span(*ends) if ends else None


def unknown(policy: str | Table | None, says: str) -> Unknown | None:
    """What "don't know" leads to: `"go_without"`, `"stop"`, `{ part = … }` or `{ guess = … }`."""
    match policy:
        case None:
            return None
        case "go_without" | "stop":
            return Unknown(policy, "", says)
        case {"part": str(name)}:
            return Unknown("part", name, says)
        case {"guess": str(value)}:
            return Unknown("guess", value, says)
    raise TypeError(policy)


def caution(name: str, table: Table) -> Caution:
    """One caution, with the choices under which it is due."""
    only = {k: tuple(v) for k, v in table.get("only", {}).items()}
    listed = {key: tuple(table.get(key, ())) for key in ("words", "bring")}
    return Caution(name=name, **{**table, "only": only, **listed})


def part(path: Path) -> Part:
    """A job or a part, steps in the order of the file."""
    table = read(path)
    head = table["part"]
    gives = {outcome: tuple(names) for outcome, names in head.get("gives", {}).items()}
    return Part(
        name=path.stem,
        title=head["title"],
        steps=tuple(step(each) for each in table["step"]),
        gives=gives,
        series=series(table["series"]) if "series" in table else None,
        file=f"{path.parent.name}/{path.name}",
        state=head.get("state", ""),
        takes=head.get("takes", ""),
        ends_within=head.get("ends_within"),
    )


def series(table: Table) -> Series:
    """The series that a part gathers."""
    only = {
        member: {on: tuple(names) for on, names in under.items()}
        for member, under in table.get("only", {}).items()
    }
    return Series(
        table["name"],
        tuple(table["members"]),
        tuple(table["last"]),
        tuple(table.get("under", ())),
        only,
    )


def step(table: Table) -> Step:
    """One step; its kind is the one key of `STEP_KINDS` that it has, else it only says."""
    kind = next((k for k in STEP_KINDS if k in table), "say")
    what = table[kind] if kind != "say" else ()
    rest = {
        k: v
        for k, v in table.items()
        if k not in {kind, "id", "say", "next", "as", "question", *SHAPED}
    }
    return Step(
        id=table["id"],
        kind=kind,
        what=(what,) if isinstance(what, str) else tuple(what),
        say=table.get("say", ""),
        next=table.get("next", ""),
        ask=table.get("question", ""),
        alias=table.get("as", ""),
        propose={k: tuple(v) for k, v in table.get("propose", {}).items()},
        exposes=tuple(table.get("exposes", ())),
        match=tuple(table.get("match", ())),
        **rest,
    )


SHAPED = frozenset({"propose", "exposes", "match"})
