"""A book of thirty cards whose answers and facts are those of real conversations."""

import shutil
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from assistant.book.book import Book
from assistant.book.opening import connect
from assistant.book.schema import COLUMNS
from tests.book.samples import DAWN, a_card, a_note, a_talk

CARDS = 30
KEPT = Path(__file__).parent / "kept" / "format_2.db"
Row = tuple[Any, ...]


@cache
def real_book() -> bytes:
    """The bytes of the book: thirty conversations, their cards, and a note on every other card."""
    with TemporaryDirectory() as name:
        path = Path(name).resolve() / "book.db"
        fill_as_real(path, CARDS)
        return path.read_bytes()


def fill_as_real(path: Path, cards: int) -> None:
    """Makes a book at `path` with so many cards, each after a whole conversation."""
    shutil.copyfile(KEPT, path.with_suffix(".kept"))
    with Book.open(path.with_suffix(".kept")) as kept, Book.open(path) as book:
        real = kept.cards(limit=1, include_scripted=True)[0]
        events = [(each.kind, each.body) for each in kept.events(real.talk)]
        book.store.execute("PRAGMA synchronous = OFF")
        for number in range(cards):
            talk = a_talk(20 * number)
            book.start(talk)
            book.append(talk.id, events[:-2], talk.started)
            drill = ("Old green", "Big red", "Long blue")[number % 3]
            card = replace(a_card(talk, drill), facts=real.facts, lines=real.lines)
            book.finish(card, events[-2:])
            if number % 2:
                book.add_note(a_note(talk))
    path.with_suffix(".kept").unlink()


def put(path: Path, content: bytes) -> Path:
    """Writes a file into a folder that may not be there yet."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    return path


def rows_of(path: Path) -> dict[str, set[Row]]:
    """Every row of every table of a sound book, its hash last."""
    with closing(connect(path.resolve(), "ro", 1)) as store:
        return {
            table: set(
                store.execute(f"SELECT {', '.join((*columns, 'hash'))} FROM {table}").fetchall()
            )
            for table, columns in COLUMNS.items()
        }


def later(minutes: float) -> str:
    """A moment so many minutes after dawn, as the name of a file has it."""
    return (DAWN + timedelta(minutes=minutes)).strftime("%Y-%m-%dT%H%M%SZ")
