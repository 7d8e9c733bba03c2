"""Takes an exported file into the book: set union, in one transaction.

A row is taken when its hash follows from a row that the book has: rows come in the order of the
file, which is the order of their moments. What the book has stays as it is. So books without a
conflict give the same book in any order; a conversation that went on in two books is a conflict:
the book's own way of going on stays, the file's is left out and named.
"""

from collections import Counter
from dataclasses import dataclass, field
from typing import Any, BinaryIO, Protocol

from assistant.book.book import Book
from assistant.book.holding import alive
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.sealing import seal
from assistant.book.untrusted import LineCode, Refusal, Told, rows_in
from assistant.book.writing import START, add_row

MOST_TOLD = 20

Before = tuple[str, int]  # hash and moment of the row that a row follows

TALK_IN = {"talk": "id", "event": "talk", "card": "talk", "note": "card"}
"""The column that tells what a row is about: its conversation, for a note its card."""

HOLDERS = "SELECT talk, who FROM holder"
EVENT_BEFORE = """SELECT hash, max(moment, coalesce(
    (SELECT max(moment) FROM card WHERE card.talk = event.talk), 0))
    FROM event WHERE talk = ? AND number = ?"""
CARD_BEFORE = """SELECT hash, moment FROM event WHERE talk = ? AND moment < ?
    ORDER BY number DESC LIMIT 1"""
TALK_BEFORE = "SELECT hash, moment FROM talk WHERE id = ?"
NOTE_BEFORE = "SELECT hash, moment FROM card WHERE id = ?"


class Judge(Protocol):
    """Whether the program could have written what a row holds."""

    def event(self, kind: str, body: Any) -> bool:
        """Whether an event can be read back into the dialogue."""
        ...

    def card(self, body: Any) -> bool:
        """Whether a card's facts and lines can be shown and lent."""
        ...


@dataclass(slots=True)
class Taken:
    """What an import did: rows added by table, rows that were here, lines left out."""

    added: Counter[str] = field(default_factory=Counter)
    here: int = 0
    left_out: int = 0
    refusals: list[Refusal] = field(default_factory=list)
    missing: int = 0
    stopped: dict[str, LineCode] = field(default_factory=dict)

    def refuse(self, refusal: Refusal) -> None:
        """Counts a line that is left out, and keeps the first ones to tell."""
        self.left_out += 1
        if len(self.refusals) < MOST_TOLD:
            self.refusals.append(refusal)


def take_in(book: Book, source: BinaryIO, judge: Judge) -> Taken:
    """Adds what the book lacks, all of it or, where the import ends early, nothing.

    Raises NotTaken for a file that is no book, BookProblem where the book stands in the way.
    """
    lines = rows_in(source)
    promised = next(lines)
    taken = Taken(missing=promised if isinstance(promised, int) else 0)
    with book._writing():  # noqa: SLF001  the book's own transaction, for the whole file
        held = held_here(book)
        for line in lines:
            taken.missing -= 1
            if isinstance(line, Told):
                take(book, line, judge, taken, held)
            elif isinstance(line, Refusal):
                taken.refuse(line)
    return taken


def held_here(book: Book) -> set[str]:
    """Conversations that a living program has open: it goes on from what it has read."""
    return {talk for talk, who in book.store.execute(HOLDERS) if alive(who)}


def take(book: Book, told: Told, judge: Judge, taken: Taken, held: set[str]) -> None:
    """Adds a row, or counts it among those that are here, or refuses it.

    What follows a row of its conversation that is left out is left out for the same reason.
    """
    found = row_here(book, told)
    if found == (*told.values, told.hash):
        taken.here += 1
        return
    before = None if found else row_before(book, told)
    code = why_not(told, found, before, judge)
    talk = str(told.value(TALK_IN[told.table]))
    if code is None and told.table == "event" and talk in held:
        code = "held"
    if code is None and before is not None:
        add_row(book.store, told.table, told.values, before[0])
        taken.added[told.table] += 1
        return
    code = code or "apart"
    if code in {"damaged", "apart"}:
        code = taken.stopped.get(talk, code)
    elif told.table in {"talk", "event"}:
        taken.stopped.setdefault(talk, code)
    taken.refuse(Refusal(told.line, code, talk))


def why_not(told: Told, found: Any, before: Before | None, judge: Judge) -> LineCode | None:
    """Why a row can't be added, if it can't."""
    if found:
        return "forked" if told.table == "event" else "other"
    if before is None:
        return "apart"
    sealed, moment = before
    if told.value("moment") <= moment or seal(told.table, told.values, sealed) != told.hash:
        return "damaged"
    if told.table == "event" and not judge.event(told.value("kind"), told.body):
        return "strange"
    if told.table == "card" and not judge.card(told.body):
        return "strange"
    return None


def row_here(book: Book, told: Told) -> Any:
    """The row that the book has under the same key."""
    names = ", ".join((*COLUMNS[told.table], "hash"))
    keys = KEYS[told.table]
    same = " AND ".join(f"{key} = ?" for key in keys)
    sql = f"SELECT {names} FROM {told.table} WHERE {same}"  # noqa: S608  names from the schema
    return book.store.execute(sql, [told.value(key) for key in keys]).fetchone()


def row_before(book: Book, told: Told) -> Before | None:
    """The row of the book that a row must follow.

    An event also comes after every card of its conversation: a card was sealed with what was then
    the last event.
    """
    values = told.value
    match told.table:
        case "talk":
            return START, -1
        case "event" if values("number") > 1:
            return one(book, EVENT_BEFORE, values("talk"), values("number") - 1)
        case "card":
            last = one(book, CARD_BEFORE, values("talk"), values("moment"))
            return last or one(book, TALK_BEFORE, values("talk"))
        case "note":
            return one(book, NOTE_BEFORE, values("card"))
    return one(book, TALK_BEFORE, values("talk"))


def one(book: Book, sql: str, *filling: Any) -> Before | None:
    """The one row that is found."""
    found: Before | None = book.store.execute(sql, filling).fetchone()
    return found
