"""What is said of a conversation that is left: "saved" only where something was."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dialogue.messages import Message, Paused
from assistant.dialogue.wording import say
from assistant.sitting.sitting import Sitting


def truthful(sitting: Sitting, said: Sequence[Message], *, keeps: bool) -> tuple[Message, ...]:
    """The messages, with what is true of saving; `keeps` says that there is a book on disk."""
    if sitting.kept and keeps:
        return tuple(said)
    text = say(sitting.job, "leave.nothing" if keeps else "leave.no_book")
    return tuple(Paused(text) if isinstance(each, Paused) else each for each in said)
