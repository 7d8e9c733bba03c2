"""What the assistant says, as data. Texts are finished sentences from the flow files.

`brief` is what a flow says instead where little is to be said; empty if it says nothing of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Say:
    """A plain text."""

    text: str
    brief: str = ""


@dataclass(frozen=True, slots=True)
class ReadBack:
    """What was understood, where it could have been otherwise; `items` if it is a list."""

    text: str
    items: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Work:
    """A calculation that was done: outcome, working in words, values for pictures."""

    calculation: str
    outcome: str
    text: str
    values: Mapping[str, float] = field(default_factory=dict)
    brief: str = ""


@dataclass(frozen=True, slots=True)
class Ask:
    """A question: `choices` are numbered from 1, `proposal` is what Enter takes."""

    text: str
    facts: tuple[str, ...]
    example: str = ""
    proposal: str = ""
    choices: tuple[str, ...] = ()
    brief: str = ""


@dataclass(frozen=True, slots=True)
class Warn:
    """A caution: its grade, and the word that passes it."""

    hazard: str
    grade: str
    text: str
    word: str
    ask: str


@dataclass(frozen=True, slots=True)
class Todo:
    """A list or an instruction; with `ask` it waits until the person says that it is done."""

    text: str
    ask: str = ""
    brief: str = ""


@dataclass(frozen=True, slots=True)
class Offer:
    """A closed question of the machine's own: a card, two readings, a change foretold."""

    text: str
    choices: tuple[str, ...]
    ask: str


@dataclass(frozen=True, slots=True)
class ReviewLine:
    """One line of the review: its number if it can be changed, label, value, from where."""

    number: int
    label: str
    value: str
    origin: str


@dataclass(frozen=True, slots=True)
class Review:
    """Every value with where it came from."""

    lines: tuple[ReviewLine, ...]
    last: str = ""


@dataclass(frozen=True, slots=True)
class Trouble:
    """What was read, why not, and an example that works. `code` is the refusal's, of `fact`."""

    code: str
    text: str
    fact: str = ""


@dataclass(frozen=True, slots=True)
class Fetch:
    """A request to the shell: cards whose facts match, cut down to the facts wanted.

    `wanted` leads from a fact of this job to the fact of the card that lends it; "=x" lends x.
    With `waiting` jobs that wait are meant, not cards.
    """

    place: str
    visit: int
    wanted: Mapping[str, str]
    match: Mapping[str, str]
    waiting: bool = False


@dataclass(frozen=True, slots=True)
class OldCard:
    """A request to the shell: show the card of an id, else the newest of a drill or of all."""

    sought: str
    drill: str


@dataclass(frozen=True, slots=True)
class HowChecked:
    """A request to the shell: tell how the steps of this job were checked."""


@dataclass(frozen=True, slots=True)
class Finish:
    """The end: its outcome, and whether a card is to be made."""

    outcome: str
    card: bool
    text: str


@dataclass(frozen=True, slots=True)
class Paused:
    """The person leaves; everything is saved."""

    text: str


Told = Say | ReadBack | Work | Ask | Warn | Todo | Offer | Review | Trouble | Finish | Paused
Message = Told | Fetch | OldCard | HowChecked
