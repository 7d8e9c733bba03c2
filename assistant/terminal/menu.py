"""The first question of the program, when no job was named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from assistant.answers.by_number import by_number
from assistant.answers.text import heard
from assistant.book.book import Book
from assistant.book.records import Talk
from assistant.dialogue.log import fold
from assistant.dialogue.messages import Offer, Trouble
from assistant.flow.model import Library
from assistant.sitting.sitting import records_of
from assistant.terminal.ago import ago
from assistant.terminal.reading import Reader
from assistant.terminal.screen import Screen

RESUME, JOB, MORE = "resume", "job", "more"
LIST, COMPARE, NOTE, VERIFY, WHERE, HELP = "list", "compare", "note", "verify", "where", "help"
MORE_LINES = (LIST, COMPARE, NOTE, VERIFY, WHERE, HELP)


@dataclass(frozen=True, slots=True)
class Wish:
    """What a line of the menu stands for: a command, and the job or the id that it is about."""

    command: str
    about: str = ""


@dataclass(frozen=True, slots=True)
class Left:
    """A conversation that was left: its first answer tells people which it is."""

    talk: Talk
    name: str
    at: str


def last_left(book: Book) -> Left | None:
    """What was talked in last and not finished; runs by script are left out."""
    talks = book.unfinished()
    return left_of(book, talks[0]) if talks else None


def left_of(book: Book, talk: Talk) -> Left:
    """When a conversation was last talked in, and by which answer people know it."""
    events = book.events(talk.id)
    log = fold(records_of(book, talk.id))
    name = log.entries[0].settled if log.entries else ""
    return Left(talk, name, events[-1].at if events else talk.started)


def first_wish(screen: Screen, reader: Reader, left: Left | None, now: datetime) -> Wish:
    """Ask what to do, and under "more" what else. Raises what the reader raises."""
    library = screen.library
    lines = [(going_on(screen, left, now), Wish(RESUME, left.talk.id))] if left else []
    lines += [(job.title, Wish(JOB, name)) for name, job in library.jobs.items()]
    lines.append((screen.word("menu.more"), Wish(MORE)))
    wish = pick(screen, reader, screen.word("menu.title"), lines)
    if wish.command != MORE:
        return wish
    more = [(screen.word(f"menu.{name}"), Wish(name)) for name in MORE_LINES]
    return pick(screen, reader, screen.word("menu.more_title"), more)


def going_on(screen: Screen, left: Left, now: datetime) -> str:
    """The line that offers to go on, with what was left and how long ago."""
    library: Library = screen.library
    job = library.jobs.get(left.talk.job)
    return screen.word(
        "menu.go_on" if left.name else "menu.go_on_unnamed",
        job=job.title if job else left.talk.job,
        name=left.name,
        ago=ago(library.words, left.at, now),
    )


def pick(screen: Screen, reader: Reader, title: str, lines: Sequence[tuple[str, Wish]]) -> Wish:
    """One line of a numbered list: by its number, a job by its name, the first by Enter."""
    offer = Offer(title, tuple(label for label, _ in lines), screen.word("menu.ask"))
    screen.show([offer])
    while True:
        typed = reader.read().strip(" .!").lower()
        if typed in screen.library.commands["pause"]:
            raise EOFError
        if typed in screen.library.commands["help"]:
            return Wish(HELP)
        wish = picked(typed, [wish for _, wish in lines])
        if wish:
            return wish
        refused = screen.word("refused.not_a_number_of_the_list", heard=heard(typed))
        screen.show([Trouble("", refused), offer])


def picked(typed: str, wishes: Sequence[Wish]) -> Wish | None:
    """The wish that a typed line stands for."""
    if not typed:
        return wishes[0]
    if typed.isdecimal():
        at = by_number(typed, len(wishes))
        return None if at is None else wishes[at]
    return next((wish for wish in wishes if typed in {wish.command, wish.about}), None)
