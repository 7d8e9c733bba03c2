"""A stand-in for a screen reader: it hears text that is only ever appended, its spaces collapsed.

Nothing hangs on a column, a color or a place on the screen: these never come through. Real ones
need a person with one.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator, Sequence
from contextlib import redirect_stdout
from dataclasses import dataclass, field

from assistant.dialogue.messages import Ask, Message, Offer, Todo, Trouble, Warn
from assistant.sitting.sitting import Sitting, open_sitting
from assistant.terminal.loop import converse
from assistant.terminal.reading import MARK, PlainReader
from assistant.terminal.screen import Screen
from tests.stories.play import _springs, book_after, job_named, library, world
from tests.stories.story import Story

ALONE = 60
"""Words at most of a turn that is a question alone, however much is said."""


class NotAppendedError(Exception):
    """Something was written that moves, erases or colors: a screen reader can't follow."""


class Spoken(io.StringIO):
    """All that was written. Raises NotAppendedError at a sign that only a screen can obey."""

    encoding = "utf-8"

    def write(self, text: str) -> int:
        """Take a text in."""
        for sign in text.replace("\r\n", "\n"):
            if sign != "\n" and not sign.isprintable():
                raise NotAppendedError(text)
        return super().write(text)

    def since(self, at: int) -> str:
        """What was written from here on, spaces collapsed."""
        return collapsed(self.getvalue()[at:])


def collapsed(text: str) -> str:
    """The words alone, one space between."""
    return " ".join(text.split())


@dataclass(frozen=True)
class Turn:
    """What was typed, what was shown to it, and the words of that as heard, with the mark."""

    typed: str
    shown: tuple[Message, ...]
    heard: str

    @property
    def words(self) -> int:
        """How many words were heard, the mark aside."""
        return len(self.heard.removesuffix(MARK.strip()).split())

    @property
    def asks_alone(self) -> bool:
        """Whether the turn is a question and nothing else."""
        return all(isinstance(each, Ask) for each in self.shown)

    @property
    def answerable(self) -> bool:
        """Whether what waits was heard in its order, and the mark stands after it.

        Where trouble ends a turn, what waits was heard before it, and it tells what to type.
        """
        at = 0
        for each in map(collapsed, self.waits()):
            at = self.heard.find(each, at)
            if at < 0:
                return False
            at += len(each)
        return self.heard[at:].strip() == MARK.strip()

    def waits(self) -> Iterator[str]:
        """What waits for an answer: a question, its choices by number, what to type."""
        match self.shown[-1]:
            case Ask():
                yield from asked(self.shown[-1])
            case Offer(text, choices, ask):
                yield from (text, *by_number(choices), ask)
            case Warn(text=text, ask=ask) | Todo(text, ask):
                yield from (text, ask)
            case Trouble(text=text):
                yield text


def asked(ask: Ask) -> Iterator[str]:
    """A question, its choices by number and what Enter takes; what has no choices ends with it."""
    *before, question = ask.text.strip().split("\n")
    enter = library().words["ask.enter"].format(proposal=ask.proposal) if ask.proposal else ""
    if ask.choices:
        yield from (*before, question, *by_number(ask.choices), library().words["ask.pick"], enter)
    else:
        yield from (*before, enter, question)


def by_number(choices: Sequence[str]) -> list[str]:
    """Choices as they have to be heard."""
    return [f"{number} {choice}" for number, choice in enumerate(choices, 1)]


@dataclass(slots=True)
class Noting(Screen):
    """A plain screen that notes which messages it was to show."""

    shown: list[Message] = field(default_factory=list)

    def show(self, messages: Sequence[Message], pictures: Iterable[Sequence[str]] = ()) -> None:
        """Write messages."""
        self.shown += messages
        super(Noting, self).show(messages, pictures)


class Listener(PlainReader):
    """A person who listens and types these lines, each after all that was said before it."""

    def __init__(self, screen: Noting, spoken: Spoken, lines: Sequence[str]) -> None:
        super().__init__(screen)
        self.noting, self.spoken, self.lines = screen, spoken, list(lines)
        self.turns: list[Turn] = []
        self.typed, self.answered_at = "", 0

    def read(self, again: str = "") -> str:
        """The next line, after the mark; it stands in the text as a terminal echoes it."""
        del again
        self._mark()
        heard = self.spoken.since(self.answered_at)
        self.turns.append(Turn(self.typed, tuple(self.noting.shown), heard))
        if not self.lines:
            self._end_line()
            raise EOFError
        self.typed = line = self.lines.pop(0)
        self.spoken.write(f"{line}\n")
        self.noting.shown.clear()
        self.answered_at = len(self.spoken.getvalue())
        return line

    def forget_keys(self) -> None:
        """Nothing is typed ahead."""


@dataclass(frozen=True)
class Listened:
    """A story that was listened to: its sitting, all its text, and its turns."""

    sitting: Sitting
    text: str
    turns: list[Turn]


def listened(story: Story, level: str = "normal") -> Listened:
    """A story told in plain mode at a level of saying to somebody who listens."""
    sitting, said = open_sitting(
        job_named(story.job), book_after(story.after), world(_springs(story)), system=story.units
    )
    said = sitting.saying.begun(level, said)
    screen, spoken = Noting(library(), plain=True), Spoken()
    listener = Listener(screen, spoken, [text for _, text in story.moves])
    with redirect_stdout(spoken):
        converse(sitting, said, screen, listener)
    return Listened(sitting, spoken.getvalue(), listener.turns)
