"""Messages on the screen: folded, set apart, the question last."""

from __future__ import annotations

import re
import shutil
import sys
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import TextIO

from assistant.dialogue.messages import (
    Ask,
    Finish,
    Message,
    Offer,
    Paused,
    Review,
    Todo,
    Warn,
)
from assistant.flow.model import Library
from assistant.sitting.plain_text import folded, harmless, texts_of
from assistant.terminal.hints import typable
from assistant.terminal.signs import showable

HOLE = re.compile(r"\{(\w+)\}")

NARROWEST, WIDEST = 20, 72
BOLD, BOLD_RED, PLAIN = "\x1b[1m", "\x1b[1;31m", "\x1b[0m"
GAPS = 3  # the empty lines round a picture, and the line that is typed
APART = (Ask, Warn, Todo, Offer, Review, Finish, Paused)
"""What is set apart from the lines above it."""


def width() -> int:
    """The columns that a line may fill just now."""
    return max(NARROWEST, min(shutil.get_terminal_size().columns, WIDEST))


def height() -> int:
    """The lines that the screen holds just now."""
    return shutil.get_terminal_size().lines


def tell(text: str, out: TextIO | None = None) -> None:
    """Write a text folded, on standard output unless told otherwise."""
    write(laid_out(text), out or sys.stdout)


def laid_out(text: str) -> list[str]:
    """A text folded to the terminal, its empty lines kept and its paths whole."""
    fold = partial(textwrap.wrap, width=width(), break_long_words=False, break_on_hyphens=False)
    return [each for line in harmless(typable(text)).split("\n") for each in fold(line) or [""]]


def write(lines: Sequence[str], out: TextIO) -> None:
    """Write lines in signs that the terminal can show, and see them out."""
    encoding = out.encoding or "ascii"
    out.writelines(showable(line, encoding) + "\n" for line in lines)
    out.flush()


@dataclass(slots=True)
class Screen:
    """Where a conversation is written. `colour` marks what the words say already."""

    library: Library
    colour: bool = False
    plain: bool = False
    begun: bool = False
    question: list[str] = field(default_factory=list)

    def show(self, messages: Sequence[Message], pictures: Iterable[Sequence[str]] = ()) -> None:
        """Write messages; a picture comes before the first that is set apart.

        It is the first that pushes no words off the screen.
        """
        room = height() - self.rows(messages) - GAPS
        picture = next((each for each in pictures if len(each) <= room), ())
        lines: list[str] = []
        drawn = False
        last = 0
        for number, message in enumerate(messages):
            if isinstance(message, APART):
                lines += () if drawn else self._set_apart(picture)
                drawn = True
                if (self.begun or lines) and not follows_review(messages, number):
                    lines.append("")
                last = len(lines)
            lines += self._lines(message)
        write(lines if drawn else [*lines, *picture], sys.stdout)
        self.begun = self.begun or bool(lines)
        self.question = lines[last:]

    def rows(self, messages: Sequence[Message]) -> int:
        """The rows that messages fill, without those between them."""
        return sum(len(list(self._lines(message))) for message in messages)

    def ask(self, text: str) -> None:
        """Write a question that is no part of a conversation."""
        self.question = laid_out(text)
        self.repeat()

    def repeat(self) -> None:
        """Write the last question again, as it stood there."""
        write(self.question, sys.stdout)

    def lines(self, lines: Sequence[str]) -> None:
        """Write lines that are laid out already, such as a card, set apart."""
        write([harmless(line) for line in ["", *lines]], sys.stdout)

    def word(self, name: str, /, **holes: str) -> str:
        """A sentence of the program's own with its holes filled."""
        return filled(self.library.words[name], **holes)

    def _set_apart(self, picture: Sequence[str]) -> list[str]:
        return ["", *picture] if picture else []

    def _lines(self, message: Message) -> Iterator[str]:
        for text in texts_of(self.library, message):
            for line in folded(typable(text), width()):
                yield self._styled(line, text, message)

    def _styled(self, line: str, text: str, message: Message) -> str:
        if not self.colour or not line:
            return line
        if isinstance(message, Warn) and line.startswith(self.library.words["screen.stop"]):
            return f"{BOLD_RED}{line}{PLAIN}"
        return f"{BOLD}{line}{PLAIN}" if text == question_of(message) else line


def follows_review(messages: Sequence[Message], number: int) -> bool:
    """Whether a message is the question that belongs to the review above it."""
    return number > 0 and isinstance(messages[number - 1], Review)


def question_of(message: Message) -> str:
    """The part of a message that waits for an answer."""
    match message:
        case Ask():
            return message.text.rstrip().rpartition("\n")[2]
        case Warn() | Todo() | Offer():
            return message.ask
    return ""


def filled(text: str, /, **holes: str) -> str:
    """A text with its `{holes}` filled, in one pass: what is filled in is never filled again."""
    return HOLE.sub(lambda hole: holes.get(hole[1], hole[0]), text)
