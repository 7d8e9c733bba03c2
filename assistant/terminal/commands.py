"""The commands that lead to a conversation: start, a job by its name, resume; and the jobs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import TYPE_CHECKING, NoReturn

from assistant.terminal.desk import Desk, now
from assistant.terminal.leaving import INTERRUPTED, TROUBLE, USAGE, NotDone
from assistant.terminal.reading import on_terminal
from assistant.terminal.screen import filled, tell

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.records import Talk
    from assistant.dialogue.messages import Message
    from assistant.sitting.sitting import Sitting
    from assistant.terminal.left import Left
    from assistant.terminal.menu import Wish


def start(desk: Desk) -> int:
    """No job was named: ask one question, and do what is wished."""
    from assistant.terminal.left import MOST_IN_MENU, free

    if not on_terminal():
        return amiss(desk, "cli.no_terminal")
    book = desk.open_book()
    found = left_in(desk, book, book.unfinished()[: 2 * MOST_IN_MENU])
    return from_menu(desk, book, free(found, MOST_IN_MENU))


def from_menu(desk: Desk, book: Book, left: Sequence[Left]) -> int:
    """Ask what to do, and do it; `left` is what can be gone on with."""
    from assistant.book.wanted import Wanted
    from assistant.terminal.menu import first_wish

    asked = partial(first_wish, desk.screen, desk.reader, left, now())
    return wished(desk, book, partial(asked, cards=book.count(Wanted()) > 0))


def left_in(desk: Desk, book: Book, talks: Iterable[Talk]) -> list[Left]:
    """What was left; of what another program has open, who has it is told."""
    from assistant.terminal import left
    from assistant.terminal.elsewhere import open_since

    jobs = desk.library.jobs
    found = left.lefts(book, lambda name: desk.job(name) if name in jobs else None, talks)
    for each in found:
        if each.holder:
            tell(f"{left.about(desk.library, each)}. {open_since(desk, each.holder)}")
    return found


def wished(desk: Desk, book: Book, ask: Callable[[], Wish]) -> int:
    """Ask for a wish, and do it."""
    from assistant.terminal import menu

    try:
        wish = ask()
    except EOFError:
        return 0
    except KeyboardInterrupt:
        return INTERRUPTED
    match wish.command:
        case menu.JOB:
            return begin(desk, book, wish.about)
        case menu.RESUME:
            return again(desk, book, wish.about)
        case menu.MEND:
            return mend(desk, book)
        case menu.HELP:
            tell("\n" + desk.options.text())
            return 0
    tell("")
    return act(desk, wish.command)


def mend(desk: Desk, book: Book) -> int:
    """Open a card at its review, so that something on it can be put right; of several, ask."""
    from assistant.terminal.left import MOST
    from assistant.terminal.menu import RESUME, Wish, pick
    from assistant.terminal.shelf import card_line

    cards = book.cards(limit=MOST)
    if len(cards) == 1:
        return again(desk, book, cards[0].talk)
    lines = [(card_line(desk.library, each), Wish(RESUME, each.talk)) for each in cards]
    title = desk.screen.word("menu.which_card")
    return wished(desk, book, partial(pick, desk.screen, desk.reader, title, lines))


def act(desk: Desk, name: str) -> int:
    """A command on the book, as the menu offers it: about the newest card."""
    from assistant.terminal.book_commands import COMMANDS

    return COMMANDS[name].do(desk)


def hold(desk: Desk) -> int:
    """The job that was named."""
    return begin(desk, desk.open_book(), desk.options.job)


def begin(desk: Desk, book: Book, name: str) -> int:
    """A new conversation."""
    from assistant.sitting.ahead import with_ahead
    from assistant.sitting.saying import SHORT
    from assistant.sitting.sitting import open_sitting

    job = desk.job(name)
    sitting, said = open_sitting(
        job,
        book,
        desk.world(),
        system=desk.options.units or "us",
        scripted=desk.scripted,
        lends_book=desk.named_book or not desk.scripted,
    )
    if not desk.scripted and desk.options.say != SHORT:
        said = with_ahead(job, desk.usual_prompts(name), said)
    return desk.converse(sitting, said)


def resume(desk: Desk) -> int:
    """Go on with the conversation of an id, else with the one last talked in.

    A person is asked where several were left; what another program has open is not among them.
    """
    from assistant.terminal.left import MOST, free
    from assistant.terminal.menu import which_left

    book = desk.open_book()
    if desk.options.id:
        return again(desk, book, desk.options.id)
    talks = book.unfinished(include_scripted=True)
    if not talks:
        return amiss(desk, "shelf.nothing_left")
    if desk.scripted or len(talks) == 1:
        return again(desk, book, talks[0].id)
    left = free(left_in(desk, book, talks[: 2 * MOST]), MOST)
    if len(left) > 1:
        return wished(desk, book, partial(which_left, desk.screen, desk.reader, left, now()))
    return again(desk, book, (left[0].talk if left else talks[0]).id)


def again(desk: Desk, book: Book, sought: str) -> int:
    """Go on with a conversation; one that is finished opens at its review."""
    from assistant.dialogue.messages import Say
    from assistant.sitting.sitting import FINISHED, corrected, go_on
    from assistant.terminal.ago import ago
    from assistant.terminal.left import about, left_of

    talk = found(book, sought)
    if talk is None:
        return amiss(desk, "shelf.unknown", heard=sought)
    if talk.job not in desk.library.jobs:
        return amiss(desk, "shelf.no_such_job", job=talk.job)
    job = desk.job(talk.job)
    if any(event.kind == FINISHED for event in book.events(talk.id)):
        sitting, said = corrected(job, book, desk.world(), talk)
        return desk.converse(sitting, in_units(desk, sitting, said))
    ended = open_elsewhere(desk, book, talk)
    if ended is not None:
        return ended
    left = left_of(book, job, talk)
    gone = ago(desk.library.words, left.at, now())
    lends = desk.named_book or not desk.scripted
    asks = not desk.scripted  # a script was not away
    sitting, said = go_on(job, book, desk.world(), talk, lends_book=lends, asks_again=asks)
    hello = filled(job.word("resume.hello"), job=about(desk.library, left), ago=gone)
    return desk.converse(sitting, in_units(desk, sitting, (Say(hello), *said)))


def open_elsewhere(desk: Desk, book: Book, talk: Talk) -> int | None:
    """Take a conversation to go on with; the exit code where another window keeps it."""
    from assistant.terminal import elsewhere, menu

    holder = elsewhere.taken_by(book, talk.id)
    if holder is None:
        return None
    if desk.scripted:
        raise NotDone(TROUBLE, "open_elsewhere", elsewhere.open_since(desk, holder))
    try:
        wish = elsewhere.asked(desk, holder)
    except KeyboardInterrupt:
        return INTERRUPTED
    match wish:
        case elsewhere.TAKE:
            elsewhere.take(book, talk.id)
            return None
        case elsewhere.LOOK:
            return act(desk, menu.LIST)
        case elsewhere.OTHER:
            return from_menu(desk, book, ())
    return 0


def found(book: Book, sought: str) -> Talk | None:
    """A conversation by its id, or by the id of its card, or by the start of either."""
    talk = book.talk(sought)
    card = book.card(sought) if talk is None else None
    return book.talk(card.talk) if card else talk


def in_units(desk: Desk, sitting: Sitting, said: Sequence[Message]) -> Sequence[Message]:
    """What was said, in the units asked for."""
    from assistant.dialogue.events import Typed

    wanted = desk.options.units
    if not wanted or wanted == sitting.state.log.system:
        return said
    return sitting.hear(Typed(f"units {wanted}"))


def version(desk: Desk) -> int:
    """The version of the program, the format of its books, and of each job the flow."""
    from assistant import __version__
    from assistant.book.schema import VERSION
    from assistant.flow.graph import shape_of

    tell(f"drillside {__version__}")
    words = desk.library.words
    tell(filled(words["cli.book_format"], number=str(VERSION)))
    for name in desk.library.jobs:
        tell(filled(words["cli.flow"], job=name, shape=shape_of(desk.job(name).graph)))
    return 0


def list_jobs(desk: Desk) -> int:
    """The jobs, a line each."""
    words = desk.library.words
    for name, job in desk.library.jobs.items():
        tell(filled(words["cli.job"], name=name, title=job.title))
    return 0


def misread(desk: Desk, act: str) -> int:
    """What is done with refused lines, or how it stands with them."""
    from assistant.terminal.misread import ACTS

    return ACTS[act](desk)


def amiss(desk: Desk, name: str, **holes: str) -> NoReturn:
    """This can't be done as it was typed: raises NotDone with one sentence on why."""
    raise NotDone(USAGE, name.rpartition(".")[2], filled(desk.library.words[name], **holes))
