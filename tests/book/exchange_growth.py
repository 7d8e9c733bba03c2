"""How much longer, and in how much more memory, a hundred times the cards are exchanged."""

import gc
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from assistant.book.book import Book
from assistant.book.exporting import exported
from assistant.book.importing import take_in
from assistant.book.whole_file import write_whole
from tests.book.exchanging import AnyBody
from tests.book.growth import FEW, MANY, filled


def written(folder: Path, cards: int) -> float:
    """Seconds to export a book of so many short conversations, each with a card."""
    with Book.open(filled(folder / f"{cards}.db", cards)) as book:
        started = time.perf_counter()
        write_whole(folder / f"{cards}.jsonl", exported(book))
        return time.perf_counter() - started


def imported(folder: Path, cards: int) -> float:
    """Seconds to take a whole file into a new book on disk; what answers hold is not judged."""
    with TemporaryDirectory() as name, Book.open(Path(name) / "book.db") as book:
        with (folder / f"{cards}.jsonl").open("rb") as source:
            started = time.perf_counter()
            taken = take_in(book, source, AnyBody())
            spent = time.perf_counter() - started
        assert taken.added["card"] == cards
        return spent


def exchange_growth(
    resident: Callable[[], int], few: int = FEW, many: int = MANY
) -> Iterator[tuple[str, float, str]]:
    """What is done, how many times as much it takes with the many cards, and the goal.

    `resident` tells the memory that is held.
    """
    goal = f"about {many // few}"
    with TemporaryDirectory() as name:
        folder = Path(name)
        yield "exporting all of it", written(folder, many) / written(folder, few), goal
        before = imported(folder, few)
        gc.collect()
        held = resident()
        spent = imported(folder, many)
        gc.collect()
        more = resident()
        yield "importing all of it", 2 * spent / (before + imported(folder, few)), goal
        yield "memory after importing it", more / held, "about 1"
