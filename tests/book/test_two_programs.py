"""Programs that use one book at the same time wait for each other, and one holds a conversation."""

import sqlite3
import threading
import time
from contextlib import closing
from pathlib import Path

from assistant.book.book import Book
from assistant.book.verifying import verify
from tests.book.programs import busy_together, eager_together
from tests.book.samples import a_talk, at, made_id
from tests.book.test_problems import problem_of

PROGRAMS, TURNS = 3, 8


def test_programs_that_write_at_once_never_meet_a_locked_book(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    assert busy_together(path, PROGRAMS, TURNS) == [""] * PROGRAMS
    assert list(tmp_path.iterdir()) == [path]
    with Book.open(path) as book:
        for number in range(1, PROGRAMS + 1):
            turns = [event.body["turn"] for event in book.events(made_id(number))]
            assert turns == list(range(TURNS))
        assert verify(book) == []


def test_of_programs_that_ask_at_once_one_has_the_conversation(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    with Book.open(path) as book:
        book.start(a_talk(1))
        said = eager_together(path, PROGRAMS)
    mine = [line.removeprefix("mine ") for line in said if line.startswith("mine ")]
    assert len(mine) == 1
    assert sorted(said) == sorted([f"mine {mine[0]}", *[f"other {mine[0]}"] * (PROGRAMS - 1)])


def test_a_program_waits_for_another_that_is_writing(path: Path) -> None:
    with (
        Book.open(path, patience=20) as book,
        closing(sqlite3.connect(path, isolation_level=None, check_same_thread=False)) as other,
    ):
        book.start(a_talk(1))
        other.execute("BEGIN IMMEDIATE")
        done = threading.Timer(0.3, other.execute, ["ROLLBACK"])
        begun = time.monotonic()
        done.start()
        book.append(made_id(1), [("answered", {})], at(1))
        waited = time.monotonic() - begun
        done.join()
        assert len(book.events(made_id(1))) == 1
    assert waited > 0.25


def test_a_wait_that_is_too_long_ends_in_a_problem_of_its_own(path: Path) -> None:
    with (
        Book.open(path, patience=0.05) as book,
        closing(sqlite3.connect(path, isolation_level=None)) as other,
    ):
        book.start(a_talk(1))
        book.hold(made_id(1), "barn 1", at(1))
        other.execute("BEGIN IMMEDIATE")
        for act in (
            lambda: book.append(made_id(1), [("answered", {})], at(1)),
            lambda: book.hold(made_id(1), "barn 1", at(1)),
            lambda: book.take_over(made_id(1), "barn 1", at(1)),
            lambda: book.let_go(made_id(1), "barn 1"),
            lambda: Book.open(path, patience=0.05).start(a_talk(2)),
        ):
            assert problem_of(act).code == "locked"
        other.execute("ROLLBACK")
