"""One in so many, as people say it: "every 3rd", "one pass in three", "every other"."""

from __future__ import annotations

import re

from assistant.answers.number_words import VALUES
from assistant.answers.text import listed, one_of

_PASS = one_of(*listed("pass|passes|time|pase|pasada|vez"))
_ONE_PASS = re.compile(rf"\b(one|1|uno|una)\s+(?:{_PASS})\s+(in|de cada)\b")
_SAID = re.compile(
    rf"(?:every|each|cada|(?:one|1) in|(?:uno|una|1) de cada)\s+(\w+)(?:\s+(?:{_PASS}))?"
    rf"|(\d+)(?:st|nd|rd|th)"
)
_DIGITS = re.compile(r"(\d+)(?:st|nd|rd|th)?")
_KNOWN = {
    **VALUES,
    **dict.fromkeys(listed("other|second|segunda"), 2),
    **dict.fromkeys(listed("third|tercera"), 3),
    **dict.fromkeys(listed("fourth|cuarta"), 4),
    **dict.fromkeys(listed("fifth|quinta"), 5),
    **dict.fromkeys(listed("sixth|sexta"), 6),
}


def one_in(said: str) -> str:
    """The number of a plain text that says one in so many, else the text as it is."""
    found = _SAID.fullmatch(_ONE_PASS.sub(r"\1 \2", said))
    if not found:
        return said
    word = found[1] or found[2]
    digits = _DIGITS.fullmatch(word)
    return digits[1] if digits else str(_KNOWN.get(word, said))
