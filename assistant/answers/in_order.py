"""Values told with the kinds that they belong to, in any order: "peas 20, oats 30"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.answers.text import one_of, unaccented

FEWEST = 2
"""Of one kind there is no order."""
_JOINS = re.compile(r"^(?:and|y|of|de)\b|\b(?:and|y|of|de)$")
_MARKS = re.compile(r"[,;]| and | y ")


def kinds_of(told: str) -> tuple[str, ...]:
    """The kinds that a text names, parted by commas, else by spaces."""
    parted = _MARKS.split(told) if _MARKS.search(told) else told.split()
    return tuple(filter(None, (unaccented(each.strip().lower()) for each in parted)))


def in_order(order: Sequence[str], text: str) -> str:
    """The values alone, in the order of the kinds; the text as it is unless each kind has one."""
    if len(order) < FEWEST:
        return text
    before, *rest = re.split(rf"\b({one_of(*order)})\b", text)
    kinds, after = rest[::2], rest[1::2]
    values = after if not before.strip() else [before, *after[:-1]]
    if sorted(kinds) != sorted(order) or (before.strip() and after[-1].strip()):
        return text
    plain = [_JOINS.sub("", value.strip(" ,;:=+")) for value in values]
    told = dict(zip(kinds, plain, strict=True))
    return "; ".join(told[kind].strip(" ,;") for kind in order)
