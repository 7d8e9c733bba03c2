"""A book of an older format is brought up to date in one transaction: old or new, never between."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from assistant.book import opening
from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.schema import VERSION, added_after, made_in
from assistant.book.verifying import verify
from tests.book.keep import KEPT, meaning
from tests.book.samples import whole
from tests.book.test_problems import problem_of


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A copy of the kept book of format 1."""
    path = tmp_path / "data" / "book.db"
    path.parent.mkdir()
    shutil.copyfile(KEPT / "format_1.db", path)
    path.chmod(0o600)
    return path


def names(path: Path) -> set[str]:
    """What the file holds by name, and its format."""
    with closing(sqlite3.connect(path)) as store:
        found = {name for (name,) in store.execute("SELECT name FROM sqlite_master")}
        (version,) = store.execute("PRAGMA user_version").fetchone()
    return {*found, str(version)}


def test_a_book_brought_up_to_date_has_what_a_new_one_has(old: Path, tmp_path: Path) -> None:
    Book.open(old).close()
    Book.open(tmp_path / "new.db").close()
    assert names(old) == names(tmp_path / "new.db")
    assert set(made_in(VERSION)) < names(old)


@pytest.mark.parametrize("done", range(len(added_after(1)) + 1))
def test_a_statement_that_fails_leaves_the_old_book(
    old: Path, monkeypatch: pytest.MonkeyPatch, done: int
) -> None:
    spoiled = [*added_after(1)[:done], "SELECT nothing"]
    monkeypatch.setattr(opening, "added_after", lambda _: spoiled)
    with whole(old):
        assert problem_of(lambda: Book.open(old)).code == "failed"
    monkeypatch.undo()
    with Book.open(old) as book:
        assert len(book.cards(include_scripted=True)) == 3
        assert verify(book) == []


def test_it_is_one_transaction(old: Path) -> None:
    said: list[str] = []
    with closing(sqlite3.connect(old, isolation_level=None)) as store:
        store.set_trace_callback(said.append)
        opening.make_tables(store)
    changes = [text for text in said if text != "PRAGMA user_version"]
    assert changes[0] == "BEGIN IMMEDIATE"
    assert changes[-2:] == [f"PRAGMA user_version = {VERSION}", "COMMIT"]
    assert changes[1:-2] == added_after(1)


def test_an_older_program_that_has_it_open_goes_on(old: Path) -> None:
    with closing(sqlite3.connect(old, isolation_level=None)) as older:
        older.execute("PRAGMA journal_mode = WAL")
        assert older.execute("SELECT count(*) FROM card").fetchone() == (3,)
        with Book.open(old) as book:
            told = meaning(book)
            assert older.execute("SELECT count(*) FROM card").fetchone() == (3,)
        assert old.read_bytes()[60:64] == (1).to_bytes(4, "big")  # the log tells of the new format
        with Book.open(old) as book:
            assert meaning(book) == told
            assert verify(book) == []


def test_one_that_another_program_writes_is_locked_and_stays_old(old: Path) -> None:
    with closing(sqlite3.connect(old, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(BookProblem, match="locked"):
            Book.open(old, patience=0.01)
        other.execute("ROLLBACK")
    assert names(old) == {*made_in(1), "1"}
