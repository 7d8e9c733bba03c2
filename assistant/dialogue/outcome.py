"""What reacting to an event comes to, before the fold."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.dialogue.job import State
from assistant.dialogue.log import Record
from assistant.dialogue.messages import Message


@dataclass(frozen=True, slots=True)
class Outcome:
    """Records to apply, with what is said first; with `state`, the records are applied already."""

    records: tuple[Record, ...] = ()
    said: tuple[Message, ...] = ()
    state: State | None = None
