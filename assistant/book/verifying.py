"""Looks whether every row of the book is still what was written."""

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.sealing import intact
from assistant.book.searching import SOUGHT, Search, all_of, spelled_otherwise


def verify(book: Book) -> list[str]:
    """Ids of the rows that are not as they were written, or whose row before is missing.

    A conversation, a card and a note are named by their id, an event as `id/number`. Raises
    BookProblem `damaged` when the file itself is unsound.
    """
    sound = book.rows(Search("PRAGMA integrity_check(1)")) == [("ok",)]
    if not sound or any(book.rows(spelled_otherwise(column)) for column in SOUGHT):
        raise BookProblem("damaged", book.path)
    return [
        "/".join(str(key) for key in row[: len(KEYS[table])])
        for table in COLUMNS
        for row in book.each(all_of(table))
        if not intact(table, row)
    ]
