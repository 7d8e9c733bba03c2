"""A small job of our own for the terminal's tests: a name, a count, a stop, a list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import cache
from itertools import count
from types import TracebackType
from typing import Self

from assistant.book.book import Book
from assistant.book.nobook import NoBook
from assistant.dialogue.job import Job, job_of
from assistant.dialogue.messages import Message
from assistant.flow.load import load
from assistant.flow.model import Caution, Choice, Fact, Library, Part, Span, Step
from assistant.flow.place import flows_folder
from assistant.sitting.sitting import Sitting, open_sitting
from assistant.sitting.world import World
from assistant.terminal.screen import Screen

NAME = Fact("shed", "text", "Shed", ask="Which shed?", why="So that we know.", help="Its name.")
TUBS = Fact(
    "tubs",
    "rows",
    "Tubs",
    ask="How many tubs?",
    why="They must be enough.",
    help="Count them.",
    example="6",
    possible=Span("1", "40"),
)
DOOR = Fact(
    "door",
    "choice",
    "Door",
    ask="Which door?",
    choices=(Choice("left", "Left"), Choice("right", "Right")),
)
STEPS = (
    Step("shed", "ask", ("shed",)),
    Step("tubs", "ask", ("tubs",)),
    Step("door", "ask", ("door",)),
    Step("floor", "caution", ("wet_floor",)),
    Step("sweep", "say", say="Sweep the floor.", wait=True, exposes=("wet_floor",)),
    Step("done", "finish", ("swept",), say="The floor is clean."),
)
WET_FLOOR = Caution(
    "wet_floor", "stop", "STOP. A wet floor.\nPut on boots.", "Boots on?", "", ("boots",)
)


@cache
def library() -> Library:
    """The words that ship, over facts and a job of our own."""
    return replace(
        load(flows_folder()),
        facts={fact.name: fact for fact in (NAME, TUBS, DOOR)},
        cautions={"wet_floor": WET_FLOOR},
        jobs={"sweep": Part("sweep", "Sweep the shed", STEPS, {})},
        parts={},
    )


@cache
def job() -> Job:
    """The small job, compiled."""
    return job_of(library(), "sweep", {})


def world() -> World:
    """A clock that stands still, and ids that count up."""
    numbers = count(1)
    return World(
        clock=lambda: datetime(2026, 4, 14, 7, 30, tzinfo=UTC),
        chance=lambda size: next(numbers).to_bytes(size, "big"),
    )


def opened(book: Book | None = None) -> tuple[Sitting, tuple[Message, ...]]:
    """A conversation over a book in memory, at its first question."""
    return open_sitting(job(), book or NoBook(), world())


def screen(*, colour: bool = False) -> Screen:
    """A screen with the words that ship."""
    return Screen(library(), colour=colour)


@dataclass
class TypedLines:
    """A keyboard that types these lines, or presses what raises these; then it pauses."""

    lines: Sequence[str | type[BaseException]]
    offered: list[str] = field(default_factory=list)
    forgotten_before: list[int] = field(default_factory=list)

    def read(self, again: str = "") -> str:
        """The next line."""
        self.offered.append(again)
        if len(self.offered) > len(self.lines):
            raise EOFError
        line = self.lines[len(self.offered) - 1]
        if isinstance(line, str):
            return line
        raise line

    def forget_keys(self) -> None:
        """Remember before which line keys were thrown away."""
        self.forgotten_before.append(len(self.offered))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        value: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        return
