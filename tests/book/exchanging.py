"""Books to exchange: files made of rows, and what an import of them does."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable, Mapping
from typing import Any

from assistant.book.book import Book
from assistant.book.exporting import FORMAT, exported
from assistant.book.importing import Judge, Taken, take_in
from assistant.book.nobook import NoBook
from assistant.book.schema import COLUMNS
from assistant.book.sealing import compact, seal

Row = dict[str, Any]


class AnyBody:
    """A judge that takes whatever an event or a card holds."""

    def event(self, kind: str, body: Any) -> bool:
        del kind, body
        return True

    def card(self, body: Any) -> bool:
        del body
        return True


def file_of(book: Book, drill: str | None = None) -> bytes:
    """A book as the file that is exported."""
    return "".join(exported(book, drill)).encode("utf-8")


def lines_of(book: Book) -> set[str]:
    """The rows of a book as lines, without the header."""
    return set(list(exported(book))[1:])


def rows_of(file: bytes) -> list[Row]:
    """The rows of an exported file, without the header."""
    return [json.loads(line) for line in file.splitlines()[1:]]


def taken(book: Book, file: bytes, judge: Judge | None = None) -> Taken:
    """What an import of a file does."""
    return take_in(book, io.BytesIO(file), judge or AnyBody())


def union(*files: bytes) -> bytes:
    """The file of a new book that took these, in order."""
    with NoBook() as book:
        for file in files:
            assert taken(book, file).left_out == 0
        return file_of(book)


def header(rows: int) -> bytes:
    """The first line of a file."""
    return compact({"drillside": "book", "format": FORMAT, "rows": rows}).encode()


def as_file(rows: Iterable[Mapping[str, Any]]) -> bytes:
    """A file of rows, hashes as they are given."""
    lines = [compact(dict(row)).encode() for row in rows]
    return b"\n".join([header(len(lines)), *lines]) + b"\n"


def resealed(rows: Iterable[Row]) -> list[Row]:
    """The rows with hashes that fit, whatever was changed in them, as a forger would make them."""
    last: dict[Any, str] = {}
    done = []
    for row in rows:
        table, about = row["row"], {"note": "card", "talk": "id"}.get(row["row"], "talk")
        before = "" if table == "talk" else last.get(row[about], "")
        values = [column(row[name]) for name in COLUMNS[table]]
        done.append({**row, "hash": seal(table, values, before)})
        if table in {"talk", "event"}:
            last[row[about]] = done[-1]["hash"]
        elif table == "card":
            last[row["id"]] = done[-1]["hash"]
    return done


def column(value: Any) -> Any:
    """A field as its column holds it."""
    if isinstance(value, dict):
        return compact(value)
    return int(value) if isinstance(value, bool) else value
