"""Jobs that were left half-way: which drill, what was settled last, how long ago, who has it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from itertools import islice
from typing import TYPE_CHECKING

from assistant.book.book import Book
from assistant.book.records import Holder, Talk
from assistant.flow.model import Library
from assistant.terminal.ago import ago
from assistant.terminal.screen import filled

if TYPE_CHECKING:
    from assistant.dialogue.job import Job

MOST = 5  # that a list shows
MOST_IN_MENU = 3  # beside its other lines, on twenty rows


@dataclass(frozen=True, slots=True)
class Left:
    """A conversation that was left. `holder` is the other program that has it open, if any."""

    talk: Talk
    drill: str
    last: str
    at: str
    holder: Holder | None = None


def lefts(book: Book, job: Callable[[str], Job | None], talks: Iterable[Talk]) -> list[Left]:
    """Each conversation that was left; `job` compiles the one of a name, none where it is gone."""
    return [left_of(book, job(talk.job), talk) for talk in talks]


def left_of(book: Book, job: Job | None, talk: Talk) -> Left:
    """Where a conversation stands; worked out again, so nothing of it is kept twice."""
    from assistant.book.holding import alive, me
    from assistant.dialogue.returning import last_told
    from assistant.dialogue.walk import DRILL
    from assistant.dialogue.wording import say
    from assistant.sitting.replaying import UNREADABLE, replay

    drill = last = ""
    with suppress(*UNREADABLE):  # then resume tells what is wrong with it
        if job:
            state = replay(job, book, talk).state
            drill, told = state.situation.choice(DRILL), last_told(job, state)
            last = say(job, "resume.last", name=told.label, value=told.value) if told else ""
    holder = book.holder(talk.id)
    other = holder and holder.who != me() and alive(holder.who)
    return Left(talk, drill, last, last_at(book, talk), holder if other else None)


def last_at(book: Book, talk: Talk) -> str:
    """When a conversation was last talked in."""
    events = book.events(talk.id)
    return events[-1].at if events else talk.started


def about(library: Library, left: Left) -> str:
    """The job and the drill that it is about."""
    job = library.jobs.get(left.talk.job)
    return ", ".join(filter(None, (job.title if job else left.talk.job, left.drill)))


def line(library: Library, left: Left, now: datetime) -> str:
    """What was left, what was settled last, and how long ago."""
    gone = filled(library.words["left.ago"], ago=ago(library.words, left.at, now))
    return " ".join(filter(None, (f"{about(library, left)}.", left.last, gone)))


def free(found: Iterable[Left], most: int) -> tuple[Left, ...]:
    """Those that nobody else has open."""
    return tuple(islice((each for each in found if each.holder is None), most))
