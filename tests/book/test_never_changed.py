"""Rows are added and never changed; what was changed all the same is found by its hash."""

import hashlib
import json
import sqlite3

import pytest

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_note, a_talk, fill

EVERY_COLUMN = [(table, name) for table, names in COLUMNS.items() for name in (*names, "hash")]


def unguarded(book: Book) -> sqlite3.Connection:
    """The connection of a book whose triggers are gone, as somebody may do by hand."""
    triggers = book.store.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
    for (name,) in triggers.fetchall():
        book.store.execute(f"DROP TRIGGER {name}")
    return book.store


@pytest.mark.parametrize(("table", "column"), EVERY_COLUMN)
def test_no_column_of_a_row_can_be_changed(book: Book, table: str, column: str) -> None:
    fill(book, 1)
    with pytest.raises(sqlite3.IntegrityError, match="rows stay"):
        book.store.execute(f"UPDATE {table} SET {column} = {column}")


@pytest.mark.parametrize("table", COLUMNS)
def test_no_row_can_be_deleted(book: Book, table: str) -> None:
    fill(book, 1)
    with pytest.raises(sqlite3.IntegrityError, match="rows stay"):
        book.store.execute(f"DELETE FROM {table}")


@pytest.mark.parametrize("table", COLUMNS)
@pytest.mark.parametrize("instead", ["REPLACE", "IGNORE", "ABORT"])
def test_no_row_can_be_replaced(book: Book, table: str, instead: str) -> None:
    fill(book, 1)
    with pytest.raises(sqlite3.IntegrityError, match="rows stay"):
        book.store.execute(f"INSERT OR {instead} INTO {table} SELECT * FROM {table}")


def test_a_conversation_cannot_be_started_twice(book: Book) -> None:
    book.start(a_talk())
    with pytest.raises(BookProblem, match="failed"):
        book.start(a_talk())
    assert book.unfinished() == [a_talk()]


@pytest.mark.parametrize(("table", "column"), EVERY_COLUMN)
def test_a_change_by_hand_of_any_column_is_found(book: Book, table: str, column: str) -> None:
    fill(book, 2)
    key = KEYS[table][-1]
    newest = f"(SELECT max({key}) FROM {table})"
    changed = f"'7' || coalesce({column}, '')"
    unguarded(book).execute(f"UPDATE {table} SET {column} = {changed} WHERE {key} = {newest}")
    assert verify(book) != []


def test_a_change_is_found_in_its_row_and_in_no_other(book: Book) -> None:
    talk, other = fill(book, 2)
    store = unguarded(book)
    store.execute("UPDATE talk SET words = 'x' WHERE id = ?", (other.id,))
    store.execute("UPDATE event SET body = '{}' WHERE talk = ? AND number = 1", (talk.id,))
    store.execute("UPDATE card SET drill = upper(drill) WHERE talk = ?", (other.id,))
    assert verify(book) == [other.id, f"{talk.id}/1", a_card(other).id]


@pytest.mark.parametrize(("number", "found"), [(1, "/2"), (2, "card")])
def test_an_event_that_was_taken_out_is_missed_by_the_row_after_it(
    book: Book, number: int, found: str
) -> None:
    (talk,) = fill(book, 1)
    unguarded(book).execute("DELETE FROM event WHERE number = ?", (number,))
    assert verify(book) == [a_card(talk).id if found == "card" else talk.id + found]


@pytest.mark.parametrize(
    ("gone", "found"),
    [("talk", ["talk/1"]), ("event", ["card"]), ("card", ["note"])],
)
def test_a_row_misses_the_row_before_it(book: Book, gone: str, found: list[str]) -> None:
    (talk,) = fill(book, 1)
    names = {"talk/1": f"{talk.id}/1", "card": a_card(talk).id, "note": a_note(talk).id}
    unguarded(book).execute(f"DELETE FROM {gone}")
    assert verify(book) == [names[name] for name in found]


SPOILED = [
    "CAST(x'ff' AS TEXT)",
    "x'61'",
    "7",
    "0.5",
    "9e999",
    "'{'",
    "''",
    "'[1]'",
    "'{}'",
]


@pytest.mark.parametrize("value", SPOILED)
@pytest.mark.parametrize(
    ("table", "column"),
    [("talk", "words"), ("event", "body"), ("card", "body"), ("note", "text")],
)
def test_a_value_of_any_kind_that_was_put_in_by_hand_is_found_and_never_read(
    book: Book, table: str, column: str, value: str
) -> None:
    (talk,) = fill(book, 1)
    unguarded(book).execute(f"UPDATE {table} SET {column} = {value}")
    assert len(verify(book)) >= 1
    with pytest.raises(BookProblem, match="damaged"):
        read_all(book, talk.id)


def read_all(book: Book, talk: str) -> list[object]:
    """Everything that can be read of a conversation."""
    cards = book.cards()
    return [book.talk(talk), book.events(talk), cards, [book.notes(card.id) for card in cards]]


def test_the_hash_can_be_worked_out_by_anyone(book: Book) -> None:
    book.start(a_talk())
    *columns, written = book.store.execute("SELECT * FROM talk").fetchone()
    text = json.dumps(["talk", *columns, ""]).replace(", ", ",")
    assert written == hashlib.sha256(text.encode()).hexdigest()
