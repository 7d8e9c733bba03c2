"""Notes on cards: written later, kept with their moment, never changed."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from assistant.terminal.commands import amiss
from assistant.terminal.desk import Desk, now
from assistant.terminal.reading import on_terminal
from assistant.terminal.safety import say
from assistant.terminal.screen import tell
from assistant.terminal.shelf import card_line, chosen, unknown

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.records import StoredCard

LONGEST = 500  # characters: a note, not a letter


def book_note(desk: Desk) -> int:
    """Keep a note on a card: the text that was typed, else ask for it."""
    book = desk.open_book()
    card = chosen(desk, book)
    if card is None:
        return unknown(desk)
    text = " ".join(desk.options.words) or asked_for(desk, card)
    return keep(desk, book, card, text)


def keep(desk: Desk, book: Book, card: StoredCard, text: str) -> int:
    """Store a note, unless it is empty or too long."""
    from assistant.book.ids import new_id
    from assistant.book.records import Note

    text = " ".join(text.split())
    if not text:
        return amiss(desk, "note.empty")
    if len(text) > LONGEST:
        return amiss(desk, "note.too_long", length=str(len(text)), most=str(LONGEST))
    book.add_note(Note(new_id(now(), os.urandom(10)), card.id, desk.world().now(), text))
    tell(say(desk, "note.kept", id=card.talk))
    return 0


def asked_for(desk: Desk, card: StoredCard) -> str:
    """The text, as a person at the keyboard types it; empty without one."""
    if not on_terminal():
        return ""
    desk.screen.ask(say(desk, "note.ask", line=card_line(desk.library, card)))
    try:
        return desk.reader.read()
    except EOFError:
        return ""
