"""A list gone through line by line. The conversation hears one "done" for the whole of it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from assistant.answers.yes_no import is_done
from assistant.dialogue.messages import Message, Todo, Trouble

NUMBERED = re.compile(r"\d+ ")


@dataclass(slots=True)
class LineByLine:
    """The list that waits, and how many of its lines are done."""

    waits: Todo | None = None
    done: int = 0

    def cut(self, said: Sequence[Message], *, teach: bool) -> Sequence[Message]:
        """The messages; of a list that waits at their end only the line that is due."""
        last = said[-1] if said else None
        if isinstance(last, Trouble):
            return said  # the list still waits and is not put again
        if not teach or not isinstance(last, Todo) or len(lines_of(last)) < 2:  # noqa: PLR2004  one line is no list
            self.waits = None
            return said
        if last != self.waits:
            self.waits, self.done = last, 0
        return (*said[:-1], *self.due())

    def due(self) -> tuple[Todo, ...]:
        """The line of the list that is to be done now."""
        if self.waits is None:
            return ()
        return (replace(self.waits, text=lines_of(self.waits)[self.done]),)

    def goes_on(self, typed: str) -> bool:
        """Whether a typed line takes the list on to its next line; the last "done" ends it."""
        more = self.waits is not None and self.done + 1 < len(lines_of(self.waits))
        if not more or not is_done(typed):
            return False
        self.done += 1
        return True


def lines_of(todo: Todo) -> list[str]:
    """The lines of a list, its head with the first; an instruction without numbers is one."""
    head, *lines = re.split(rf"\n(?={NUMBERED.pattern})", todo.text.strip())
    if not lines or NUMBERED.match(head):
        return [head, *lines]
    return [f"{head}\n{lines[0]}", *lines[1:]]
