"""The record book on the screen: its cards in a list, one in full, and where the files are."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.flow.model import Library
from assistant.sitting.plain_text import harmless
from assistant.terminal.leaving import USAGE
from assistant.terminal.screen import filled, tell, write

if TYPE_CHECKING:
    from assistant.book.records import StoredCard
    from assistant.terminal.desk import Desk

ALL = 1_000_000  # more cards than a life of drilling makes


def list_lines(library: Library, cards: Iterable[StoredCard]) -> list[str]:
    """One line a card, in the order given; a line that says so when there is none."""
    words = library.words
    lines = [
        filled(
            words["shelf.line"],
            date=card.at[:10],
            drill=card.drill,
            crop=card.crop,
            lot=card.lot,
            outcome=words.get(f"shelf.{card.outcome}", card.outcome),
            id=card.talk,
        )
        for card in cards
    ]
    return lines or [words["shelf.empty"]]


def show_lines(library: Library, card: StoredCard) -> Iterator[str]:
    """A card with every fact that it holds and where each came from."""
    yield from list_lines(library, [card])
    halves: dict[str, list[str]] = {}
    for name, fact in card.facts.items():
        prefix, _, bare = name.rpartition(".")
        if isinstance(fact, Mapping) and bare in library.facts:
            halves.setdefault(prefix, []).append(fact_line(library.facts[bare].label, fact))
    for prefix, lines in halves.items():
        if prefix:
            yield library.card.half
        yield from lines


def fact_line(label: str, fact: Mapping[str, Any]) -> str:
    """One fact: what it is, its value, and where it came from."""
    origin = fact.get("from", "")
    return f"- {label}: {fact.get('shown', '')}" + (f" ({origin})" if origin else "")


def where_lines(library: Library, places: Mapping[str, Path]) -> Iterator[str]:
    """Where each kind of file lies, and how big it is if it is there."""
    for name, path in places.items():
        size = path.stat().st_size if path.is_file() else None
        text = library.words[f"where.{name}"]
        tail = library.words["where.size"].replace("{size}", f"{size:,}") if size else ""
        yield filled(text, path=str(path)) + tail


# -- the commands -----------------------------------------------------------------------------


def book_list(desk: Desk) -> int:
    """The cards, newest first, a line each."""
    wanted = desk.options
    cards = desk.open_book().cards(
        wanted.drill, wanted.crop, wanted.lot, limit=ALL, include_scripted=wanted.all
    )
    for line in list_lines(desk.library, cards):
        tell(line)
    return 0


def book_show(desk: Desk) -> int:
    """All that a card holds."""
    card = chosen(desk)
    if card is None:
        return unknown(desk)
    for line in show_lines(desk.library, card):
        tell(line)
    return 0


def book_card(desk: Desk) -> int:
    """The card for the lid, as it was made; with `--page` as a page to print."""
    card = chosen(desk)
    if card is None:
        return unknown(desk)
    if desk.options.page is not None:
        from assistant.terminal.printing import print_page

        return print_page(desk, card, desk.options.page)
    write([harmless(str(line)) for line in card.lines], sys.stdout)
    return 0


def book_where(desk: Desk) -> int:
    """Where the files are; the book itself is not opened, so that this works for any."""
    from assistant.book.backups import folder_of
    from assistant.book.places import NONE, book_path, data_folder, report_folder, told_path

    places: dict[str, Path] = {}
    if told_path(desk.options.book, os.environ) != NONE:
        book = book_path(desk.options.book, os.environ)
        places = {"book": book, "backups": folder_of(book)}
    places |= {"folder": data_folder(), "reports": report_folder(), "flows": desk.folder}
    for line in where_lines(desk.library, places):
        tell(line)
    return 0


def chosen(desk: Desk) -> StoredCard | None:
    """The card of the id that was typed, else the newest."""
    book = desk.open_book()
    if desk.options.id:
        return book.card(desk.options.id)
    return next(iter(book.cards(limit=1)), None)


def unknown(desk: Desk) -> int:
    """No such card: one sentence."""
    sought = desk.options.id
    words = desk.library.words
    text = filled(words["shelf.unknown"], heard=sought) if sought else words["shelf.empty"]
    tell(text, sys.stderr)
    return USAGE
