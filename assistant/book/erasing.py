"""Writes the book anew without some of its conversations, and leaves nothing of the old file.

Rows are never deleted: what is erased is never copied. A kill at any step leaves the old book or
the new one.
"""

import os
import sqlite3
from collections.abc import Collection
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from assistant.book.book import PATIENCE, Book
from assistant.book.opening import connect, make_tables
from assistant.book.problems import BookProblem, told_by_code
from assistant.book.replacing import check, half_made, take_place
from assistant.book.schema import COLUMNS
from assistant.book.searching import Search

BLOCK = bytes(1 << 20)
GONE = "SELECT id FROM temp.erased"
STAYS = {
    "talk": f"WHERE id NOT IN ({GONE})",
    "event": f"WHERE talk NOT IN ({GONE})",
    "card": f"WHERE talk NOT IN ({GONE})",
    "note": f"WHERE card NOT IN (SELECT id FROM main.card WHERE talk IN ({GONE}))",  # noqa: S608
    "holder": f"WHERE talk NOT IN ({GONE})",
}
"""Which rows of each table stay."""
HOLDER = ("talk", "who", "since")


@dataclass(frozen=True, slots=True)
class Extent:
    """What goes with some conversations: these, those that follow them, and their cards.

    `mentions` is how many of those that stay were offered one of the cards and keep a line of it.
    """

    talks: frozenset[str]
    following: int
    cards: int
    mentions: int


def extent(book: Book, talks: Collection[str]) -> Extent:
    """What would be erased with these conversations."""
    whole, ahead = set(talks), list(talks)
    while ahead:
        found = {each.id for each in book.following(ahead.pop())} - whole
        whole |= found
        ahead += found
    pairs = book.rows(Search("SELECT id, talk FROM card"))
    cards = {card for card, talk in pairs if talk in whole}
    offers = book.rows(Search("SELECT talk, body FROM event WHERE kind = 'offered'"))
    mentions = {
        talk
        for talk, body in offers
        if talk not in whole and any(f'"{card}"' in body for card in cards)
    }
    return Extent(frozenset(whole), len(whole) - len(set(talks)), len(cards), len(mentions))


def erase(book: Book, talks: Collection[str]) -> None:
    """Puts a book without these conversations in the place of `book`, which is closed.

    Their events, cards and notes go with them. Raises BookProblem and leaves the book as it was:
    `locked` while another program has it open.
    """
    path = book.path.resolve()
    if book.read_only:
        raise BookProblem("read_only", path)
    with told_by_code(path), half_made(path) as part:
        alone(book)
        cards = copy_without(book.store, part, talks)
        check(part, cards)
        if os.name == "nt":  # there an open file can neither be replaced nor written over
            book.store.close()
            take_place(part, path)
            return
        with path.open("r+b") as old:
            try:
                take_place(part, path)
                wipe(old)
            finally:
                book.store.close()  # first: to close the file would end its locks


def alone(book: Book) -> None:
    """Keeps every other program out until the book is closed."""
    try:
        (mode,) = book.store.execute("PRAGMA journal_mode = DELETE").fetchone()
        book.store.execute("PRAGMA locking_mode = EXCLUSIVE")
        book.store.execute("BEGIN EXCLUSIVE")
        book.store.execute("COMMIT")
    except sqlite3.OperationalError:
        mode = ""
    if mode != "delete":
        raise BookProblem("locked", book.path)


def copy_without(store: sqlite3.Connection, part: Path, talks: Collection[str]) -> int:
    """Copies all other rows, hashes and all, into an empty file; returns how many cards stay."""
    store.execute("PRAGMA temp_store = MEMORY")  # no file of its own may name what goes
    store.execute("CREATE TEMP TABLE erased (id TEXT PRIMARY KEY)")
    store.executemany("INSERT INTO temp.erased VALUES (?)", [(each,) for each in talks])
    with closing(connect(part, "rw", PATIENCE)) as made:
        make_tables(made)
    store.execute("ATTACH ? AS part", (str(part),))
    store.execute("BEGIN")
    for table, stays in STAYS.items():
        named = (*COLUMNS[table], "hash") if table in COLUMNS else HOLDER
        names = ", ".join(named)
        rows = f"SELECT {names} FROM main.{table} {stays}"  # noqa: S608  names from this page
        store.execute(f"INSERT INTO part.{table} ({names}) {rows}")
    store.execute("COMMIT")
    (cards,) = store.execute("SELECT count(*) FROM part.card").fetchone()
    store.execute("DETACH part")
    return int(cards)


def wipe(file: BinaryIO) -> None:
    """Writes zeros over a file that has no name any more. Some disks keep old blocks all the same.

    What can't be overwritten has at least lost its name.
    """
    with suppress(OSError):
        left = file.seek(0, os.SEEK_END)
        file.seek(0)
        while left > 0:
            left -= file.write(BLOCK[:left])
        file.flush()
        os.fsync(file.fileno())
