"""Two things of each kind in one line: its name and its rate, or its purity and its germination."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.answers.cut import values
from assistant.answers.expect import Expect, Line, Reading, Refusal, Settled
from assistant.answers.in_order import FEWEST, in_order
from assistant.answers.number import NUMBER
from assistant.answers.read import read
from assistant.answers.text import one_of, unaccented
from assistant.answers.unit_words import UNITS

_UNIT = rf"(?:{one_of(*(word for word in UNITS if word.isalpha()))})(?: pls)?(?:/(?:ac|acre|ha))?"
_NAME = r"[a-z][a-z' -]*?"
_NAME_FIRST = re.compile(rf"({_NAME})[\s:=]+({NUMBER}[^/]*(?:/[a-z]+)?)")
_VALUE_FIRST = re.compile(rf"({NUMBER}\s*(?:{_UNIT}\b)?)\s+(?:(?:of|de) )?({_NAME})")
_COMMAS = re.compile(r"\s*[,;+]\s*(?:(?:and|y) )?|\s+(?:and|y)\s+")
_TAG = re.compile(r"\d\d/\d")
"""Two figures off a tag: no rate."""
_BETWEEN = re.compile(r"[,;]\s*|(?<![/\s])\s+(?=[\d.]+\s*%?\s*/)")
_SLASHED = re.compile(rf"({NUMBER})\s*%?\s*/\s*({NUMBER})\s*%?")
_SPACED = re.compile(rf"({NUMBER})\s*%?[\s/]+({NUMBER})\s*%?")


def kinds_with_values(first: Expect, text: str, others: Sequence[Expect]) -> Line | None:
    """The kinds of a mix, and early what is told of each; refused where numbers stand otherwise.

    None for a question that no other takes its order from, and for kinds alone.
    """
    told = next((each for each in others if each.order_of == first.fact), None)
    if told is None or not re.search(r"\d", text):
        return None
    parts = _COMMAS.split(unaccented(text.lower()).strip(" ."))
    named = [found.groups() for part in parts if (found := _NAME_FIRST.fullmatch(part))]
    named += [found.groups()[::-1] for part in parts if (found := _VALUE_FIRST.fullmatch(part))]
    name = read(first, ", ".join(kind for kind, _ in named) or "-")
    each = read(told, "; ".join(value for _, value in named) or "-")
    whole = len(named) == len(parts) >= FEWEST and not _TAG.search(text)
    if not (whole and isinstance(name, Settled) and isinstance(each, Settled)):
        return Line(refused={first.fact: Refusal("kinds", text)})
    return Line(found={first.fact: name}, early={told.fact: each})


def paired_lists(expects: Sequence[Expect], text: str, whole: Reading) -> Line | None:
    """`98/90 99/88`: two figures of each kind, as a tag has them; None if it is not written so.

    One figure of each kind with no comma between is the first list alone; `whole` is the text as
    it is read for that.
    """
    if len(expects) != FEWEST or not all(each.many for each in expects):
        return None
    alone = "," not in text and values(whole) == expects[0].as_many
    if alone and isinstance(whole, Settled):
        return Line(found={expects[0].fact: whole})
    plain = text.strip(" .").lower()
    ordered = in_order(expects[0].order, plain)
    form = _SLASHED if ordered == plain else _SPACED
    pairs = [form.fullmatch(part) for part in _BETWEEN.split(ordered)]
    if not all(pairs):
        return None
    found = {
        expect.fact: read(expect, "; ".join(f"{pair[place]} %" for pair in pairs if pair))
        for place, expect in enumerate(expects, 1)
    }
    settled = {fact: each for fact, each in found.items() if isinstance(each, Settled)}
    return Line(found=settled) if len(settled) == FEWEST else None
