"""A conversation held over a book, left and taken up at will, by a clock that is moved by hand."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count

from assistant.book.ids import CHANCE_BYTES
from assistant.book.nobook import NoBook
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Message
from assistant.dialogue.situation import Open
from assistant.sitting.imported import Reads
from assistant.sitting.sitting import Sitting, go_on, open_sitting
from assistant.sitting.world import World
from tests.book.exchanging import file_of, taken
from tests.stories.play import book_after, job_named, library

STARTS = {
    "calibrate": ("", "fluted_plants", "cup_hundred", "two_halves"),
    "air": ("", "air_ground", "air_electric"),
    "recheck": ("fluted_plants", "cup_hundred", "two_halves", "fluted_pounds"),
    "fault": ("", "fluted_plants"),
    "field": ("", "fluted_plants"),
    "mix": ("",),
}
"""Stories whose book a job may begin with; without one it is empty."""

PAUSES = (timedelta(minutes=5), timedelta(hours=5), timedelta(days=4))
"""How long somebody stays away: a moment, half a day, until next week."""


@dataclass
class Talk:
    """One conversation of a job; `after` is the story whose book it begins with."""

    job: Job
    after: str = ""
    now: datetime = datetime(2027, 4, 14, 7, 30, tzinfo=UTC)
    numbers: count[int] = field(default_factory=lambda: count(1000))
    book: NoBook = field(init=False)
    sitting: Sitting = field(init=False)
    said: tuple[Message, ...] = ()
    typed: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.book = book_after(self.after)
        self.begin()

    def begin(self) -> None:
        """Open the job anew."""
        self.sitting, self.said = open_sitting(self.job, self.book, self._world)

    @property
    def _world(self) -> World:
        return World(
            clock=lambda: self.now,
            chance=lambda size: next(self.numbers).to_bytes(CHANCE_BYTES, "big").ljust(size, b"-"),
        )

    @property
    def state(self) -> State:
        """Where it stands."""
        return self.sitting.state

    @property
    def open(self) -> Open:
        """The open question."""
        assert self.state.situation.open is not None
        return self.state.situation.open

    @property
    def ended(self) -> bool:
        """Whether the job has come to its end."""
        return self.open.kind == "ended"

    def type(self, line: str) -> tuple[Message, ...]:
        """One typed line, and what is said to it."""
        self.typed.append(line)
        self.said = self.sitting.hear(Typed(line))
        return self.said

    def come_back(self, away: timedelta = timedelta()) -> tuple[Message, ...]:
        """The program is gone, however it went; the job is taken up again from the book."""
        self.typed.append(f"! away {away}")
        self.now += away
        talk = self.book.talk(self.sitting.id)
        if talk is None:  # nothing was answered yet, so nothing is kept
            self.begin()
        else:
            self.sitting, self.said = go_on(self.job, self.book, self._world, talk)
        return self.said


MIX = ("oats peas", "60 40", "mixed", "don't know")
OTHERS_FROM = 9_000
"""Where the numbers of the other machine begin, so that no id is given twice."""


@cache
def others_book() -> bytes:
    """The book of another machine, as a file: a mix that was planned there."""
    there = Talk(job_named("mix"), numbers=count(OTHERS_FROM))
    for line in MIX:
        there.sitting.hear(Typed(line))
    assert there.ended
    return file_of(there.book)


def moved(book: NoBook) -> NoBook:
    """A book of another machine that this one was merged into, twice; the second time adds none.

    It holds a finished job without a card, so that no card is offered which the model knows not of.
    """
    found = NoBook()
    assert taken(found, others_book(), Reads(library())).refusals == []
    assert taken(found, file_of(book), Reads(library())).refusals == []
    once = file_of(found)
    assert taken(found, file_of(book), Reads(library())).refusals == []
    assert file_of(found) == once
    return found


def talk_of(job: str, after: str = "") -> Talk:
    """A new conversation of a job that ships."""
    return Talk(job_named(job), after)
