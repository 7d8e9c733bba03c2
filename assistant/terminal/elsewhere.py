"""A job that another window has open: who has it, and what to do about it."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from typing import TYPE_CHECKING

from assistant.terminal.desk import Desk, now
from assistant.terminal.safety import choice, say

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.records import Holder
    from assistant.sitting.sitting import Sitting

LOOK, OTHER, TAKE = "look", "other", "take"


def taken_by(book: Book, talk_id: str) -> Holder | None:
    """Who else has a conversation open; else it is ours from now on.

    One whose holder has died is taken without a word.
    """
    from assistant.book.holding import alive, me

    other = book.hold(talk_id, me(), now().isoformat())
    if other and not alive(other.who):
        take(book, talk_id)
        return None
    return other


def take(book: Book, talk_id: str) -> None:
    """Take a conversation, whoever has it: they are told at their next answer."""
    from assistant.book.holding import me

    book.take_over(talk_id, me(), now().isoformat())


def let_go(sitting: Sitting) -> None:
    """Nobody here has the conversation open any more; trouble with the book is told elsewhere."""
    from assistant.book.holding import me
    from assistant.book.problems import BookProblem

    if sitting.kept:
        with suppress(BookProblem):
            sitting.book.let_go(sitting.id, me())


def asked(desk: Desk, holder: Holder) -> str:
    """What a person wants to do instead, or all the same; empty to leave."""
    lines = [(desk.library.words[f"elsewhere.{name}"], name) for name in (LOOK, OTHER, TAKE)]
    return choice(desk, "elsewhere.title", lines, open=open_since(desk, holder))


def open_since(desk: Desk, holder: Holder) -> str:
    """Where and since when the job is open."""
    from assistant.book.holding import machine

    name, _, process = holder.who.rpartition(" ")
    since = datetime.fromisoformat(holder.since).astimezone()
    at = (
        f"{since:%H:%M}" if since.date() == now().astimezone().date() else f"{since:%Y-%m-%d %H:%M}"
    )
    where = "elsewhere.here" if name == machine() else "elsewhere.there"
    return say(desk, where, time=at, process=process, machine=name)
