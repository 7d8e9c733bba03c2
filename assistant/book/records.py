"""What the book keeps: conversations, their events, finished cards and notes on them.

Moments are ISO 8601 texts in UTC. Bodies, facts and lines hold what JSON can hold.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

Body = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Talk:
    """One conversation: its job, and the program, flow and words it was held with.

    `follows` is the id of the conversation that this one corrects.
    """

    id: str
    job: str
    started: str
    program: str
    shape: str
    words: str
    scripted: bool
    follows: str | None = None


@dataclass(frozen=True, slots=True)
class StoredEvent:
    """One line of a conversation's journal; numbers run from 1 without a gap."""

    talk: str
    number: int
    at: str
    kind: str
    body: Body


@dataclass(frozen=True, slots=True)
class StoredCard:
    """A finished record. What it is searched by stands beside its facts and lines."""

    id: str
    talk: str
    at: str
    job: str
    drill: str
    crop: str
    lot: str
    outcome: str
    scripted: bool
    facts: Body
    lines: list[object] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Note:
    """What somebody wrote on a card later; `card` is the card's id."""

    id: str
    card: str
    at: str
    text: str


@dataclass(frozen=True, slots=True)
class Holder:
    """Who has a conversation open, and since when."""

    who: str
    since: str
