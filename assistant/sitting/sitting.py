"""A conversation over a book: what happened is on disk before the next question shows."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import datetime

from assistant import __version__
from assistant.book.book import Book
from assistant.book.holding import me
from assistant.book.ids import new_id
from assistant.book.problems import BookProblem
from assistant.book.records import Body, Holder, StoredCard, StoredEvent, Talk
from assistant.dialogue.advance import advance, begin, ended, resume
from assistant.dialogue.events import Event, OfferedCards, Reply, Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import (
    REVIEW,
    Answered,
    Began,
    CardOffer,
    FlowChanged,
    Offered,
    Record,
    Resumed,
    fold,
)
from assistant.dialogue.messages import Fetch, Finish, HowChecked, Message, OldCard, Say
from assistant.dialogue.wording import say
from assistant.flow.graph import shape_of, words_of
from assistant.sitting.journal import record_of, stored
from assistant.sitting.saying import Saying
from assistant.sitting.world import World

FINISHED = "finished"


@dataclass(slots=True)
class Sitting:
    """One conversation held over a book. `hear` is all that a shell needs."""

    job: Job
    book: Book
    world: World
    id: str
    state: State
    scripted: bool = False
    follows: str | None = None
    lends_book: bool = True
    kept: bool = False
    finish: Finish | None = None
    card: str = ""
    started: str = ""
    early: list[StoredEvent] = field(default_factory=list)
    saying: Saying = field(init=False)

    def __post_init__(self) -> None:
        self.saying = Saying(self.job)

    def hear(self, event: Event) -> tuple[Message, ...]:
        """React to an event: store its records, answer fetches, return what is said."""
        again = self.saying.switched(event.text) if isinstance(event, Typed) else ()
        if again:
            return again
        self.state, reply = advance(self.job, self.state, event)
        return self.told(reply)

    def told(self, reply: Reply) -> tuple[Message, ...]:
        """Store what a reply adds to the journal, and answer its fetches."""
        said = (*self._keep(reply), *map(self._as_kept, reply.messages))
        fetch = next((m for m in said if isinstance(m, Fetch)), None)
        if fetch is None:
            return self.saying.told(said)
        cards = self._cards(fetch)
        rest = tuple(m for m in said if not isinstance(m, Fetch))
        return (*self.saying.told(rest), *self.hear(OfferedCards(cards)))

    def _as_kept(self, message: Message) -> Message:
        if isinstance(message, Finish) and self.follows and not self.kept:
            return replace(message, text=say(self.job, "corrected.unchanged"))
        if isinstance(message, HowChecked):
            from assistant.sitting.checked import how_checked

            return how_checked(self.job, self.world.proof(self.job.graph.job))
        if not isinstance(message, OldCard):
            return message
        from assistant.sitting.remembering import old_card

        return old_card(self.job, self.book if self.lends_book else None, message)

    def _cards(self, fetch: Fetch) -> tuple[CardOffer, ...]:
        if not self.lends_book:
            return ()
        from assistant.sitting.remembering import offers

        return offers(self.job, self.book, fetch, scripted=self.scripted)

    def _keep(self, reply: Reply) -> tuple[Message, ...]:
        """Store the records; what is said when they went into another file than before."""
        events: list[tuple[str, Body]] = [stored(record) for record in reply.records]
        done = ended(reply.messages)
        if not events and not done:
            return ()
        if not self.kept and self.follows and done:
            self.finish = done  # looked at again, nothing changed: nothing new to keep
            return ()
        if not self.kept and not done and not any(map(told_something, reply.records)):
            self.early += self._not_kept_yet(events)
            return ()
        try:
            self._write(events, done)
        except BookProblem as trouble:
            if trouble.code != "gone":
                raise
            self._begin_anew()
            self._write(events, done)
            path = str(self.book.path)
            return (Say(say(self.job, "book.begun_anew", path=path)),)
        return ()

    def _write(self, events: list[tuple[str, Body]], done: Finish | None) -> None:
        if not self.kept:
            self.book.start(self._talk(), tuple(self.early), Holder(me(), self.started))
            self.kept = True
        if done is None:
            self.book.append(self.id, events, self.world.now())
            return
        self.finish = done
        self._end(done, events)

    def _not_kept_yet(self, events: list[tuple[str, Body]]) -> list[StoredEvent]:
        """What comes before the first answer: it enters the book with that, numbered there."""
        first = len(self.early) + 1
        return [
            StoredEvent(self.id, n, self.started, *each) for n, each in enumerate(events, first)
        ]

    def _begin_anew(self) -> None:
        """Carry the conversation over to the file that is now where the book was."""
        told = self.book.events(self.id) if self.kept else []
        self.book.start_over()
        if not self.kept:
            return
        there = self.book.events(self.id) if self.book.talk(self.id) else None
        if there is None:
            self.book.start(self._talk(), told, Holder(me(), self.started))
            return
        if there != told[: len(there)]:  # an older copy that went on elsewhere
            raise BookProblem("failed", self.book.path)
        self.book.take_over(self.id, me(), self.started)
        for event in told[len(there) :]:
            self.book.append(self.id, [(event.kind, event.body)], event.at)

    def _end(self, done: Finish, events: list[tuple[str, Body]]) -> None:
        events = [*events, (FINISHED, {"outcome": done.outcome})]
        if not done.card:
            self.book.append(self.id, events, self.world.now())
            return
        from assistant.card.text import card_text
        from assistant.sitting.making import card_facts

        now = self.world.now()
        self.card = card_text(
            self.job,
            self.state,
            outcome=done.outcome,
            date=now[:10],
            number=self.id,
            follows=self.follows or "",
        )
        facts = card_facts(self.job, self.state)
        named = {name: str(facts.get(name, {}).get("shown", "")) for name in SOUGHT}
        card = StoredCard(
            id=new_id(self.world.clock(), self.world.chance(10)),
            talk=self.id,
            at=now,
            job=self.job.graph.job,
            outcome=done.outcome,
            scripted=self.scripted,
            facts=facts,
            lines=list(self.card.split("\n")),
            **named,
        )
        self.book.finish(card, events)

    def _talk(self) -> Talk:
        return Talk(
            self.id,
            self.job.graph.job,
            self.started,
            __version__,
            shape_of(self.job.graph),
            words_of(self.job.library),
            self.scripted,
            self.follows,
        )


SOUGHT = ("drill", "crop", "lot")


def open_sitting(  # noqa: PLR0913  a job, where it is kept, and how it is held
    job: Job,
    book: Book,
    world: World,
    *,
    system: str = "us",
    scripted: bool = False,
    lends_book: bool = True,
) -> tuple[Sitting, tuple[Message, ...]]:
    """Begin a conversation; it enters the book with its first answer."""
    state, reply = begin(job, system)
    number = new_id(world.clock(), world.chance(10))
    sitting = Sitting(
        job, book, world, number, state, scripted, lends_book=lends_book, started=world.now()
    )
    return sitting, sitting.told(reply)


def told_something(record: Record) -> bool:
    """Whether a record is worth keeping a conversation for: a person or a file told something."""
    return not isinstance(record, Began | Offered | Resumed | FlowChanged)


def go_on(  # noqa: PLR0913  a conversation, where it is kept, and how it is taken up
    job: Job,
    book: Book,
    world: World,
    talk: Talk,
    *,
    lends_book: bool = True,
    asks_again: bool = True,
) -> tuple[Sitting, tuple[Message, ...]]:
    """Go on with a conversation of the book: a new sitting, the open question again.

    With `asks_again`, what may have changed while the person was away is asked again.
    """
    log = fold(records_of(book, talk.id))
    away = seconds_since(book, talk, world) if asks_again else 0
    state, reply = resume(job, log, away)
    sitting = Sitting(
        job,
        book,
        world,
        talk.id,
        state,
        talk.scripted,
        talk.follows,
        lends_book=lends_book,
        kept=True,
        started=talk.started,
    )
    said = sitting.told(reply)
    if talk.shape != shape_of(job.graph):
        return sitting, (Say(say(job, "resume.changed")), *said)
    return sitting, said


def seconds_since(book: Book, talk: Talk, world: World) -> float:
    """How long ago a conversation was last talked in; 0 where a clock was set back."""
    last = max((event.number, event.at) for event in book.events(talk.id))[1]
    return max(0, (world.clock() - datetime.fromisoformat(last)).total_seconds())


def ends(event: StoredEvent) -> bool:
    """Whether an event ended its conversation: the finish, or the "right" to its review."""
    if event.kind == FINISHED:
        return True
    record = record_of(event.kind, event.body)
    return isinstance(record, Answered) and record.entries[0].fact == REVIEW


def corrected(
    job: Job, book: Book, world: World, talk: Talk
) -> tuple[Sitting, tuple[Message, ...]]:
    """Open a finished conversation at its review; a change begins one that follows it."""
    log = fold(records_of(book, talk.id)).unreviewed()
    state, reply = resume(job, log, corrects=talk.id)
    number = new_id(world.clock(), world.chance(10))
    sitting = Sitting(job, book, world, number, state, talk.scripted, talk.id, started=world.now())
    sitting.early = [each for each in book.events(talk.id) if not ends(each)]
    return sitting, sitting.told(reply)


def records_of(book: Book, talk: str) -> list[Record]:
    """The records of a stored conversation."""
    return [record_of(e.kind, e.body) for e in book.events(talk) if e.kind != FINISHED]
