"""A question for two names at once, such as a crop and its lot: "wheat, lot 4471"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.answers.choice import known_name
from assistant.answers.evidence import early
from assistant.answers.expect import Expect, Line, Settled
from assistant.answers.read import read
from assistant.answers.yes_no import yes_no

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


def names_by_commas(expects: Sequence[Expect], text: str, others: Sequence[Expect]) -> Line | None:
    """A line whose commas part it: "wheat, 4471, treated, 80 lb", or "wheat lot 4471, no".

    It begins with a known first name, or with both. Of the rest each part is told early, is the
    second name, or is not used; a bare yes or no is neither. None where there is no second name.
    """
    first, second = expects
    head, *parts = PARTED.split(text.strip(" ,;"))
    both = parted(first, second, head)
    known = known_name(first, head)
    if not parts or not (both or known) or NOT_TOLD.search(text):
        return None
    found = dict(zip((first.fact, second.fact), both or (head,), strict=False))
    told: dict[str, Settled] = {}
    unused: list[str] = []
    for part in parts:
        sooner = early(others, part)
        name = _lone_name(second, part)
        if sooner and isinstance(sooner.reading, Settled) and sooner.fact not in told:
            told[sooner.fact] = sooner.reading
        elif name and second.fact not in found and yes_no(name) is None:
            found[second.fact] = name
        else:
            unused.append(part)
    if second.fact not in found:
        return None
    read_ = {each.fact: read(each, found[each.fact]) for each in expects}
    settled = {fact: each for fact, each in read_.items() if isinstance(each, Settled)}
    if len(settled) < len(expects):
        return None
    return Line(found=settled, early=told, unused=", ".join(unused))


def _lone_name(second: Expect, part: str) -> str:
    """A name without the word that names it; empty for several words that nothing names."""
    plain = _named(second).sub("", part, count=1).strip()
    return plain if plain != part.strip() or " " not in plain else ""  # "80 lb" is none


def _named(second: Expect) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(second.names)})\b[ :#.]*", re.IGNORECASE)


def known_head(first: Expect, text: str) -> Settled | None:
    """The known name that a line begins with, the longest one."""
    words = text.replace(",", " ").split()
    heads = (known_name(first, " ".join(words[:end])) for end in range(len(words), 0, -1))
    return next((each for each in heads if each), None)


def parted(first: Expect, second: Expect, text: str) -> tuple[str, str] | None:
    """The text of each name."""
    named = _named(second)
    line = " ".join(text.split())
    cut = PARTED.search(line) or named.search(line)
    if cut:
        head, rest = line[: cut.start()].strip(), line[cut.end() :]
        by_name = cut.re is named
        tail = named.sub("", rest, count=1).strip() if by_name else _lone_name(second, rest)
        return (head, tail) if head and tail else None
    head, _, tail = line.rpartition(" ")
    known = known_name(first, head) if head else None
    return (head, tail) if known and re.search(r"\d", tail) else None
