"""A book that leaves nothing behind: `--book none`, and when there is no room for a real one."""

import sqlite3
from collections.abc import Mapping
from pathlib import Path
from typing import Self

from assistant.book.book import PATIENCE, Book
from assistant.book.opening import make_tables, ready
from assistant.book.places import NONE, book_path, told_path

NOWHERE = Path(":memory:")


class NoBook(Book):
    """The same book, kept in memory and gone when closed."""

    def __init__(self) -> None:
        store = sqlite3.connect(NOWHERE, isolation_level=None)
        make_tables(store)
        super().__init__(ready(store), NOWHERE)

    @classmethod
    def open(cls, path: Path = NOWHERE, patience: float = PATIENCE) -> Self:
        """A new one, whatever the path."""
        del path, patience
        return cls()


def chosen_book(explicit: str | None, environ: Mapping[str, str]) -> Book:
    """The book that was named by option or environment, `none` included, else the user's own.

    Raises BookProblem.
    """
    if told_path(explicit, environ) == NONE:
        return NoBook()
    return Book.open(book_path(explicit, environ))
