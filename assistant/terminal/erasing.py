"""A drill or a card erased for good: what goes, the question, and where copies may still be."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from assistant.terminal.commands import amiss, found
from assistant.terminal.desk import Desk
from assistant.terminal.reading import on_terminal
from assistant.terminal.safety import agreed, say, unchanged
from assistant.terminal.screen import tell
from assistant.terminal.shelf import card_line, sought_in

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.erasing import Extent


def book_erase(desk: Desk) -> int:
    """Tell what goes, ask for the word, and write the book without it."""
    from assistant.book.erasing import erase, extent

    told = desk.options
    if not desk.keeps:
        return amiss(desk, "backup.no_book")
    if bool(told.drill) == bool(told.id):
        return amiss(desk, "erase.what")
    book = desk.open_book()
    talks = meant(desk, book)
    if not talks:
        return amiss(desk, "erase.unknown", heard=told.drill or told.id or "")
    whole = extent(book, talks)
    tell("\n".join(extent_lines(desk, book, whole)))
    if not told.yes:
        if not on_terminal():
            return amiss(desk, "erase.needs_yes")
        if not agreed(desk, "erase"):
            return unchanged(desk)
    erase(book, whole.talks)
    tell("\n".join(done_lines(desk, book)))
    return 0


def meant(desk: Desk, book: Book) -> set[str]:
    """The conversations that were named: of a drill, of a card, or one that was left."""
    from assistant.sitting.about import about

    if desk.options.drill:
        return about(book, desk.options.drill)
    sought = desk.options.id or ""
    card = sought_in(book, sought)
    talk = book.talk(card.talk) if card else found(book, sought)
    return {talk.id} if talk else set()


def extent_lines(desk: Desk, book: Book, whole: Extent) -> Iterator[str]:
    """What would go."""
    if len(whole.talks) == 1:
        card = book.card(*whole.talks)
        if card:
            yield card_line(desk.library, card)
    yield say(desk, "erase.goes", cards=whole.cards, jobs=len(whole.talks))
    if whole.following:
        yield say(desk, "erase.following", count=whole.following)
    if whole.mentions:
        yield say(desk, "erase.mentions", count=whole.mentions)


def done_lines(desk: Desk, book: Book) -> Iterator[str]:
    """That it is gone, and where copies may still be."""
    from assistant.book.backups import folder_of

    yield say(desk, "erase.done")
    yield say(desk, "erase.copies", path=folder_of(book.path))
