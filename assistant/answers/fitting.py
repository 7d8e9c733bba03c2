"""Whether a text fits a fact so well that nobody would ask about it."""

from __future__ import annotations

from difflib import get_close_matches

from assistant.answers.choice import known_name
from assistant.answers.expect import Expect, Refusal, Settled
from assistant.answers.read import read
from assistant.answers.slips import judge
from assistant.answers.unit_words import UNITS

ALIKE, MOST_UNITS = 0.7, 5
"""How alike a word must be to a unit to be taken for a slip of it, and how many are tried."""


def is_choice(wanted: Expect, said: str) -> bool:
    """Whether a text is clearly one of the choices, or a known name, of a fact."""
    if wanted.kind == "text":
        return known_name(wanted, said) is not None
    reading = read(wanted, said) if wanted.kind == "choice" else None
    return isinstance(reading, Settled) and reading.clear


def is_usual(wanted: Expect, said: str) -> bool:
    """Whether a text reads as one value that nobody would ask about."""
    reading = read(wanted, said) if wanted.kind not in {"text", "choice"} else None
    return isinstance(reading, Settled) and judge(wanted, reading) is None


def likely_unit(wanted: Expect, refusal: Refusal) -> Settled | None:
    """A refused value with the unit that its unknown word looks like: "40 tuns" is 40 turns."""
    typed = dict(refusal.about).get("unit", "")
    near = get_close_matches(typed, UNITS, n=MOST_UNITS, cutoff=ALIKE) if typed else []
    for unit in near:
        told = refusal.heard.replace(typed, unit)
        reading = read(wanted, told) if is_usual(wanted, told) else None
        if isinstance(reading, Settled):
            return reading
    return None
