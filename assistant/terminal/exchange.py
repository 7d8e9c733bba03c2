"""The book to a file and back: exported, imported, and as a table."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from assistant.sitting.plain_text import harmless
from assistant.terminal.leaving import TROUBLE, USAGE
from assistant.terminal.screen import filled, tell

if TYPE_CHECKING:
    from assistant.book.importing import Taken
    from assistant.terminal.desk import Desk

STANDARD = "-"
LINE_END = ("\r\n", "\n")

ALL = 1_000_000  # more cards than a life of drilling makes


def book_export(desk: Desk) -> int:
    """The book, or one drill of it, to a file or to standard output."""
    wanted = desk.options
    book = desk.open_book()
    drill = wanted.drill
    cards = book.cards(drill, limit=ALL if wanted.csv else 1, include_scripted=True)
    if drill is not None and not cards:
        return amiss(desk, "exchange.no_drill", drill=drill)
    if wanted.csv:
        from assistant.card.table import table

        return written(desk, table(desk.library, cards, wanted.units or "us"))
    from assistant.book.exporting import exported

    return written(desk, exported(book, drill))


def written(desk: Desk, lines: Iterable[str]) -> int:
    """Write lines to the file that was named, which must not be there yet, or out."""
    from assistant.book.whole_file import write_whole

    named = desk.options.file or STANDARD
    if named == STANDARD:
        write_out(lines)
        return 0
    path = Path(named)
    if path.exists():
        return amiss(desk, "exchange.there", path=named)
    try:
        write_whole(path, lines)
    except OSError as trouble:
        return amiss(desk, "exchange.unwritable", path=named, why=trouble.strerror or "")
    tell(filled(desk.library.words["exchange.written"], path=named))
    return 0


def write_out(lines: Iterable[str]) -> None:
    """Write lines to standard output as they are; what a person watches is made harmless."""
    watched = sys.stdout.isatty()
    sys.stdout.flush()
    for line in lines:
        shown = line
        if watched:
            end = next((each for each in LINE_END if line.endswith(each)), "")
            shown = harmless(line.removesuffix(end)) + "\n"
        sys.stdout.buffer.write(shown.encode("utf-8"))
    sys.stdout.buffer.flush()


def book_import(desk: Desk) -> int:
    """Add what a file has and the book lacks; the book's own stays."""
    from assistant.book.importing import take_in
    from assistant.book.untrusted import NotTaken
    from assistant.sitting.imported import Reads

    named = desk.options.file or STANDARD
    try:
        with opened(named) as source:
            taken = take_in(desk.open_book(), source, Reads(desk.library))
    except NotTaken as problem:
        return amiss(desk, f"exchange.{problem.code}", path=named)
    except OSError as trouble:
        return amiss(desk, "exchange.unread", path=named, why=trouble.strerror or "")
    for line in report(desk, taken):
        tell(line)
    return TROUBLE if taken.left_out or taken.missing > 0 else 0


@contextmanager
def opened(named: str) -> Iterator[BinaryIO]:
    """The file that was named, or standard input."""
    if named == STANDARD:
        yield sys.stdin.buffer
        return
    with Path(named).open("rb") as source:
        yield source


def report(desk: Desk, taken: Taken) -> Iterator[str]:
    """What an import did, in lines."""
    words = desk.library.words
    added = {name: str(taken.added[name]) for name in ("talk", "card", "note")}
    yield filled(words["exchange.added"], lines=str(taken.added.total()), **added)
    if taken.here:
        yield filled(words["exchange.here"], lines=str(taken.here))
    if taken.missing > 0:
        yield filled(words["exchange.missing"], lines=str(taken.missing))
    if not taken.left_out:
        return
    yield filled(words["exchange.left_out"], lines=str(taken.left_out))
    for each in taken.refusals:
        why = filled(words[f"exchange.line.{each.code}"], about=each.about)
        yield filled(words["exchange.line_why"], line=str(each.line), why=why)
    more = taken.left_out - len(taken.refusals)
    if more:
        yield filled(words["exchange.more"], lines=str(more))


def amiss(desk: Desk, name: str, **holes: str) -> int:
    """One sentence on why this can't be done."""
    tell(filled(desk.library.words[name], **holes), sys.stderr)
    return USAGE
