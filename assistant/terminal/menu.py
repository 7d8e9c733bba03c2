"""The first question of the program, when no job was named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from assistant.answers.by_number import by_number
from assistant.answers.text import heard, unaccented
from assistant.dialogue.messages import Message, Offer, Say, Trouble
from assistant.flow.model import Library
from assistant.terminal.left import Left, line
from assistant.terminal.reading import Reader
from assistant.terminal.screen import Screen

RESUME, JOB, MEND, MORE, BACK = "resume", "job", "mend", "more", "back"
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

    Jobs that end in a card come first: they are what people mostly come for.

    Raises what the reader raises.
    """
    library = screen.library
    ways = ways_on(screen, left, now)
    lines = [(screen.word("menu.go_on", left=label), wish) for label, wish in ways]
    jobs = {name: (library.jobs[name].title, Wish(JOB, name)) for name in in_order(library)}
    ends_in_card = [name for name in jobs if any(s.card for s in library.jobs[name].steps)]
    lines += [jobs.pop(name) for name in ends_in_card]
    lines += [(screen.word(f"menu.{MEND}"), Wish(MEND))] if cards else []
    lines += jobs.values()
    lines.append((screen.word("menu.more"), Wish(MORE)))
    more = [(screen.word(f"menu.{name}"), Wish(name)) for name in (*MORE_LINES, BACK)]
    while True:
        wish = pick(screen, reader, screen.word("menu.title"), lines, screen.word("menu.about"))
        if wish.command != MORE:
            return wish
        wish = pick(screen, reader, screen.word("menu.more_title"), more)
        if wish.command != BACK:
            return wish


def in_order(library: Library) -> list[str]:
    """The jobs as the phrases for them are ordered, the commonest first; others behind."""
    phrased = [name for name in library.words if name.startswith("meant.")]
    places = {name: at for at, name in enumerate(phrased)}
    return sorted(library.jobs, key=lambda name: places.get(f"meant.{name}", len(phrased)))


def which_left(screen: Screen, reader: Reader, left: Sequence[Left], now: datetime) -> Wish:
    """Ask which of several jobs to go on with. Raises what the reader raises."""
    return pick(screen, reader, screen.word("left.title"), ways_on(screen, left, now))


def ways_on(screen: Screen, left: Sequence[Left], now: datetime) -> list[tuple[str, Wish]]:
    """A line for each job that was left."""
    return [(line(screen.library, each, now), Wish(RESUME, each.talk.id)) for each in left]


def pick(
    screen: Screen,
    reader: Reader,
    title: str,
    lines: Sequence[tuple[str, Wish]],
    about: str = "",
) -> Wish:
    """One line of a numbered list: by its number or its name, said so, or the first by Enter.

    `about` tells of the list where help is asked for. Raises EOFError for a word that leaves.
    """
    offer = Offer(title, tuple(label for label, _ in lines), screen.word("menu.ask"))
    wishes = [wish for _, wish in lines]
    screen.show([offer])
    while True:
        typed = reader.read().strip(" .!").lower()
        if typed in screen.library.commands["pause"]:
            raise EOFError
        wish = picked(typed, wishes) or said_so(screen, typed, wishes)
        if wish:
            return wish
        screen.show([*answer(screen, typed, about), offer])


def answer(screen: Screen, typed: str, about: str) -> list[Message]:
    """What is said to a line that stands for no wish: about the list, or that it is not on it."""
    commands = screen.library.commands
    if typed in {*commands["help"], *commands["why"]} or said(screen, HELP, typed):
        return [Say(about)] if about else []
    refused = screen.word("refused.not_a_number_of_the_list", heard=heard(typed))
    return [Trouble("", refused)]


def picked(typed: str, wishes: Sequence[Wish]) -> Wish | None:
    """The wish that a typed line stands for."""
    if not typed:
        return wishes[0]
    if typed.isdecimal():
        at = by_number(typed, len(wishes))
        return None if at is None else wishes[at]
    return next((wish for wish in wishes if typed in {wish.command, wish.about}), None)


def said_so(screen: Screen, typed: str, wishes: Sequence[Wish]) -> Wish | None:
    """The wish that a line says in other words; none where it says two as well."""
    found = {wish: said(screen, phrased(wish), typed) for wish in wishes}
    most = max(found.values(), default=0)
    best = [wish for wish, words in found.items() if words == most]
    return best[0] if most and len(best) == 1 else None


def phrased(wish: Wish) -> str:
    """What the phrases for a wish stand under: a job by its name, all else by its command."""
    return wish.about if wish.command == JOB else wish.command


def said(screen: Screen, what: str, typed: str) -> int:
    """How many words of a line say this, by the longest of the phrases for it; 0 for none."""
    words = set(unaccented(typed).strip("?").split())
    phrases = screen.library.words.get(f"meant.{what}", "").split("|")
    return max((len(each) for each in map(str.split, phrases) if words.issuperset(each)), default=0)
