"""A line in words, and its words in pieces that each may tell one fact."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.answers.text import listed, marked

JOINS = frozenset(listed("@|=|,|+|/|at|for|on|and|y|con|with|by|de|of|from|is|es|son|a|al|en|x"))
"""Words between the facts of a line. They begin or end no value."""

AT = frozenset(listed("@|at|x|a"))
"""Words between a number of rows and their spacing."""

_BETWEEN = re.compile(r"(?<=\d)\s*([x@])\s*(?=[\d.,])")
_PLUS = re.compile(r"(?<=\d)\s*\+\s*(?=\d)")
_SLASH = re.compile(r"(?<=\d)\s*/\s*(?=\d)")


def line_words(text: str, *, slashed: bool = False) -> list[str]:
    """The words of a line, joining marks on their own; `slashed` parts "98/85" too.

    Raises: Trouble as `text.one_line` does.
    """
    said = _PLUS.sub(" + ", _BETWEEN.sub(r" \1 ", marked(text)))
    said = _SLASH.sub(" / ", said) if slashed else said
    said = re.sub(r"[;,](?=\s|$)", " , ", said)
    return said.replace("->", "=").replace("=", " = ").split()


def piece(words: Sequence[str]) -> str:
    """The words as one text, without joining words at its ends; "" if nothing is left."""
    first, last = 0, len(words)
    while first < last and words[first].lower() in JOINS:
        first += 1
    while last > first and words[last - 1].lower() in JOINS:
        last -= 1
    return " ".join(words[first:last])


def ends_in_word(text: str) -> bool:
    """Whether a piece ends in a unit, a name or a choice, so that what follows is apart from it."""
    return bool(re.search(r"[^\W\d]\.?$|[\"'%#]$", text))
