"""The first question of the program, when no job was named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from assistant.answers.by_number import by_number
from assistant.answers.text import heard
from assistant.dialogue.messages import Offer, Trouble
from assistant.terminal.left import Left, line
from assistant.terminal.reading import Reader
from assistant.terminal.screen import Screen

RESUME, JOB, MEND, MORE = "resume", "job", "mend", "more"
LIST, COMPARE, NOTE, VERIFY, WHERE, HELP = "list", "compare", "note", "verify", "where", "help"
MORE_LINES = (LIST, COMPARE, NOTE, VERIFY, WHERE, HELP)


@dataclass(frozen=True, slots=True)
class Wish:
    """What a line of the menu stands for: a command, and the job or the id that it is about."""

    command: str
    about: str = ""


def first_wish(
    screen: Screen, reader: Reader, left: Sequence[Left], now: datetime, *, cards: bool = False
) -> Wish:
    """Ask what to do, and under "more" what else; `cards` says whether there is one to mend.

    Raises what the reader raises.
    """
    library = screen.library
    ways = ways_on(screen, left, now)
    lines = [(screen.word("menu.go_on", left=label), wish) for label, wish in ways]
    lines += [(job.title, Wish(JOB, name)) for name, job in library.jobs.items()]
    lines += [(screen.word(f"menu.{MEND}"), Wish(MEND))] if cards else []
    lines.append((screen.word("menu.more"), Wish(MORE)))
    wish = pick(screen, reader, screen.word("menu.title"), lines)
    if wish.command != MORE:
        return wish
    more = [(screen.word(f"menu.{name}"), Wish(name)) for name in MORE_LINES]
    return pick(screen, reader, screen.word("menu.more_title"), more)


def which_left(screen: Screen, reader: Reader, left: Sequence[Left], now: datetime) -> Wish:
    """Ask which of several jobs to go on with. Raises what the reader raises."""
    return pick(screen, reader, screen.word("left.title"), ways_on(screen, left, now))


def ways_on(screen: Screen, left: Sequence[Left], now: datetime) -> list[tuple[str, Wish]]:
    """A line for each job that was left."""
    return [(line(screen.library, each, now), Wish(RESUME, each.talk.id)) for each in left]


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
