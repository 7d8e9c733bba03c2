"""Rows into the tables. The caller holds the transaction and has opened the book."""

import sqlite3
from collections.abc import Iterable, Sequence

from assistant.book.ids import milliseconds
from assistant.book.records import Body, Holder, Note, StoredCard, StoredEvent, Talk
from assistant.book.rows import as_columns, card_row, event_row, note_row, sound, talk_row
from assistant.book.schema import COLUMNS
from assistant.book.sealing import Value, seal
from assistant.book.searching import CARD_HASH, HOLDER, LAST_EVENT, NEWEST, TALK_HASH

Dated = tuple[str, str, Body]
START = ""


def next_moment(store: sqlite3.Connection, at: str) -> int:
    """The place of a new row in time, in milliseconds: by the clock, but after every other row."""
    newest: int = store.execute(NEWEST).fetchone()[0]
    return max(milliseconds(at), newest + 1)


def add_row(store: sqlite3.Connection, table: str, values: Sequence[Value], before: str) -> str:
    """Writes one row with its hash and returns the hash."""
    sealed = seal(table, values, before)
    names = ", ".join((*COLUMNS[table], "hash"))
    marks = ", ".join("?" * (len(values) + 1))
    store.execute(f"INSERT INTO {table} ({names}) VALUES ({marks})", (*values, sealed))  # noqa: S608
    return sealed


def last_row(store: sqlite3.Connection, talk_id: str) -> tuple[int, str]:
    """Number and hash of a conversation's last event; 0 and its own hash when it has none.

    Raises KeyError when there is no such conversation.
    """
    last = store.execute(LAST_EVENT, (talk_id,)).fetchone()
    if last is not None:
        return last[0], last[1]
    start = store.execute(TALK_HASH, (talk_id,)).fetchone()
    if start is None:
        raise KeyError(talk_id)
    return 0, start[0]


def add_talk(store: sqlite3.Connection, talk: Talk) -> None:
    """Writes a conversation."""
    add_row(store, "talk", talk_row(talk, next_moment(store, talk.started)), START)


def add_events(store: sqlite3.Connection, talk_id: str, events: Iterable[Dated]) -> None:
    """Writes events (moment, kind, body) after those that the conversation has."""
    number, before = last_row(store, talk_id)
    for at, kind, body in events:
        number += 1
        event = StoredEvent(talk_id, number, at, kind, body)
        before = add_row(store, "event", event_row(event, next_moment(store, at)), before)


def add_card(store: sqlite3.Connection, card: StoredCard) -> None:
    """Writes the card of a conversation."""
    _, before = last_row(store, card.talk)
    add_row(store, "card", card_row(card, next_moment(store, card.at)), before)


def add_note(store: sqlite3.Connection, note: Note) -> None:
    """Writes a note on a card; raises KeyError when there is no such card."""
    card = store.execute(CARD_HASH, (sound(note.card),)).fetchone()
    if card is None:
        raise KeyError(note.card)
    add_row(store, "note", note_row(note, next_moment(store, note.at)), card[0])


def holder_of(store: sqlite3.Connection, talk_id: str) -> Holder | None:
    """Who has a conversation open."""
    found = store.execute(HOLDER, (sound(talk_id),)).fetchone()
    return Holder(*found) if found else None


def set_holder(store: sqlite3.Connection, talk_id: str, holder: Holder) -> None:
    """Writes who has a conversation open, instead of who had it before."""
    row = as_columns(talk_id, holder.who, holder.since)
    store.execute("INSERT OR REPLACE INTO holder (talk, who, since) VALUES (?, ?, ?)", row)


def drop_holder(store: sqlite3.Connection, talk_id: str, who: str) -> None:
    """Forgets that `who` has a conversation open; leaves another's hold as it is."""
    row = as_columns(talk_id, who)
    store.execute("DELETE FROM holder WHERE talk = ? AND who = ?", row)
