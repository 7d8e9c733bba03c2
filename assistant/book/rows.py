"""Records as rows of the tables, and back. Columns stand in the order of the schema."""

import json
from collections.abc import Sequence
from typing import Any, cast

from assistant.book.records import Body, Note, StoredCard, StoredEvent, Talk
from assistant.book.sealing import Value, compact

Row = tuple[Any, ...]


def sound(text: str) -> str:
    """The text as the file can hold it: what is no Unicode becomes a question mark."""
    return text.encode("utf-8", "replace").decode("utf-8")


def as_columns(*values: Value) -> list[Value]:
    """The values with every text made sound."""
    return [sound(value) if isinstance(value, str) else value for value in values]


def talk_row(talk: Talk, moment: int) -> list[Value]:
    """The columns of a conversation."""
    return as_columns(
        talk.id,
        talk.job,
        talk.started,
        talk.program,
        talk.shape,
        talk.words,
        int(talk.scripted),
        talk.follows,
        moment,
    )


def event_row(event: StoredEvent, moment: int) -> list[Value]:
    """The columns of an event."""
    return as_columns(
        event.talk, event.number, event.at, event.kind, compact(dict(event.body)), moment
    )


def card_row(card: StoredCard, moment: int) -> list[Value]:
    """The columns of a card."""
    return as_columns(
        card.id,
        card.talk,
        card.at,
        card.job,
        card.drill,
        card.crop,
        card.lot,
        card.outcome,
        int(card.scripted),
        compact({"facts": dict(card.facts), "lines": list(card.lines)}),
        moment,
    )


def note_row(note: Note, moment: int) -> list[Value]:
    """The columns of a note."""
    return as_columns(note.id, note.card, note.at, note.text, moment)


def talk_from(row: Sequence[Any]) -> Talk:
    """A conversation as it was written."""
    talk_id, job, started, program, shape, words, scripted, follows, _moment = row
    return Talk(talk_id, job, started, program, shape, words, bool(scripted), follows)


def event_from(row: Sequence[Any]) -> StoredEvent:
    """An event as it was written; raises ValueError when its body is no longer JSON."""
    talk, number, at, kind, body, _moment = row
    return StoredEvent(talk, number, at, kind, cast("Body", json.loads(body)))


def card_from(row: Sequence[Any]) -> StoredCard:
    """A card as it was written; raises ValueError when its body is no longer JSON."""
    card_id, talk, at, job, drill, crop, lot, outcome, scripted, body, _moment = row
    content = json.loads(body)
    return StoredCard(
        card_id,
        talk,
        at,
        job,
        drill,
        crop,
        lot,
        outcome,
        bool(scripted),
        content["facts"],
        content["lines"],
    )


def note_from(row: Sequence[Any]) -> Note:
    """A note as it was written."""
    note_id, card, at, text, _moment = row
    return Note(note_id, card, at, text)
