"""Cards as a table for a spreadsheet: a line a card, numbers as numbers, text that stays text."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from assistant.book.records import StoredCard
from assistant.card.ending import ending
from assistant.flow.model import Library
from assistant.quantities.show import unit_words
from assistant.quantities.units import factor

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "'")
"""What a spreadsheet takes for the start of a formula, and the mark itself that stops that."""
MARK = "'"
DIGITS = 10  # more than any tool reads, fewer than a float's own noise

WHOLE_DRILL = (
    ("bulk_rate", "lb/ac", "kg/ha"),
    ("seeds_per_weight", "seed/lb", "seed/kg"),
    ("germination", "%", "%"),
    ("row_count", "", ""),
    ("row_spacing", "in", "cm"),
    ("distance_per_turn", "in", "m"),
    ("rows_caught", "", ""),
    ("turns", "", ""),
    ("target_catch", "lb", "kg"),
)
"""Facts of a card, with the units of their columns."""

EACH_HALF = (
    ("final_opening", "mm", "mm"),
    ("final_lever_mark", "", ""),
    ("final_range", "", ""),
    ("expected_rate", "lb/ac", "kg/ha"),
    ("caught_rate", "lb/ac", "kg/ha"),
    ("percent_off", "%", "%"),
)
"""Facts that the other half of a drill has too."""

HALVES = ("", "other_half.")
Column = tuple[str, str, str]  # fact, unit, heading


def table(library: Library, cards: Iterable[StoredCard], system: str) -> Iterator[str]:
    """The lines of the table, its heading first, in units "us" or "metric"."""
    columns = columns_of(library, system)
    words = library.words
    named = ("date", "drill", "crop", "lot", "outcome", "scripted", "number")
    yield as_line([words[f"table.{name}"] for name in named] + [each[2] for each in columns])
    for card in cards:
        outcome = words.get(f"shelf.{ending(card.outcome, card.facts)}", card.outcome)
        scripted = words["table.yes" if card.scripted else "table.no"]
        texts = (card.at[:10], card.drill, card.crop, card.lot, outcome, scripted, card.talk)
        cells = [cell(card.facts, name, unit) for name, unit, _ in columns]
        yield as_line([*map(as_text, texts), *cells])


def columns_of(library: Library, system: str) -> list[Column]:
    """The columns of numbers: heading and unit by system."""
    at = 2 if system == "metric" else 1
    found = [column(library, each, each[at], "") for each in WHOLE_DRILL]
    return found + [column(library, each, each[at], half) for half in HALVES for each in EACH_HALF]


def column(library: Library, row: tuple[str, str, str], unit: str, half: str) -> Column:
    """One column: the fact's own label, with the unit behind it."""
    fact = library.facts[row[0]]
    heading = f"{library.words['table.other_half']} {fact.label}" if half else fact.label
    told = unit_words(fact.kind, unit)
    return half + row[0], unit, f"{heading} ({told})" if told else heading


def cell(facts: Mapping[str, Any], name: str, unit: str) -> str:
    """The value of a fact in a unit, of a choice as it is shown; empty when the card has none."""
    fact = facts.get(name)
    value = fact.get("value") if isinstance(fact, Mapping) else None
    if isinstance(fact, Mapping) and isinstance(value, str):
        return as_text(str(fact.get("shown", "")))
    if isinstance(value, bool) or not isinstance(value, int | float):
        return ""
    return f"{float(value) / float(factor(unit)):.{DIGITS}g}"


def as_text(text: str) -> str:
    """A text that no spreadsheet takes for a formula; taking one leading mark away undoes it."""
    return MARK + text if text.startswith(FORMULA) else text


def as_line(cells: Iterable[str]) -> str:
    """One line of the table."""
    line = io.StringIO()
    csv.writer(line).writerow(cells)
    return line.getvalue()
