"""Each answer is one transaction, on disk before the next question shows."""

from __future__ import annotations

import sqlite3
from collections import Counter
from contextlib import closing
from itertools import pairwise
from pathlib import Path

from assistant.book.book import Book
from assistant.dialogue.events import Typed
from assistant.sitting.sitting import Sitting, open_sitting
from tests.script.running import calibrate, world
from tests.script.test_answers import STORY


def commits(sitting: Sitting, line: str) -> int:
    """How many transactions a line commits."""
    counted: Counter[str] = Counter()
    sitting.book.store.set_trace_callback(lambda said: counted.update([said.split()[0]]))
    sitting.hear(Typed(line))
    sitting.book.store.set_trace_callback(None)
    return counted["COMMIT"]


def stored(path: Path) -> int:
    """How many events another reader of the file sees."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as reader:
        return int(reader.execute("SELECT count(*) FROM event").fetchone()[0])


def test_a_whole_story_is_one_transaction_for_each_answer_but_the_first(tmp_path: Path) -> None:
    with Book.open(tmp_path / "book.db") as book:
        sitting, _ = open_sitting(calibrate(), book, world())
        counts = [commits(sitting, line) for line in STORY]
    # The first answer also begins the conversation, and asks the book about the drill.
    assert counts[1:] == [1] * (len(STORY) - 1)
    assert 1 <= counts[0] <= 3


def test_asides_and_slips_write_nothing(tmp_path: Path) -> None:
    with Book.open(tmp_path / "book.db") as book:
        sitting, _ = open_sitting(calibrate(), book, world())
        sitting.hear(Typed(STORY[0]))
        for line in ("why", "help", "review", "repeat", "what is tare", "rubbish", "", "change 99"):
            assert commits(sitting, line) == 0, line


def test_when_the_next_question_shows_another_reader_sees_the_answer(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    with Book.open(path) as book:
        sitting, _ = open_sitting(calibrate(), book, world())
        seen = [0]
        for line in STORY:
            sitting.hear(Typed(line))
            seen.append(stored(path))
    assert all(later > earlier for earlier, later in pairwise(seen))
