"""The record book on the screen: its cards in a list, one in full, and where the files are."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.book.wanted import Wanted
from assistant.card.ending import ending
from assistant.flow.model import Library
from assistant.sitting.plain_text import folded, harmless
from assistant.terminal.commands import amiss
from assistant.terminal.screen import filled, tell, width, write

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.records import StoredCard
    from assistant.terminal.desk import Desk

LAST = 20  # cards in a list, unless told otherwise
SHORTEST_ID = 4  # what is shorter is a number of the list


def list_lines(
    library: Library, cards: Iterable[StoredCard], numbers: Mapping[str, int]
) -> list[str]:
    """One line a card, in the order given, with its number if it has one; a line if none is."""
    lines = [f"{numbers.get(card.id, '')} {card_line(library, card)}".lstrip() for card in cards]
    return lines or [library.words["shelf.empty"]]


def card_line(library: Library, card: StoredCard) -> str:
    """What people know a card by."""
    words = library.words
    return filled(
        words["shelf.line"],
        date=card.at[:10],
        drill=card.drill,
        crop=card.crop,
        lot=card.lot,
        outcome=words.get(f"shelf.{ending(card.outcome, card.facts)}", card.outcome),
        id=card.talk,
    )


def show_lines(library: Library, card: StoredCard) -> Iterator[str]:
    """A card with every fact that it holds and where each came from."""
    yield card_line(library, card)
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
    told = desk.options
    try:
        since, before = day(told.since), day(told.until, after=1)
        last = int(told.last or LAST)
    except Unreadable as trouble:
        return amiss(desk, "shelf.no_day", heard=trouble.heard)
    except ValueError:
        return amiss(desk, "shelf.no_count", heard=told.last or "")
    if last < 1:
        return amiss(desk, "shelf.no_count", heard=told.last or "")
    wanted = Wanted(told.drill, told.crop, told.lot, since, before, scripted=told.all)
    return listed(desk, wanted, last)


def book_find(desk: Desk) -> int:
    """The cards that hold all the words."""
    words = tuple(word for told in desk.options.words for word in told.split())
    return listed(desk, Wanted(words=words, scripted=desk.options.all), LAST)


def listed(desk: Desk, wanted: Wanted, last: int) -> int:
    """The newest of the cards that are wanted, numbered as in the whole list; how many more."""
    book = desk.open_book()
    cards = book.find(wanted, last)
    lines = list_lines(desk.library, cards, book.numbers({card.id for card in cards}))
    if not cards and wanted != Wanted():
        named = wanted.drill or wanted.crop or wanted.lot
        lines = [desk.library.words["shelf.none_named" if named else "shelf.none_like"]]
    show(lines)
    more = book.count(wanted) - last
    if more > 0:
        tell(filled(desk.library.words["shelf.more"], count=str(more)))
    return 0


def show(lines: Iterable[str]) -> None:
    """Write lines, each set in where it is folded."""
    columns = width()
    write([each for line in lines for each in folded(line, columns)], sys.stdout)


class Unreadable(ValueError):  # noqa: N818  a slip on the command line
    """A text that is no day."""

    def __init__(self, heard: str) -> None:
        super().__init__(heard)
        self.heard = heard


def day(text: str | None, after: int = 0) -> str | None:
    """A day as it is typed, or so many days after it; none for none. Raises Unreadable."""
    if text is None:
        return None
    try:
        return (date.fromisoformat(text) + timedelta(days=after)).isoformat()
    except (ValueError, OverflowError):
        raise Unreadable(text) from None


def book_show(desk: Desk) -> int:
    """All that a card holds, what was noted on it, and what it corrects."""
    from assistant.terminal.history import history_lines

    book = desk.open_book()
    card = chosen(desk, book)
    if card is None:
        return unknown(desk)
    show([*show_lines(desk.library, card), *history_lines(desk.library, book, card)])
    return 0


def book_card(desk: Desk) -> int:
    """The card for the lid, as it was made; with `--page` as a page to print."""
    card = chosen(desk, desk.open_book())
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


def chosen(desk: Desk, book: Book) -> StoredCard | None:
    """The card of the id that was typed, else the newest."""
    return sought_in(book, desk.options.id or "1")


def sought_in(book: Book, sought: str) -> StoredCard | None:
    """A card by its id, by the start of it, or by its number in the whole list."""
    if len(sought) >= SHORTEST_ID or not sought.isdecimal():
        return book.card(sought)
    number = int(sought)
    cards = book.cards(limit=number)
    return cards[-1] if 0 < number == len(cards) else None


def unknown(desk: Desk, sought: str | None = None) -> int:
    """No such card: one sentence."""
    heard = sought or desk.options.id
    return amiss(desk, "shelf.unknown", heard=heard) if heard else amiss(desk, "shelf.empty")
