"""What a piece of a line can tell beyond the question: only what names its fact or can be no other.

Never by a unit of length or weight alone: inches are spacing, opening and distance.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from assistant.answers.choice import known_name
from assistant.answers.expect import Expect, Reading, Settled, Trouble
from assistant.answers.measure import TIMES
from assistant.answers.number import NUMBER
from assistant.answers.phrase import phrase
from assistant.answers.read import read
from assistant.answers.text import KEPT, unaccented

UNITS_TOO = {"seeds"}
"""Names that are a unit behind a number: "1.2M seeds" is a target, "seeds 12,500" their size."""

BARE = {"yes", "no", "y", "n", "si", "yep", "nope", "maybe", "unsure", "not sure"}
"""Words that answer a question, and tell nothing where none was asked: "no scale", "no rush"."""


@dataclass(frozen=True, slots=True)
class Told:
    """What a piece tells of a fact: of one asked, or (`early`) of one that is asked later."""

    fact: str
    reading: Reading
    early: bool = False


def early(others: Sequence[Expect], piece: str) -> Told | None:
    """The one fact among `others` that a piece tells, if it names it or can be nothing else."""
    named = [(len(name), each) for each in others if (name := its_name(each, piece))]
    longest = max((length for length, _ in named), default=0)
    told = _only([_told(each, piece) for length, each in named if length == longest])
    wordy = not re.search(r"\d", piece)
    if told or (named and not wordy) or unaccented(piece.lower()) in BARE:
        return told
    if wordy:  # "no scale" ends in a name, and is a choice
        chosen = [_chosen(each, piece) for each in others if each.kind == "choice"]
        return _only([*chosen, *(_known(each, piece) for each in others)])
    unit = _unit(piece)
    if not unit:
        return None
    takers = others if _is_composite(unit) else [each for each in others if each.by_unit]
    return _only([_told(each, piece) for each in takers if each.kind not in ("text", "choice")])


def opens_with_its_fact(others: Sequence[Expect], piece: str) -> bool:
    """Whether a piece says at once what it is about: by a name, a known name, a unit like lb/ac."""
    said = unaccented(piece.lower())
    own = (its_name(each, piece) for each in others)
    named = any(name and said.startswith(name) for name in own)
    return named or any(_known(e, piece) for e in others) or _is_composite(_unit(piece))


def its_name(expect: Expect, piece: str) -> str:
    """The longest name of the fact that a piece begins or ends with, "" if none."""
    return _longest(expect.names, unaccented(piece.lower()))


@lru_cache(maxsize=KEPT)
def _longest(names: tuple[str, ...], said: str) -> str:
    found = [name for name in map(unaccented, names) if _stands(name, said)]
    return max(found, key=len, default="")


def _stands(name: str, said: str) -> bool:
    if name not in said:
        return False
    edge = re.escape(name)
    begins = bool(re.match(rf"{edge}\b\s*[\w.,]", said))
    return begins or (name not in UNITS_TOO and bool(re.search(rf"(?:\d|\s){edge}$", said)))


def _told(expect: Expect, piece: str) -> Told | None:
    if expect.kind in ("text", "choice"):
        piece = piece[len(its_name(expect, piece)) :].strip(" :=,")
        if expect.kind == "text" and (not piece or " " in piece):
            return None  # a name in the middle of a line is one word long
    reading = read(expect, piece)
    return Told(expect.fact, reading, early=True) if isinstance(reading, Settled) else None


def _chosen(expect: Expect, piece: str) -> Told | None:
    reading = read(expect, piece)
    clear = isinstance(reading, Settled) and reading.clear
    return Told(expect.fact, reading, early=True) if clear else None


def _known(expect: Expect, piece: str) -> Told | None:
    """A known name of a text, such as a crop."""
    known = known_name(expect, piece) if expect.kind == "text" and expect.choices else None
    return Told(expect.fact, known, early=True) if known else None


def _only(told: Sequence[Told | None]) -> Told | None:
    found = [each for each in told if each]
    return found[0] if len(found) == 1 else None


def _unit(piece: str) -> str:
    """The words after the first number of a piece and its multiplier."""
    said = unaccented(piece.lower())
    number = re.search(NUMBER, said)
    after = said[number.end() :].strip() if number else ""
    return TIMES.sub("", after, count=1) if TIMES.match(after) else after


def _is_composite(unit: str) -> bool:
    """Whether a unit is of one thing per another, such as lb/ac."""
    try:
        return phrase(unit).below not in ("", "each")
    except Trouble:
        return False
