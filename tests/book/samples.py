"""Made-up conversations and cards for the tests of the book."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from assistant.book.book import Book
from assistant.book.ids import new_id
from assistant.book.records import Body, Note, StoredCard, StoredEvent, Talk

DAWN = datetime.fromisoformat("2031-04-02T05:30:00+00:00")


def at(minute: float = 0) -> str:
    """A moment, minutes after dawn on a day of our own."""
    return (DAWN + timedelta(minutes=minute)).isoformat()


def made_id(number: int) -> str:
    """The id of the thing made `number` minutes after dawn; chance has no part in it."""
    return new_id(DAWN + timedelta(minutes=number), number.to_bytes(7, "big"))


def a_talk(number: int = 1, *, scripted: bool = False, follows: str | None = None) -> Talk:
    """A conversation about setting a drill."""
    return Talk(
        made_id(number), "calibrate", at(number), "0.1.0", "shape", "words", scripted, follows
    )


def a_card(talk: Talk, drill: str = "Old green", **changed: str | Body) -> StoredCard:
    """A card that ends a conversation, ten minutes after it began."""
    card = StoredCard(
        id=new_id(datetime.fromisoformat(talk.started) + timedelta(minutes=10), b"cardcard"),
        talk=talk.id,
        at=(datetime.fromisoformat(talk.started) + timedelta(minutes=10)).isoformat(),
        job=talk.job,
        drill=drill,
        crop="wheat",
        lot="bin 4",
        outcome="proven",
        scripted=talk.scripted,
        facts={"target_catch": {"value": 0.3309, "unit": "kg"}},
        lines=["mark 24", ["catch", 331]],
    )
    return replace(card, **changed)  # type: ignore[arg-type]


def an_event(number: int, body: Body, talk: str = "") -> StoredEvent:
    """An answer, as another conversation may have kept it."""
    return StoredEvent(talk, number, at(number), "answered", body)


def a_note(talk: Talk, minute: int = 15, text: str = "a bit deep") -> Note:
    """A note on the card of a conversation, some minutes after that began."""
    moment = datetime.fromisoformat(talk.started) + timedelta(minutes=minute)
    return Note(new_id(moment, b"notenote"), a_card(talk).id, moment.isoformat(), text)


def fill(book: Book, cards: int = 3) -> list[Talk]:
    """Finished conversations of two answers and a note each; returns them, the oldest first."""
    talks = [a_talk(20 * number) for number in range(cards)]
    for talk in talks:
        book.start(talk)
        book.append(talk.id, [("answered", {"crop": "wheat"})], talk.started)
        book.finish(a_card(talk), [("answered", {"lot": "bin 4"})])
        book.add_note(a_note(talk))
    return talks


@contextmanager
def whole(path: Path) -> Iterator[None]:
    """Holds that a block leaves the bytes of a file, and what lies beside it, as they were."""
    before, names = path.read_bytes(), sorted(path.parent.iterdir())
    yield
    assert path.read_bytes() == before
    assert sorted(path.parent.iterdir()) == names
