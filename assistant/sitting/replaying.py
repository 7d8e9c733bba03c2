"""A stored conversation worked out again, without writing anything."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.book.book import Book
from assistant.book.records import Talk
from assistant.dialogue.advance import ended, place_is_gone
from assistant.dialogue.fold import replayed
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import FlowChanged, fold
from assistant.dialogue.messages import Finish
from assistant.flow.graph import shape_of
from assistant.sitting.sitting import records_of

UNREADABLE = (LookupError, TypeError, ValueError, ArithmeticError, StopIteration)
"""What the machine raises over answers that no flow of today could have taken."""


@dataclass(frozen=True, slots=True)
class Replay:
    """Where a conversation comes to today. `finish` is None where a question is open again.

    `same_questions` says that the flow has the shape that the conversation was held in.
    """

    job: Job
    talk: Talk
    state: State
    finish: Finish | None
    same_questions: bool


def replay(job: Job, book: Book, talk: Talk) -> Replay:
    """A conversation worked out with today's flow; answers whose place is gone wait to be used.

    Raises BookProblem, or one of UNREADABLE where a stored answer is no answer any more.
    """
    log = fold(records_of(book, talk.id))
    gone = tuple(entry for entry in log.entries if place_is_gone(job, entry))
    state, said = replayed(job, log.after(FlowChanged(gone)) if gone else log)
    return Replay(job, talk, state, ended(said), talk.shape == shape_of(job.graph))
