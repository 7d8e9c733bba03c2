"""Every character of every text in a book: changed by hand, it is named, and never read as good."""

import sqlite3
from collections.abc import Callable, Iterator

import pytest

from assistant.book.book import Book
from assistant.book.nobook import NoBook
from assistant.book.problems import BookProblem
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_note, a_talk, at, made_id
from tests.book.test_never_changed import unguarded

TALK = a_talk(1, follows=made_id(0))
LOW_BIT, CASE_BIT, HIGH_BIT = 0x01, 0x20, 0x80


@pytest.fixture
def book() -> Iterator[Book]:
    """A small book without its guards."""
    with NoBook() as small:
        small.start(TALK)
        small.append(TALK.id, [("answered", {"crop": "wheat é"}), ("back", {})], at(2))
        small.finish(a_card(TALK), [("finished", {"outcome": "proven"})])
        small.add_note(a_note(TALK))
        assert verify(small) == []
        unguarded(small)
        yield small


def texts(store: sqlite3.Connection, table: str) -> Iterator[tuple[str, tuple[object, ...], bytes]]:
    """Column, key and bytes of every text in a table."""
    keys = ", ".join(KEYS[table])
    for column in (*COLUMNS[table], "hash"):
        found = store.execute(
            f"SELECT CAST({column} AS BLOB), {keys} FROM {table} WHERE typeof({column}) = 'text'"
        )
        for raw, *key in found.fetchall():
            yield column, tuple(key), raw


def put(
    store: sqlite3.Connection, table: str, column: str, key: tuple[object, ...], raw: bytes
) -> None:
    """Writes the bytes of one text."""
    where = " AND ".join(f"{name} = ?" for name in KEYS[table])
    sql = f"UPDATE {table} SET {column} = CAST(? AS TEXT) WHERE {where}"
    assert store.execute(sql, (raw, *key)).rowcount == 1


def name_after(table: str, column: str, key: tuple[object, ...], raw: bytes) -> str:
    """The name of a row, as `verify` gives it, once the text in a column was changed."""
    text = raw.decode("utf-8", "surrogateescape")
    names = dict(zip(KEYS[table], key, strict=True)) | {column: text}
    return "/".join(str(names[part]) for part in KEYS[table])


@pytest.mark.parametrize("bit", [LOW_BIT, CASE_BIT, HIGH_BIT])
@pytest.mark.parametrize("table", COLUMNS)
def test_every_byte_of_every_text_is_named_when_it_was_changed(
    book: Book, table: str, bit: int
) -> None:
    store = book.store
    count = 0
    for column, key, raw in list(texts(store, table)):
        for place in range(len(raw)):
            changed = bytes([*raw[:place], raw[place] ^ bit, *raw[place + 1 :]])
            store.execute("BEGIN")
            put(store, table, column, key, changed)
            assert name_after(table, column, key, changed) in verify(book), (column, place)
            store.execute("ROLLBACK")
            count += 1
    assert verify(book) == []
    assert count > 100


READERS: dict[str, tuple[Callable[[Book], object], ...]] = {
    "talk": (lambda book: book.talk(TALK.id), lambda book: book.talk(TALK.id[:8])),
    "event": (lambda book: book.events(TALK.id),),
    "card": (
        lambda book: book.card(TALK.id),
        lambda book: book.card(TALK.id[:8]),
        lambda book: book.cards(drill="old green"),
    ),
    "note": (lambda book: book.notes(a_card(TALK).id),),
}


def is_part(shown: object, good: object) -> bool:
    """Whether what is shown is good, as far as it goes: a row under another id is not found."""
    if isinstance(shown, list) and isinstance(good, list):
        return shown == good[: len(shown)]
    return shown in (good, None)


@pytest.mark.parametrize(
    ("table", "reader"), [(table, reader) for table in COLUMNS for reader in READERS[table]]
)
def test_nothing_is_read_from_a_text_of_which_a_byte_was_changed(
    book: Book, table: str, reader: Callable[[Book], object]
) -> None:
    good, stopped = reader(book), list[str]()
    assert good
    for column, key, raw in list(texts(book.store, table)):
        for place in range(len(raw)):
            changed = bytes([*raw[:place], raw[place] ^ LOW_BIT, *raw[place + 1 :]])
            book.store.execute("BEGIN")
            put(book.store, table, column, key, changed)
            try:
                assert is_part(reader(book), good), (column, place)
            except BookProblem as problem:
                stopped.append(problem.code)
            book.store.execute("ROLLBACK")
    assert len(stopped) > 100
    assert set(stopped) == {"damaged"}
