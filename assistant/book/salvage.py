"""Sets a damaged book aside and saves what is whole in it into a new one."""

import sqlite3
from contextlib import closing
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from assistant.book.book import Book
from assistant.book.ids import as_moment
from assistant.book.naming import CardName
from assistant.book.opening import identify, ready
from assistant.book.pages import rows_in
from assistant.book.problems import BookProblem, told_by_code
from assistant.book.proven import Found, Key, Proven, write
from assistant.book.replacing import check, fold, half_made, set_aside, take_place
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.sealing import Value
from assistant.book.verifying import verify

WORD = ".damaged"
UNREADABLE = {"damaged", "not_a_database", "foreign"}
NAMED_BY = ("talk", "drill", "crop", "lot")


@dataclass(frozen=True, slots=True)
class Saved:
    """What came of it: how much was saved, what is lost as far as known, and where the rest lies.

    `talks` are ids of conversations that are lost, `cut` of those that lost their last answers.
    """

    aside: Path
    cards: int
    conversations: int
    lost: list[CardName]
    talks: list[str]
    cut: list[str]
    notes: int


def salvage(path: Path, now: datetime) -> Saved:
    """Copies the damaged book at `path` aside and puts a new one with all that is whole there.

    Raises BookProblem, and leaves the book as it is, when it is none of ours or can't be replaced.
    """
    path = path.resolve()
    with told_by_code(path):
        ours(path)
        aside = set_aside(path, WORD, now)
        fold(path)
        found = Found()
        found.add(rows_in(path.read_bytes()))
        proven = found.proven()
        with half_made(path) as part:
            with Book.open(part) as book:
                write(book, proven)
            check(part, len(proven["card"]))
            known = Known()
            known.look(path, found)
            take_place(part, path)
    return saved(aside, proven, known)


def sound(path: Path) -> bool:
    """Whether the book at `path` opens and every row is as it was written. Raises BookProblem."""
    try:
        with Book.open(path) as book:
            return not verify(book)
    except BookProblem as problem:
        if problem.code not in UNREADABLE:
            raise
    return False


def ours(path: Path) -> None:
    """Raises BookProblem for a file that neither says that it is a book nor holds a row of one."""
    try:
        identify(path)
    except BookProblem as problem:
        if problem.code not in UNREADABLE:
            raise
        found = Found()
        found.add(rows_in(path.read_bytes()))
        if problem.code != "damaged" and not any(found.proven().values()):
            raise


@dataclass(slots=True)
class Known:
    """Of which rows anything tells that they were in the book, and what is known of its cards.

    The indexes tell, for they lie in pages of their own. Where one of them can't be read to its
    end, so do rows that are not as they were written.
    """

    keys: dict[str, set[Key]] = field(default_factory=lambda: {table: set() for table in COLUMNS})
    about: dict[Value, dict[str, Value]] = field(default_factory=dict)

    def look(self, path: Path, found: Found) -> None:
        """Gathers what the file at `path` tells; `found` is what was read from its pages."""
        for (card, *_), read in found.rows["card"].items():
            self.about[card] = dict(zip(COLUMNS["card"], read[0].values, strict=True))
        address = f"{path.as_uri()}?mode=ro&immutable=1"
        with closing(ready(sqlite3.connect(address, uri=True))) as store:
            for table, rows in found.rows.items():
                if not self._by_index(store, table):
                    self.keys[table] |= rows.keys()
            for column in NAMED_BY:
                for value, card in entries(store, "card", column, (column, "id"))[0]:
                    self.about.setdefault(card, {})[column] = value

    def _by_index(self, store: sqlite3.Connection, table: str) -> bool:
        """Takes in the keys that the index by moment holds; whether it was read to its end."""
        read, whole = entries(store, table, "moment", ("moment", *KEYS[table]))
        for moment, *key in read:
            self.keys[table].add(tuple(key))
            if table == "card":
                self.about.setdefault(key[0], {})["moment"] = moment
        return whole

    def card(self, card_id: Value) -> CardName:
        """What is known of a card."""
        about = self.about.get(card_id, {})
        told = {name: str(about.get(name) or "") for name in (*NAMED_BY, "at")}
        moment = about.get("moment")
        day = as_moment(moment) if isinstance(moment, int) and 0 <= moment < 1 << 47 else told["at"]
        number = told["talk"] or str(card_id)
        return CardName(number, day[:10], told["drill"], told["crop"], told["lot"])


def entries(
    store: sqlite3.Connection, table: str, index: str, columns: tuple[str, ...]
) -> tuple[list[tuple[Value, ...]], bool]:
    """What an index holds of these columns, from both ends up to where it can't be read.

    Also whether nothing stood in the way.
    """
    named = ", ".join(columns)
    read: dict[tuple[Value, ...], None] = {}
    for order in ("ASC", "DESC"):
        sql = f"""SELECT {named} FROM {table} INDEXED BY {table}_by_{index}
            ORDER BY {index} {order}"""  # noqa: S608  names from the schema
        try:
            for row in store.execute(sql):
                read[row] = None
        except (sqlite3.Error, UnicodeDecodeError):  # it quotes what it can't read
            continue
        return list(read), order == "ASC"
    return list(read), False


def saved(aside: Path, proven: Proven, known: Known) -> Saved:
    """The outcome: what is known and not proven is lost."""
    lost = {table: known.keys[table] - proven[table].keys() for table in COLUMNS}
    talks = {str(key[0]) for key in lost["talk"]}
    return Saved(
        aside,
        cards=len(proven["card"]),
        conversations=len(proven["talk"]),
        lost=sorted((known.card(key[0]) for key in lost["card"]), key=lambda name: name.number),
        talks=sorted(talks),
        cut=sorted({str(key[0]) for key in lost["event"]} - talks),
        notes=len(lost["note"]),
    )
