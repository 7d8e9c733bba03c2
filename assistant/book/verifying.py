"""Looks whether every row of the book is still what was written."""

from collections.abc import Iterator

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.schema import COLUMNS
from assistant.book.sealing import seal
from assistant.book.searching import Search
from assistant.book.writing import START


def verify(book: Book) -> list[str]:
    """Ids of the rows that are not as they were written, or whose row before is missing.

    A conversation, a card and a note are named by their id, an event as `id/number`. Raises
    BookProblem `damaged` when the file itself is unsound.
    """
    if book.rows(Search("PRAGMA integrity_check(1)")) != [("ok",)]:
        raise BookProblem("damaged", book.path)
    return [
        *changed_talks(book),
        *changed_events(book),
        *changed_cards(book),
        *changed_notes(book),
    ]


def sealed(book: Book, table: str, order: str) -> Iterator[tuple[list[str | int | None], str]]:
    """Columns and hash of every row of `table`."""
    names = ", ".join((*COLUMNS[table], "hash"))
    sql = f"SELECT {names} FROM {table} ORDER BY {order}"  # noqa: S608
    for *values, written in book.rows(Search(sql)):
        yield values, written


def changed_talks(book: Book) -> Iterator[str]:
    """Conversations that are not as they were written."""
    for values, written in sealed(book, "talk", "id"):
        if seal("talk", values, START) != written:
            yield str(values[0])


def changed_events(book: Book) -> Iterator[str]:
    """Events that are not as they were written, or that follow a gap."""
    before: dict[object, str] = dict(book.rows(Search("SELECT id, hash FROM talk")))
    for values, written in sealed(book, "event", "talk, number"):
        talk, number = values[:2]
        if seal("event", values, before.get(talk, START)) != written:
            yield f"{talk}/{number}"
        before[talk] = written


def changed_cards(book: Book) -> Iterator[str]:
    """Cards that are not as they were written, or whose conversation lost its end."""
    hashes = """SELECT card.id, coalesce((SELECT event.hash FROM event
        WHERE event.talk = card.talk AND event.moment < card.moment ORDER BY number DESC LIMIT 1),
        talk.hash) FROM card JOIN talk ON talk.id = card.talk"""
    before: dict[object, str] = dict(book.rows(Search(hashes)))
    for values, written in sealed(book, "card", "id"):
        if seal("card", values, before.get(values[0], START)) != written:
            yield str(values[0])


def changed_notes(book: Book) -> Iterator[str]:
    """Notes that are not as they were written, or whose card is missing."""
    before: dict[object, str] = dict(book.rows(Search("SELECT id, hash FROM card")))
    for values, written in sealed(book, "note", "id"):
        if seal("note", values, before.get(values[1], START)) != written:
            yield str(values[0])
