"""Every declared fact is whole: what a question needs, ranges in order, values of its kind."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from assistant.checking.flows import Flows, near
from assistant.dialogue.returning import seconds
from assistant.flow.model import LEANS, Fact
from assistant.flowfile.findings import Finding
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import NotSettled, exact
from assistant.quantities.units import UnknownUnit, same_dimension

ONE_OF = "one_of"
ASKED_NEEDS = ("ask", "why", "help", "example", "accepts", "refuses", "unknown")


def fact_faults(flows: Flows) -> Iterator[Finding]:
    """Faults of the declarations, each fact by itself and in what it names."""
    for name, files in flows.homes.items():
        if len(files) > 1:
            yield flows.in_fact("fact_twice", name, other=files[0])
    asked = flows.asked()
    for name, fact in flows.library.facts.items():
        if fact.kind not in {*KINDS, ONE_OF}:
            yield flows.in_fact("unknown_kind", name, "kind", kind=fact.kind, near=_near_kind(fact))
            continue
        if name in asked:
            yield from _whole(flows, fact)
        yield from _stale(flows, fact, asked=name in asked)
        yield from _names(flows, fact)
        yield from _choices(flows, fact)
        yield from _units(flows, fact)
        yield from _ranges(flows, fact)


def _near_kind(fact: Fact) -> str:
    return near(fact.kind, [*KINDS, ONE_OF])


def _whole(flows: Flows, fact: Fact) -> Iterator[Finding]:
    for key in ASKED_NEEDS:
        if not getattr(fact, key):
            yield flows.in_fact("fact_lacks", fact.name, key=key)
    if not _has_usual(fact):
        yield flows.in_fact("fact_lacks", fact.name, key="usual")
    for name in fact.variants.values():
        variant = flows.library.facts.get(name)
        if variant and not variant.example:
            yield flows.in_fact("fact_lacks", name, key="example")
        if variant and not _has_usual(variant):
            yield flows.in_fact("fact_lacks", name, key="usual")


def _has_usual(fact: Fact) -> bool:
    """Whether it is known what is usual: a range, a table, another fact near it or over it."""
    told = fact.usual or fact.usual_near or fact.at_most or fact.stands_at
    return not is_number(fact) or bool(told) or bool(fact.usual_by and fact.table)


def is_number(fact: Fact) -> bool:
    """Whether a fact is told by numbers, not by words or by one of several facts."""
    return fact.kind in KINDS and KINDS[fact.kind].form != "words"


def _stale(flows: Flows, fact: Fact, *, asked: bool) -> Iterator[Finding]:
    """A fact that goes stale is asked, and after a time that can be read."""
    if not fact.stale_after:
        return
    if not asked:
        yield flows.in_fact("stale_not_asked", fact.name, "stale_after")
    try:
        seconds(fact.stale_after)
    except ValueError:
        about = {"value": fact.stale_after, "kind": "time"}
        yield flows.in_fact("not_spelled", fact.name, "stale_after", **about)


ALIKE = {"at_most", "half_of", "in_step_of", "in_unit_of", "usual_near", "scatters_about"}
"""Those that name one that is written in the same unit."""
TIMES = {"usual_times": "ratio", "scatters_by": "share", "as_many": "rows", "in_order_of": "text"}
"""Those that name so many times the fact, or so many values of it, by their kind."""


def _names(flows: Flows, fact: Fact) -> Iterator[Finding]:
    """Other facts, tables and parts that a fact names."""
    library = flows.library
    for key in LEANS:
        other = getattr(fact, key)
        if not other:
            continue
        if other not in library.facts:
            about = {"fact": other, "near": near(other, library.facts)}
            yield flows.in_fact("unknown_fact", fact.name, key, **about)
        elif not _fits(fact, key, library.facts[other]):
            wanted = TIMES.get(key, fact.kind)
            about = {"fact": other, "kind": library.facts[other].kind, "wanted": wanted}
            yield flows.in_fact("other_kind", fact.name, key, **about)
    for key in ("table", "known_words"):
        table = getattr(fact, key)
        if table and table not in library.tables:
            about = {"table": table, "near": near(table, library.tables)}
            yield flows.in_fact("unknown_table", fact.name, key, **about)
    if bool(fact.usual_near) != bool(fact.usual_times):
        lacks = "usual_times" if fact.usual_near else "usual_near"
        yield flows.in_fact("fact_lacks", fact.name, key=lacks)
    if fact.unknown and fact.unknown.way == "part":
        yield from _finds_out(flows, fact, fact.unknown.value)


def _fits(fact: Fact, key: str, other: Fact) -> bool:
    """Whether the fact that a key names is of a kind that can stand there."""
    if key in TIMES:
        return other.kind == TIMES[key]
    if key not in ALIKE or not {fact.kind, other.kind} <= KINDS.keys():
        return True
    return KINDS[fact.kind].plain == KINDS[other.kind].plain


def _finds_out(flows: Flows, fact: Fact, name: str) -> Iterator[Finding]:
    part = flows.library.parts.get(name)
    if part is None:
        about = {"part": name, "near": near(name, flows.library.parts)}
        yield flows.in_fact("unknown_part", fact.name, "unknown", **about)
    elif not all(fact.name in given for given in part.gives.values()):
        yield flows.in_fact("part_does_not_give", fact.name, "unknown", part=name)


def _choices(flows: Flows, fact: Fact) -> Iterator[Finding]:
    if bool(fact.choices) != (fact.kind == "choice"):
        yield flows.in_fact("choices_or_not", fact.name, "choices")
    if bool(fact.variants) != (fact.kind == ONE_OF):
        yield flows.in_fact("variants_or_not", fact.name, "variants")
    for name in sorted(set(fact.variants.values()) - set(flows.library.facts)):
        about = {"fact": name, "near": near(name, flows.library.facts)}
        yield flows.in_fact("unknown_fact", fact.name, "variants", **about)
    if fact.variants:
        told = flows.library.facts.get(f"{fact.name}_kind")
        kinds = {choice.name for choice in told.choices} if told else None
        if kinds != set(fact.variants):
            yield flows.in_fact("variants_without_kind", fact.name, kind=f"{fact.name}_kind")
    said: dict[str, str] = {}
    for choice in fact.choices:
        for word in {choice.name.replace("_", " "), choice.label.lower(), *choice.words}:
            if said.setdefault(word.lower(), choice.name) != choice.name:
                yield flows.in_fact("choice_word_twice", fact.name, "choices", word=word)


def _units(flows: Flows, fact: Fact) -> Iterator[Finding]:
    for key in ("us", "metric", "bare"):
        told = getattr(fact, key)
        for unit in (told,) if isinstance(told, str) else told:
            if unit and not _is_unit(fact, unit):
                yield flows.in_fact("unit_of_another_kind", fact.name, key, unit=unit)


def _is_unit(fact: Fact, unit: str) -> bool:
    if fact.kind == ONE_OF or KINDS[fact.kind].form != "unit":
        return False
    try:
        return same_dimension(unit, fact.kind)
    except UnknownUnit:
        return False


def _ranges(flows: Flows, fact: Fact) -> Iterator[Finding]:
    ends = {
        key: (span.least, span.most)
        for key, span in (("possible", fact.possible), ("usual", fact.usual))
        if span
    }
    guess = fact.unknown.value if fact.unknown and fact.unknown.way == "guess" else ""
    single = {"stands_at": fact.stands_at, "unknown": guess, "misses_by": _tool(flows, fact)}
    read = {key: [value(fact, each) for each in told] for key, told in ends.items()}
    read |= {key: [value(fact, each)] for key, each in single.items() if each}
    for key, numbers in read.items():
        if None in numbers:
            told = ends.get(key) or (single[key],)
            spelled = told[numbers.index(None)]
            yield flows.in_fact("not_spelled", fact.name, key, value=spelled, kind=fact.kind)
    yield from _order(flows, fact, {k: v for k, v in read.items() if None not in v})


def _tool(flows: Flows, fact: Fact) -> str:
    """What a reading can miss, where it is told as a value and not as another fact."""
    other = flows.library.facts.get(fact.misses_by)
    return "" if other and other.kind == fact.kind else fact.misses_by


def _order(flows: Flows, fact: Fact, read: dict[str, list[Fraction | None]]) -> Iterator[Finding]:
    numbers = {key: [each for each in told if each is not None] for key, told in read.items()}
    for key in ("possible", "usual"):
        if key in numbers and numbers[key][0] >= numbers[key][1]:
            yield flows.in_fact("out_of_order", fact.name, key, key=key)
    if "possible" not in numbers:
        return
    least, most = min(numbers["possible"]), max(numbers["possible"])
    for key in ("usual", "stands_at", "unknown"):
        if any(not least <= each <= most for each in numbers.get(key, [])):
            yield flows.in_fact("out_of_range", fact.name, key, key=key)


def value(fact: Fact, told: str) -> Fraction | None:
    """A settled spelling as a number; a choice by its place, a text as 0; None if it is none."""
    if fact.kind == "choice":
        names = [choice.name for choice in fact.choices]
        return Fraction(names.index(told)) if told in names else None
    if fact.kind == "text":
        return Fraction(0)
    if fact.kind == ONE_OF:
        return None
    try:
        return exact(fact.kind, told)
    except (NotSettled, UnknownUnit, ZeroDivisionError):
        return None


def table_faults(flows: Flows) -> Iterator[Finding]:
    """Rows that no word leads to or that lack, and cells that are no value of their fact."""
    for fact in flows.library.facts.values():
        rows = flows.library.tables.get(fact.table, {})
        keys = _keys(flows, fact)
        for name in sorted(keys - rows.keys() if rows else ()):
            yield flows.in_file("row_missing", (f"tables/{fact.table}.toml",), fact.table, row=name)
        for name, row in rows.items():
            where = (f"tables/{fact.table}.toml", name)
            if name not in keys:
                about = {"row": name, "near": near(name, keys)}
                yield flows.in_file("unknown_row", where, name, **about)
            cells = {key: value(fact, cell) for key, cell in row.items()}
            for key, number in cells.items():
                if number is None:
                    about = {"value": row[key], "kind": fact.kind}
                    yield flows.in_file("not_spelled", where, name, **about)
            least, most = cells.get("least"), cells.get("most")
            if least is not None and most is not None and least >= most:
                yield flows.in_file("out_of_order", where, name, key="least")


def _keys(flows: Flows, fact: Fact) -> set[str]:
    """The names by which a table of a fact may be looked up."""
    by = flows.library.facts.get(fact.usual_by)
    if by is None:
        return set()
    return {*flows.library.tables.get(by.known_words, {}), *(choice.name for choice in by.choices)}
