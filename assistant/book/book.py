"""The record book, open: conversations, events, cards and notes go in, and are found again."""

import json
import os
import sqlite3
from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from itertools import islice
from pathlib import Path
from types import TracebackType
from typing import Self

from assistant.book import searching, writing
from assistant.book.opening import one_file_again, open_file
from assistant.book.problems import BookProblem, told_by_code
from assistant.book.records import Body, Holder, Note, StoredCard, StoredEvent, Talk
from assistant.book.rows import Row, card_from, event_from, note_from, talk_from
from assistant.book.schema import COLUMNS
from assistant.book.sealing import intact
from assistant.book.searching import Search
from assistant.book.wanted import Wanted

PATIENCE = 3.0  # seconds to wait for another program that writes


class Book:
    """An open book. Every method raises BookProblem when the file stands in the way.

    `store` is the connection, for what else reads the tables.
    """

    def __init__(self, store: sqlite3.Connection, path: Path, *, read_only: bool = False) -> None:
        self.store = store
        self.path = path
        self.read_only = read_only
        self._file = on_disk(path)
        self._holds: dict[str, str] = {}  # conversation: who holds it, by this book

    @classmethod
    def open(cls, path: Path, patience: float = PATIENCE) -> Self:
        """The book at `path`, made when it is missing or empty; read-only when it must be."""
        while True:
            with told_by_code(path):
                before = on_disk(path)
            store, read_only = open_file(path, patience)
            if before in {None, on_disk(path)}:
                return cls(store, path, read_only=read_only)
            store.close()  # another file took its place meanwhile

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        value: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Leaves one file behind. Closing twice is closing once."""
        with told_by_code(self.path):
            try:
                if not self.read_only and self._in_place():  # its log may be another's by now
                    one_file_again(self.store)
            finally:
                self.store.close()

    def start(
        self, talk: Talk, events: Sequence[StoredEvent] = (), holder: Holder | None = None
    ) -> None:
        """Keeps a new conversation; `events` become its own first ones, numbered from 1.

        A `holder` has it open from the start.
        """
        with self._writing():
            writing.add_talk(self.store, talk)
            dated = [(event.at, event.kind, event.body) for event in events]
            writing.add_events(self.store, talk.id, dated)
            if holder:
                writing.set_holder(self.store, talk.id, holder)
        if holder:
            self._holds[talk.id] = holder.who

    def start_over(self) -> None:
        """Goes on with the file that is at the path now, made when there is none."""
        with told_by_code(self.path):
            self.store.close()
        again = type(self).open(self.path)
        self.store, self.read_only, self._file = again.store, again.read_only, again._file  # noqa: SLF001  its own kind

    def append(self, talk_id: str, events: Sequence[tuple[str, Body]], at: str) -> None:
        """Keeps events (kind, body) of a conversation, all or none; on disk when it returns.

        Raises KeyError for a conversation that the book does not know, and BookProblem
        `taken_over` for one that this book held and another program holds now.
        """
        if events:
            with self._writing():
                self._still_held(talk_id)
                dated = [(at, kind, body) for kind, body in events]
                writing.add_events(self.store, talk_id, dated)

    def finish(self, card: StoredCard, events: Sequence[tuple[str, Body]] = ()) -> None:
        """Keeps the last events (kind, body) of a conversation and its card, all or none.

        Raises KeyError and BookProblem like `append`.
        """
        with self._writing():
            self._still_held(card.talk)
            dated = [(card.at, kind, body) for kind, body in events]
            writing.add_events(self.store, card.talk, dated)
            writing.add_card(self.store, card)

    def add_note(self, note: Note) -> None:
        """Keeps a note on a card. Raises KeyError for a card that the book does not know."""
        with self._writing():
            writing.add_note(self.store, note)

    def hold(self, talk_id: str, who: str, at: str) -> Holder | None:
        """Takes a conversation for `who`, or tells who else has it and leaves it so."""
        with self._writing():
            other = writing.holder_of(self.store, talk_id)
            if other and other.who != who:
                return other
            writing.set_holder(self.store, talk_id, Holder(who, at))
        self._holds[talk_id] = who
        return None

    def holder(self, talk_id: str) -> Holder | None:
        """Who has a conversation open, or had it open last without letting go."""
        with told_by_code(self.path):
            return writing.holder_of(self.store, talk_id)

    def take_over(self, talk_id: str, who: str, at: str) -> None:
        """Takes a conversation for `who`, whoever has it: their next answer is refused."""
        with self._writing():
            writing.set_holder(self.store, talk_id, Holder(who, at))
        self._holds[talk_id] = who

    def let_go(self, talk_id: str, who: str) -> None:
        """Ends the hold of `who` on a conversation; another's stays."""
        self._holds.pop(talk_id, None)
        with self._writing():
            writing.drop_holder(self.store, talk_id, who)

    def talk(self, talk_id: str) -> Talk | None:
        """The conversation of this id, or the only one whose id starts so (4 signs or more)."""
        rows = self._intact("talk", searching.talk_by_id(talk_id))
        if not rows:
            rows = self._only("talk", searching.talks_starting(talk_id))
        return talk_from(rows[0]) if rows else None

    def events(self, talk_id: str) -> list[StoredEvent]:
        """All events of the conversation of exactly this id, from the first."""
        with self._readable():
            rows = self._intact("event", searching.events_of(talk_id))
            return [event_from(row) for row in rows]

    def unfinished(self, *, include_scripted: bool = False) -> list[Talk]:
        """Conversations without a card or an ending, the one last talked in first."""
        search = searching.unfinished_talks(scripted=include_scripted)
        return [talk_from(row) for row in self._intact("talk", search)]

    def without_card(self) -> list[Talk]:
        """Every conversation that made no card, whether it ended or was left."""
        return [talk_from(row) for row in self._intact("talk", searching.talks_without_card())]

    def following(self, talk_id: str) -> list[Talk]:
        """The conversations that correct this one, the first one first."""
        return [talk_from(row) for row in self._intact("talk", searching.talks_following(talk_id))]

    def cards(  # noqa: PLR0913  each is one thing to search by
        self,
        drill: str | None = None,
        crop: str | None = None,
        lot: str | None = None,
        since: str | None = None,
        limit: int = 20,
        *,
        include_scripted: bool = False,
    ) -> list[StoredCard]:
        """At most `limit` cards that fit, newest first; names fit whatever their capitals."""
        return self.find(Wanted(drill, crop, lot, since, scripted=include_scripted), limit)

    def find(self, wanted: Wanted, limit: int) -> list[StoredCard]:
        """At most `limit` cards of those that are wanted, newest first."""
        with self._readable():
            rows = self._intact("card", searching.cards_like(wanted, limit))
            return [card_from(row) for row in rows]

    def count(self, wanted: Wanted) -> int:
        """How many cards are wanted, scripts' own left out unless they are wanted too."""
        ((count,),) = self.rows(searching.count_like(wanted))
        return int(count)

    def card(self, sought: str) -> StoredCard | None:
        """The card of this id, or of the conversation of this id, or of the only such start."""
        rows = (
            self._intact("card", searching.card_by_id("id", sought))
            or self._intact("card", searching.card_by_id("talk", sought))
            or self._only("card", searching.cards_starting(sought))
        )
        with self._readable():
            return card_from(rows[0]) if rows else None

    def numbers(self, card_ids: Collection[str]) -> dict[str, int]:
        """The place of cards in the list of all that people made, the newest being 1."""
        listed = enumerate(self.each(searching.LISTED), 1)
        found = ((card_id, number) for number, (card_id,) in listed if card_id in card_ids)
        return dict(islice(found, len(card_ids)))

    def card_ids(self) -> list[str]:
        """The ids of all cards, also of those that can't be read any more."""
        return [card_id for (card_id,) in self.rows(searching.CARD_IDS)]

    def notes(self, card_id: str) -> list[Note]:
        """All notes on the card of exactly this id, from the first."""
        rows = self._intact("note", searching.notes_of(card_id))
        return [note_from(row) for row in rows]

    def drills(self, *, include_scripted: bool = False) -> list[str]:
        """Names of the drills that have a card, the one last used first."""
        search = searching.last_of_each_drill(scripted=include_scripted)
        with self._readable():
            return [card_from(row).drill for row in self._intact("card", search)]

    def rows(self, search: Search) -> list[Row]:
        """What a search finds."""
        return list(self.each(search))

    def each(self, search: Search) -> Iterator[Row]:
        """What a search finds, row by row."""
        with told_by_code(self.path):
            yield from self.store.execute(search.sql, search.values)

    def _intact(self, table: str, search: Search) -> list[Row]:
        rows = self.rows(search)
        if not all(intact(table, row) for row in rows):
            raise BookProblem("damaged", self.path)
        return [row[: len(COLUMNS[table])] for row in rows]

    def _still_held(self, talk_id: str) -> None:
        who = self._holds.get(talk_id)
        holder = writing.holder_of(self.store, talk_id) if who else None
        if who and (holder is None or holder.who != who):
            raise BookProblem("taken_over", self.path)

    def _only(self, table: str, search: Search | None) -> list[Row]:
        rows = self._intact(table, search) if search else []
        return rows if len(rows) == 1 else []

    @contextmanager
    def _readable(self) -> Iterator[None]:
        try:
            yield
        except (json.JSONDecodeError, KeyError, TypeError) as trouble:
            raise BookProblem("damaged", self.path) from trouble

    @contextmanager
    def _writing(self) -> Iterator[None]:
        if self.read_only:
            raise BookProblem("read_only", self.path)
        with told_by_code(self.path):
            if not self._in_place():  # a commit would go nowhere
                raise BookProblem("gone", self.path)
            self.store.execute("BEGIN IMMEDIATE")
            try:
                yield
                self.store.execute("COMMIT")
            except BaseException:
                if self.store.in_transaction:
                    self.store.execute("ROLLBACK")
                raise

    def _in_place(self) -> bool:
        """Whether the open file is the one at the path: neither moved, deleted nor replaced."""
        return on_disk(self.path) == self._file


def on_disk(path: Path) -> tuple[int, int] | None:
    """Which file a path leads to; none where there is no file."""
    try:
        found = os.stat(path)  # noqa: PTH116  once for each answer
    except (FileNotFoundError, NotADirectoryError):
        return None
    return found.st_dev, found.st_ino
