"""Lines one by one: as they are typed, and a pasted block once a person said yes to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from assistant.terminal.reading import MARK, Reader
from assistant.terminal.screen import Screen

MOST_LINES = 12  # a person can look over so many before one yes, on a small screen


@dataclass(slots=True)
class Lines:
    """What is typed, line by line; `waiting` holds the rest of a block that was agreed to."""

    screen: Screen
    reader: Reader
    waiting: list[str] = field(default_factory=list)

    def next(self, again: str = "") -> str:
        """The next line; `again` is a refused one, to be mended. Raises what the reader raises."""
        from assistant.answers.text import without_control

        question = self.screen.question
        while not self.waiting:
            typed = self.reader.read(again)
            again = ""
            kept, dropped = without_control(typed)
            if not dropped and "\n" not in kept:
                return typed
            self.waiting = self._agreed(kept, dropped)
            if not self.waiting:
                self.screen.question = question
                self.screen.repeat()
        line = self.waiting.pop(0)
        self.screen.lines([MARK + line])
        return line

    def leave_rest(self) -> None:
        """What is left of a block is not used for what nobody had read before; it is told."""
        if self.waiting:
            self.screen.ask("\n".join([self.screen.word("paste.rest"), *listed(self.waiting)]))
            self.waiting = []

    def _agreed(self, kept: str, dropped: int) -> list[str]:
        """The lines of a block, if a person wants them used."""
        from assistant.answers.yes_no import yes_no

        lines = [line.strip() for line in kept.split("\n") if line.strip()]
        if len(lines) > MOST_LINES:
            self.screen.ask(self.screen.word("paste.too_many", most=str(MOST_LINES)))
            return []
        title = [self.screen.word("paste.title"), *listed(lines)]
        signs = [self.screen.word("paste.dropped", count=str(dropped))] if dropped else []
        self.screen.ask("\n".join([*title, *signs, self.screen.word("paste.ask")]))
        if yes_no(self.reader.read()):
            return lines
        self.screen.ask(self.screen.word("paste.unused"))
        return []


def listed(lines: Sequence[str]) -> Iterator[str]:
    """Lines as a list."""
    return (f"- {line}" for line in lines)
