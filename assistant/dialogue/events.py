"""What can happen to a conversation. The clock, the book and the person stand behind these."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from assistant.dialogue.log import CardOffer, Record
from assistant.dialogue.messages import Message


@dataclass(frozen=True, slots=True)
class Typed:
    """A line that a person typed."""

    text: str


@dataclass(frozen=True, slots=True)
class Supplied:
    """Named texts for the open question, as a script gives them."""

    values: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Given:
    """Named texts told before their questions."""

    values: Mapping[str, str]
    origin: str = ""


@dataclass(frozen=True, slots=True)
class OfferedCards:
    """The shell's answer to a fetch."""

    cards: tuple[CardOffer, ...]


@dataclass(frozen=True, slots=True)
class Back:
    """Take back the last question that a person saw."""


@dataclass(frozen=True, slots=True)
class ChangeTo:
    """Give a fact another value at once, without a preview."""

    fact: str
    text: str


@dataclass(frozen=True, slots=True)
class StrikeRow:
    """Drop a row of a series, counted from 1, for a reason."""

    series: str
    row: int
    reason: str


@dataclass(frozen=True, slots=True)
class GoOn:
    """The conversation goes on after a pause."""


Event = Typed | Supplied | Given | OfferedCards | Back | ChangeTo | StrikeRow | GoOn


@dataclass(frozen=True, slots=True)
class Reply:
    """What the assistant says until it next needs an answer, and what the journal gains."""

    messages: tuple[Message, ...]
    records: tuple[Record, ...] = ()
