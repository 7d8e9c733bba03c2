"""Which of the rows found in a damaged file are as they were written: their hashes tell.

A conversation proves itself. Its events are proven from the first one on, up to the first that is
lost: what came after was said to answers that nobody knows any more. A card is proven by the hash
of any row of its conversation, so it outlives events; a note by that of its card.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from assistant.book.book import Book
from assistant.book.pages import FoundRow
from assistant.book.schema import COLUMNS
from assistant.book.sealing import Value, seal
from assistant.book.writing import START, add_row

Key = tuple[Value, ...]
Proven = dict[str, dict[Key, FoundRow]]
MOMENT = {table: columns.index("moment") for table, columns in COLUMNS.items()}
CARD_TALK = COLUMNS["card"].index("talk")
NOTE_CARD = COLUMNS["note"].index("card")


@dataclass(slots=True)
class Found:
    """The rows of a file by table and key; a key may have been read more than once."""

    rows: dict[str, dict[Key, list[FoundRow]]] = field(
        default_factory=lambda: {table: defaultdict(list) for table in COLUMNS}
    )

    def add(self, rows: Iterable[FoundRow]) -> None:
        """Takes in what was read."""
        for row in rows:
            self.rows[row.table][row.key].append(row)

    def proven(self) -> Proven:
        """The rows that are as they were written."""
        proven: Proven = {table: {} for table in COLUMNS}
        for key in self.rows["talk"]:
            self._prove(proven, "talk", key, [START])
        for key, talk in list(proven["talk"].items()):
            self._prove_events(proven, key[0], talk.written)
        hashes = self._hashes_by_talk()
        for key, cards in self.rows["card"].items():
            before = {each for card in cards for each in hashes[card.values[CARD_TALK]]}
            self._prove(proven, "card", key, {START, *before})
        for key, notes in self.rows["note"].items():
            of = {(note.values[NOTE_CARD],) for note in notes} & proven["card"].keys()
            self._prove(proven, "note", key, [proven["card"][card].written for card in of])
        return proven

    def _prove(self, proven: Proven, table: str, key: Key, before: Iterable[str]) -> str | None:
        """Keeps the row of this key that follows one of these hashes; returns its own hash."""
        for one in before:
            for row in self.rows[table].get(key, ()):
                if seal(table, row.values, one) == row.written:
                    proven[table][key] = row
                    return row.written
        return None

    def _prove_events(self, proven: Proven, talk: Value, before: str | None) -> None:
        number = 1
        while before := self._prove(proven, "event", (talk, number), [before] if before else []):
            number += 1

    def _hashes_by_talk(self) -> dict[Value, set[str]]:
        """Every hash that was read in each conversation, whether its row is proven or not."""
        hashes: dict[Value, set[str]] = defaultdict(set)
        for table in ("talk", "event"):
            for key, rows in self.rows[table].items():
                hashes[key[0]] |= {row.written for row in rows}
        return hashes


def write(book: Book, proven: Proven) -> None:
    """Writes proven rows into a new book, all or none.

    Where the row before is lost, the hash is made anew on the one that is there instead.
    """
    store = book.store
    store.execute("BEGIN IMMEDIATE")
    said: dict[Value, list[tuple[int, str]]] = {}  # conversation: moment and hash of its rows
    for (talk,), row in proven["talk"].items():
        said[talk] = [(-1, add_row(store, "talk", row.values, START))]
    for (talk, _number), row in proven["event"].items():
        written = add_row(store, "event", row.values, said[talk][-1][1])
        said[talk].append((moment_of(row), written))
    cards: dict[Value, str] = {}
    for (card,), row in proven["card"].items():
        before = last_before(said, row)
        cards[card] = add_row(store, "card", row.values, before)
    for row in proven["note"].values():
        add_row(store, "note", row.values, cards[row.values[NOTE_CARD]])
    store.execute("COMMIT")


def moment_of(row: FoundRow) -> int:
    """The place of a row in time."""
    moment = row.values[MOMENT[row.table]]
    return moment if isinstance(moment, int) else 0


def last_before(said: Mapping[Value, list[tuple[int, str]]], card: FoundRow) -> str:
    """The hash that a card follows: of the last thing said in its conversation before it."""
    earlier = [
        written
        for moment, written in said.get(card.values[CARD_TALK], ())
        if moment < moment_of(card)
    ]
    return earlier[-1] if earlier else START
