"""A question for two names at once, such as a crop and its lot: "wheat, lot 4471"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.answers.choice import known_name
from assistant.answers.expect import Expect, Line, Settled
from assistant.answers.read import read

NOT_TOLD = re.compile(
    r"\b(?:no|not|dont|don't|without|sin|isnt|aint)\b.*\b(?:lot|tag|lote)\b", re.IGNORECASE
)
"""What says that the second name is not known: "winter wheat, i dont have a lot number"."""
PARTED = re.compile(r"\s*[,;]\s*")


def read_two_names(expects: Sequence[Expect], text: str) -> Line | None:
    """The two names that a line holds, or None where only one name can be seen in it.

    They are parted by a comma, by a word that names the second, or by the end of a known name.
    """
    first, second = expects
    if NOT_TOLD.search(text):
        known = known_head(first, text)
        return Line(found={first.fact: known}) if known else None
    parts = parted(first, second, text)
    if parts is None:
        return None
    found = {each.fact: read(each, part) for each, part in zip(expects, parts, strict=True)}
    settled = {fact: reading for fact, reading in found.items() if isinstance(reading, Settled)}
    return Line(found=settled) if len(settled) == len(expects) else None


def known_head(first: Expect, text: str) -> Settled | None:
    """The known name that a line begins with, the longest one."""
    words = text.replace(",", " ").split()
    heads = (known_name(first, " ".join(words[:end])) for end in range(len(words), 0, -1))
    return next((each for each in heads if each), None)


def parted(first: Expect, second: Expect, text: str) -> tuple[str, str] | None:
    """The text of each name."""
    named = re.compile(rf"\b(?:{'|'.join(second.names)})\b[ :#.]*", re.IGNORECASE)
    line = " ".join(text.split())
    cut = PARTED.search(line) or named.search(line)
    if cut:
        head, rest = line[: cut.start()].strip(), line[cut.end() :]
        tail = named.sub("", rest, count=1).strip()
        told = cut.re is named or tail != rest.strip() or " " not in tail  # "wheat, 80 lb" is none
        return (head, tail) if head and tail and told else None
    head, _, tail = line.rpartition(" ")
    known = known_name(first, head) if head else None
    return (head, tail) if known and re.search(r"\d", tail) else None
