"""The lines of an answers file or of standard input: one for each prompt."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

STANDARD_INPUT = "-"
COMMENT = "#"


@dataclass(slots=True)
class Lines:
    """Typed lines one after the other, counted; a line that starts with # is a comment."""

    name: str
    source: Iterable[str] = field(repr=False)
    number: int = 0

    def following(self) -> str | None:
        """The next line that answers something, or None when there is no more."""
        for line in self.source:
            self.number += 1
            if not line.startswith(COMMENT):
                return line.rstrip("\r\n")
        return None


def typed_lines(answers: str | None, *, standard: bool) -> Lines | None:
    """The lines of an answers file, or of standard input.

    Raises: OSError for a file that is not there, UnicodeDecodeError for one that is not text.
    """
    if answers and answers != STANDARD_INPUT:
        text = Path(answers).read_text(encoding="utf-8-sig")
        return Lines(Path(answers).name, iter(text.splitlines()))
    return Lines(STANDARD_INPUT, sys.stdin) if answers or standard else None
