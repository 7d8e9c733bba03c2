"""Commands that a text tells a person to type: they name the book that this run was told to use."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar

_hint: ContextVar[tuple[re.Pattern[str], str] | None] = ContextVar("hint", default=None)


@contextmanager
def naming(program: str, commands: Iterable[str], book: str | None) -> Iterator[None]:
    """While it lasts, commands of the program that stand in a text name the book, if any."""
    typed = re.compile(rf"\b{program}(?= (?:{'|'.join(map(re.escape, commands))})\b)")
    before = _hint.set((typed, f"{program} --book {shlex.quote(book)}") if book else None)
    try:
        yield
    finally:
        _hint.reset(before)


def typable(text: str) -> str:
    """A text whose commands work as they stand."""
    hint = _hint.get()
    if hint is None:
        return text
    typed, named = hint
    return typed.sub(lambda _: named, text)
