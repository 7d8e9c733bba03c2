"""A small book spoiled in one place, and what may be read of it then: the truth, or nothing."""

from collections.abc import Callable
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_talk, fill

TALKS = [a_talk(20 * number) for number in range(3)]

# Each gives records whose hashes are looked at, so that none is ever shown that was not written.
READERS: tuple[Callable[[Book], list[object]], ...] = (
    lambda book: [book.talk(talk.id) for talk in TALKS],
    lambda book: [*book.unfinished()],
    lambda book: [event for talk in TALKS for event in book.events(talk.id)],
    lambda book: [*book.cards(include_scripted=True)],
    lambda book: [*book.cards(drill="old green")],
    lambda book: [*book.cards(crop="wheat", since="2031-01-01", limit=2)],
    lambda book: [*book.cards(lot="bin 4")],
    lambda book: [book.card(talk.id) for talk in TALKS],
    lambda book: [book.card(a_card(talk).id[:12]) for talk in TALKS],
    lambda book: [note for talk in TALKS for note in book.notes(a_card(talk).id)],
    lambda book: [*book.drills()],
)


@cache
def sample() -> bytes:
    """The file of a small book."""
    with TemporaryDirectory() as name:
        path = Path(name) / "book.db"
        with Book.open(path) as book:
            fill(book, len(TALKS))
            book.start(a_talk(900))
        return path.read_bytes()


def readings(book: Book) -> list[list[object] | str]:
    """What each reader gives, or the code of its problem."""
    found: list[list[object] | str] = []
    for reader in READERS:
        try:
            found.append(reader(book))
        except BookProblem as problem:
            found.append(problem.code)
    return found


@cache
def truth() -> list[list[object] | str]:
    """What the readers give of the sample as it was written."""
    with TemporaryDirectory() as name:
        path = Path(name) / "book.db"
        path.write_bytes(sample())
        with Book.open(path) as book:
            assert verify(book) == []
            return readings(book)


@cache
def written() -> list[object]:
    """Every record of the sample, and none for one that is not found."""
    return [None, *(record for part in truth() for record in part)]


def found_out(book: Book) -> bool:
    """Whether verifying tells that something is wrong."""
    try:
        return verify(book) != []
    except BookProblem:
        return True


def judge(path: Path, raw: bytes) -> str:
    """Opens these bytes as a book and reads all of it; tells how that went.

    Fails when a record is shown that nobody wrote, and when anything is other than it was without
    being told by a problem or by verifying.
    """
    path.write_bytes(raw)
    try:
        book = Book.open(path)
    except BookProblem as problem:
        return problem.code
    with book:
        shown = readings(book)
        found = found_out(book)
    records = [record for part in shown if isinstance(part, list) for record in part]
    assert [record for record in records if record not in written()] == []
    assert found or shown == truth()
    return "found" if found else "unharmed"


def flipped(place: int, mask: int) -> bytes:
    """The sample with some bits of one byte turned over."""
    raw = bytearray(sample())
    raw[place] ^= mask
    return bytes(raw)
