"""The book as JSON lines: the same rows give the same bytes, on every machine and in every order.

A header, then a row a line, by moment, then table, then key. DEVELOPERS.md explains the fields.
"""

import heapq
import json
import sqlite3
from collections.abc import Iterator
from typing import Any

from assistant.book.book import Book
from assistant.book.problems import BookProblem, told_by_code
from assistant.book.rows import Row, sound
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.sealing import compact, intact
from assistant.book.searching import ROW

FORMAT = 1
TRUE_OR_FALSE = "scripted"

CARDS = "SELECT id FROM card WHERE drill = :drill"
TALKS = "SELECT talk FROM card WHERE drill = :drill"
OF_DRILL = {
    "talk": f" WHERE id IN ({TALKS})",
    "event": f" WHERE talk IN ({TALKS})",
    "card": " WHERE drill = :drill",
    "note": f" WHERE card IN ({CARDS})",
}
"""What belongs to one drill: its cards, their conversations and their notes."""


def exported(book: Book, drill: str | None = None) -> Iterator[str]:
    """The lines of the book, or of one drill whatever its capitals, as the book is just now.

    Raises BookProblem, `damaged` for a row that is not as it was written.
    """
    with told_by_code(book.path):
        book.store.execute("BEGIN")  # one look: what another program adds meanwhile is left out
        try:
            there = tables(book.store)
            counts = [count(book.store, table, drill) for table in there]
            yield as_line({"drillside": "book", "format": FORMAT, "rows": sum(counts)})
            sorted_rows = (ordered(book.store, table, drill) for table in there)
            for _, table, row in heapq.merge(*sorted_rows, key=lambda each: each[0]):
                yield row_line(book, table, row)
        finally:
            book.store.execute("ROLLBACK")


def tables(store: sqlite3.Connection) -> list[str]:
    """The tables that the book has: one of an older format that can't be written has fewer."""
    there = {name for (name,) in store.execute("SELECT name FROM sqlite_master")}
    return [table for table in COLUMNS if table in there]


def count(store: sqlite3.Connection, table: str, drill: str | None) -> int:
    """How many rows of a table are exported."""
    sql = f"SELECT count(*) FROM {table}{where(table, drill)}"  # noqa: S608  names from the schema
    number: int = store.execute(sql, filling(drill)).fetchone()[0]
    return number


def ordered(
    store: sqlite3.Connection, table: str, drill: str | None
) -> Iterator[tuple[tuple[Any, ...], str, Row]]:
    """Rows of a table with what they are ordered by; its index by moment is walked."""
    order = ", ".join(("moment", *KEYS[table]))
    sql = f"SELECT {ROW[table]} FROM {table}{where(table, drill)} ORDER BY {order}"  # noqa: S608
    moment = COLUMNS[table].index("moment")
    keys = [COLUMNS[table].index(key) for key in KEYS[table]]
    rank = list(COLUMNS).index(table)
    for row in store.execute(sql, filling(drill)):
        yield (row[moment], rank, *(row[key] for key in keys)), table, row


def where(table: str, drill: str | None) -> str:
    """What narrows a table to one drill."""
    return "" if drill is None else OF_DRILL[table]


def filling(drill: str | None) -> dict[str, str]:
    """The value that `where` leaves open."""
    return {} if drill is None else {"drill": sound(drill)}


def row_line(book: Book, table: str, row: Row) -> str:
    """A row as a line: its table, its columns by name, its hash."""
    if not intact(table, row):
        raise BookProblem("damaged", book.path)
    *values, _before = row
    fields = dict(zip((*COLUMNS[table], "hash"), values, strict=True))
    if "body" in fields:
        fields["body"] = json.loads(fields["body"])
    if TRUE_OR_FALSE in fields:
        fields[TRUE_OR_FALSE] = bool(fields[TRUE_OR_FALSE])
    return as_line({"row": table, **fields})


def as_line(value: object) -> str:
    """One object on one line, in ASCII that a terminal may show as it is."""
    return compact(value) + "\n"
