"""How much longer a book takes when it holds a hundred times the cards, as ratios in one run."""

import statistics
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

from assistant.book import writing
from assistant.book.book import Book
from assistant.book.records import Talk
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_talk, at

FEW, MANY = 1_000, 100_000
DRILLS, CROPS, LOTS = 7, 11, 40
TIMES = 9

STEADY = "about 1"

Deed = Callable[[Book, str], object]
Cost = Callable[[], float]

# What is done to a book, and with one conversation of it.
STEADY_DEEDS: dict[str, Deed] = {
    "the last 20": lambda book, _: book.cards(),
    "20 of a drill": lambda book, _: book.cards(drill="drill 3"),
    "20 of a crop": lambda book, _: book.cards(crop="crop 3"),
    "20 of a lot": lambda book, _: book.cards(lot="lot 33"),
    "one card, with its hash": lambda book, talk: book.card(talk),
    "one answer kept": lambda book, talk: book.append(talk, [("answered", {})], at()),
    "the names of the drills": lambda book, _: book.drills(),
}
GROWING_DEEDS: dict[str, Deed] = {
    "what was left": lambda book, _: book.unfinished(),
    "verifying all of it": lambda book, _: verify(book),
}


def filled(path: Path, cards: int) -> Path:
    """A book of so many finished conversations, written in one transaction."""
    with Book.open(path) as book:
        store = book.store
        store.execute("BEGIN IMMEDIATE")
        for number in range(cards):
            talk = numbered(number)
            writing.add_talk(store, talk)
            writing.add_events(store, talk.id, [(talk.started, "finished", {"outcome": "proven"})])
            card = replace(
                a_card(talk, f"drill {number % DRILLS}"),
                crop=f"crop {number % CROPS}",
                lot=f"lot {number % LOTS}",
            )
            writing.add_card(store, card)
        store.execute("COMMIT")
    return path


def numbered(number: int) -> Talk:
    """One of the conversations; twenty minutes lie between two."""
    return a_talk(20 * number)


def opened(path: Path) -> float:
    """Seconds to open a book."""
    started = time.perf_counter()
    book = Book.open(path)
    taken = time.perf_counter() - started
    book.close()
    return taken


def done(deed: Deed, book: Book, talk: str) -> float:
    """Seconds that a deed takes."""
    started = time.perf_counter()
    deed(book, talk)
    return time.perf_counter() - started


def ratio(many: Cost, few: Cost, times: int = TIMES) -> float:
    """The median of the ratios of two costs, measured in turn; the first pair is not counted."""
    return statistics.median([many() / few() for _ in range(times + 1)][1:])


def growth(few: int = FEW, many: int = MANY) -> Iterator[tuple[str, float, str]]:
    """What is done, how many times longer it takes in the larger book, and the goal."""
    with TemporaryDirectory() as name:
        small, large = (filled(Path(name) / f"{size}.db", size) for size in (few, many))
        yield "opening", ratio(partial(opened, large), partial(opened, small)), STEADY
        with Book.open(small) as less, Book.open(large) as more:
            middles = numbered(many // 2).id, numbered(few // 2).id
            for deeds, goal, times in (
                (STEADY_DEEDS, STEADY, TIMES),
                (GROWING_DEEDS, f"about {many // few}", 1),
            ):
                for about, deed in deeds.items():
                    costs = (
                        partial(done, deed, more, middles[0]),
                        partial(done, deed, less, middles[1]),
                    )
                    yield about, ratio(*costs, times=times), goal
