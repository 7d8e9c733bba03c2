"""Which cards somebody wants to see, and what that is in SQL."""

import re
from dataclasses import dataclass

from assistant.book.ids import as_moment, milliseconds
from assistant.book.rows import sound
from assistant.book.sealing import Value


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which cards: names whole, capitals aside; made from one moment and before another; words.

    Each of `words` stands somewhere in the drill, the crop, the lot, the outcome, the date or a
    note.
    """

    drill: str | None = None
    crop: str | None = None
    lot: str | None = None
    since: str | None = None
    before: str | None = None
    words: tuple[str, ...] = ()
    scripted: bool = False


def conditions(wanted: Wanted) -> tuple[str, tuple[Value, ...]]:
    """What a card must meet: a WHERE of SQL, and the values that fill it."""
    met = ["WHERE 1" if wanted.scripted else "WHERE scripted = 0"]
    values: list[Value] = []
    for name in ("drill", "crop", "lot"):
        text = getattr(wanted, name)
        if text is not None:
            met.append(f"AND {name} = ?")
            values.append(sound(text))
    if wanted.since is not None:
        first = milliseconds(wanted.since)
        # The moment walks the index: it is never earlier than the clock was.
        met += ["AND moment >= ?", "AND julianday(at) >= julianday(?)"]
        values += [first, as_moment(first)]
    if wanted.before is not None:
        met.append("AND julianday(at) < julianday(?)")
        values.append(as_moment(milliseconds(wanted.before)))
    for word in wanted.words:
        met.append(HOLDS)
        values += [holding(word)] * 2
    return " ".join(met), tuple(values)


HOLDS = r"""AND (drill || ' ' || crop || ' ' || lot || ' ' || replace(outcome, '_', ' ') || ' '
    || substr(at, 1, 10)
    LIKE ? ESCAPE '\' OR EXISTS (SELECT 1 FROM note WHERE note.card = card.id
    AND note.text LIKE ? ESCAPE '\'))"""


def holding(word: str) -> str:
    """The pattern of a text that holds a word as it is typed."""
    return "%" + re.sub(r"([\\%_])", r"\\\1", sound(word)) + "%"
