"""Whether a text fits a fact so well that nobody would ask about it."""

from __future__ import annotations

from assistant.answers.choice import known_name
from assistant.answers.expect import Expect, Settled
from assistant.answers.read import read
from assistant.answers.slips import judge


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
