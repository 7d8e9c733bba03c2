"""Whether the program could have written what an exported file holds.

Events must read as records of the dialogue, and every settled value as its fact reads it. What a
later version takes away from the flow files must stay readable here, or old books are refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import cache, lru_cache
from typing import Any, get_args, get_origin, get_type_hints

from assistant.dialogue.fold import LIMITS
from assistant.dialogue.log import UNKNOWN, Began, Entry, Told, UnitsSet
from assistant.flow.model import Fact, Library
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import exact, members, parts, si_value
from assistant.sitting.journal import record_of
from assistant.sitting.sitting import FINISHED

LONGEST = 1000  # signs: an answer has 300 at most
MOST_VISITS = 100_000
SYSTEMS = {"us", "metric"}
GOES_ON = {"part", "go_without"}  # what an unknown fact leads to, where it stays unknown
CONTROL = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")
"""What no line of a card holds: it could drive a terminal, or turn text around."""

READ_AS_TEXT = ("unit", "shown", "from", "settled")
"""What is read of a fact on a card, beside its value."""


@dataclass(frozen=True, slots=True)
class Reads:
    """Judges events and cards by the flow files."""

    library: Library

    def event(self, kind: str, body: Any) -> bool:
        """Whether an event is a record, complete and of the right types, whose values read."""
        if kind == FINISHED:
            return body.keys() == {"outcome"} and is_text(body["outcome"])
        try:
            record = record_of(kind, body)
            if not typed(record, type(record)) or not covers(record, body):
                return False
        except (KeyError, TypeError):
            return False
        if isinstance(record, Began | UnitsSet):
            return record.system in SYSTEMS
        return all(self.answers(each) for each in told_in(record))

    def card(self, body: Any) -> bool:
        """Whether a card holds facts that can be shown and lent, and lines that can be written."""
        facts, lines = body.get("facts"), body.get("lines")
        if not isinstance(facts, dict) or not isinstance(lines, list):
            return False
        if not all(is_text(line) and not CONTROL.search(line) for line in lines):
            return False
        return all(self.shows(name, fact) for name, fact in facts.items())

    def shows(self, name: str, fact: Any) -> bool:
        """Whether one fact of a card can be shown and lent."""
        if not isinstance(fact, dict):
            return False
        texts = [fact[key] for key in READ_AS_TEXT if key in fact]
        if not all(map(is_text, texts)) or not is_value(fact.get("value")):
            return False
        return "settled" not in fact or self.settles(name, fact["settled"])

    def answers(self, told: Entry | Told) -> bool:
        """Whether the settled value of an entry can be replayed."""
        fact = self.fact(told.fact)
        if isinstance(told, Entry) and told.place == LIMITS and fact is None:
            return False
        variants = fact.variants.values() if fact else ()
        if not told.variant:
            whole = not variants or told.settled == UNKNOWN
            return whole and self.settles(told.fact, told.settled)
        named = told.variant.rpartition(".")[2] in {each.rpartition(".")[2] for each in variants}
        return named and self.settles(told.variant, told.settled)

    def settles(self, name: str, settled: str) -> bool:
        """Whether a fact reads a settled value; what is no fact, such as a card's id, is text."""
        fact = self.fact(name)
        if fact is None:
            return True
        if settled == UNKNOWN:
            return bool(fact.unknown and fact.unknown.way in GOES_ON)
        if fact.choices:
            return settled in {each.name for each in fact.choices}
        if fact.variants:
            return any(self.settles(each, settled) for each in fact.variants.values())
        return reads(fact.kind, settled, zero=may_be_zero(fact), signed=fact.signed)

    def fact(self, name: str) -> Fact | None:
        """The fact of a name, whichever half it is about."""
        return self.library.facts.get(name.rpartition(".")[2])


def may_be_zero(fact: Fact) -> bool:
    """Whether a fact can be nothing: its range begins there, or else its kind can."""
    if fact.possible is None:
        return KINDS[fact.kind].zero
    return not exact(fact.kind, fact.possible.least)


@lru_cache(maxsize=4096)  # answers repeat, and a file may hold any number of them
def reads(kind: str, settled: str, *, zero: bool, signed: bool = False) -> bool:
    """Whether a value reads as its kind, none zero that can't be, none below zero but signed."""
    try:
        si_value(kind, settled)
        if KINDS[kind].form == "words":
            return True
        numbers = [parts(kind, each)[0] for each in members(settled) or (settled,)]
    except (ValueError, ArithmeticError, KeyError):
        return False
    return signed or all(number > 0 or (number == 0 and zero) for number in numbers)


def told_in(record: Any) -> Iterator[Entry | Told]:
    """Every entry and every fact told early in a record."""
    if isinstance(record, Entry | Told):
        yield record
    elif isinstance(record, tuple):
        for each in record:
            yield from told_in(each)
    elif is_dataclass(record):
        for each in fields(record):
            yield from told_in(getattr(record, each.name))


@cache
def types_of(record: type) -> Mapping[str, Any]:
    """The declared types of a record's fields."""
    return get_type_hints(record)


def typed(value: Any, declared: Any) -> bool:
    """Whether a value is exactly of its declared type, all the way down, and within limits."""
    if get_origin(declared) is tuple:
        return type(value) is tuple and all(typed(each, get_args(declared)[0]) for each in value)
    if type(value) is not declared:
        return False
    if is_dataclass(value):
        types = types_of(type(value))  # type: ignore[arg-type]  # every class can be a key
        return all(typed(getattr(value, name), each) for name, each in types.items())
    if isinstance(value, int):
        return declared is bool or 0 < value <= MOST_VISITS
    return is_text(value)


def covers(record: Any, body: Any) -> bool:
    """Whether JSON holds nothing but what a record holds; a field with a default may be missing."""
    if isinstance(body, dict):
        known = getattr(record, "__dataclass_fields__", {})
        return all(key in known and covers(getattr(record, key), body[key]) for key in body)
    if isinstance(body, list):
        return all(map(covers, record, body))
    return True


def is_text(value: Any) -> bool:
    """A text of a length that people read."""
    return isinstance(value, str) and len(value) <= LONGEST


def is_value(value: Any) -> bool:
    """What a fact can be: a number, a text, several numbers, or nothing."""
    listed = value if isinstance(value, list) else [value]
    plain = all(each is None or isinstance(each, str | int | float) for each in listed)
    return plain and all(is_text(each) for each in listed if isinstance(each, str))
