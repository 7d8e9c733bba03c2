"""The files of a book: one at rest, for its owner only, and marked as ours."""

import os
import shutil
import sqlite3
import stat
from contextlib import closing
from pathlib import Path

import pytest

from assistant.book import opening
from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.schema import APPLICATION_ID, FORMATS, VERSION, added_after
from assistant.book.verifying import verify
from tests.book.samples import a_talk, at, fill, made_id

OURS_ALONE = pytest.mark.skipif(os.name == "nt", reason="this system has other permissions")


def permissions(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_a_closed_book_is_one_file_and_needs_no_log(path: Path) -> None:
    with Book.open(path) as book:
        fill(book)
        assert sorted(file.name for file in path.parent.iterdir()) == [
            "book.db",
            "book.db-shm",
            "book.db-wal",
        ]
    assert list(path.parent.iterdir()) == [path]
    rollback = 1  # www.sqlite.org/fileformat.html, section 1.3.3
    assert path.read_bytes()[18:20] == bytes([rollback, rollback])


def test_the_last_of_two_programs_to_close_leaves_one_file(path: Path) -> None:
    first, second = Book.open(path), Book.open(path)
    first.start(a_talk(1))
    second.append(made_id(1), [("answered", {})], at(2))
    first.close()
    second.append(made_id(1), [("answered", {})], at(3))
    assert len(second.events(made_id(1))) == 2
    second.close()
    assert list(path.parent.iterdir()) == [path]


@OURS_ALONE
def test_file_and_folder_are_for_their_owner_only(path: Path) -> None:
    old = os.umask(0)
    try:
        with Book.open(path) as book:
            book.start(a_talk())
            assert {permissions(file) for file in path.parent.iterdir()} == {0o600}
    finally:
        os.umask(old)
    assert permissions(path.parent) == 0o700
    assert permissions(path) == 0o600


@OURS_ALONE
def test_a_book_that_others_could_read_is_closed_to_them(path: Path) -> None:
    Book.open(path).close()
    path.chmod(0o644)
    with Book.open(path):
        assert permissions(path) == 0o600


@OURS_ALONE
def test_a_folder_that_was_there_keeps_its_permissions(tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    Book.open(tmp_path / "book.db").close()
    assert permissions(tmp_path) == 0o755


def test_the_file_says_that_it_is_ours_where_the_format_has_a_place_for_it(path: Path) -> None:
    Book.open(path).close()
    header = path.read_bytes()[:100]
    # www.sqlite.org/fileformat.html, section 1.3: user version at 60, application id at 68.
    assert int.from_bytes(header[60:64], "big") == VERSION == len(FORMATS) == 2
    assert int.from_bytes(header[68:72], "big") == APPLICATION_ID != 0


def test_nothing_that_the_file_brings_is_trusted(path: Path) -> None:
    with Book.open(path) as book:
        assert book.store.execute("PRAGMA trusted_schema").fetchone() == (0,)


def test_a_path_may_hold_any_sign(tmp_path: Path) -> None:
    path = tmp_path / "50% of #1?" / "mode=ro&é.db"
    with Book.open(path) as book:
        fill(book)
    assert list(path.parent.iterdir()) == [path]


def test_an_empty_file_becomes_a_book(path: Path) -> None:
    path.parent.mkdir()
    path.touch()
    with Book.open(path) as book:
        assert fill(book, 1) == [a_talk(0)]


def test_opening_a_book_again_and_again_changes_none_of_its_rows(path: Path) -> None:
    with Book.open(path) as book:
        fill(book)
        rows = list(book.store.iterdump())
    for _ in range(3):
        with Book.open(path) as book:
            assert list(book.store.iterdump()) == rows


@pytest.mark.skipif(os.name == "nt", reason="this system has no other way to lock")
def test_where_no_log_is_possible_the_folder_is_synced_too(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def connect(path: Path, mode: str, patience: float) -> sqlite3.Connection:
        """Locks by a file, as for a file system that cannot share memory."""
        address = f"{path.as_uri()}?mode={mode}&vfs=unix-dotfile"
        return sqlite3.connect(address, uri=True, isolation_level=None, timeout=patience)

    monkeypatch.setattr(opening, "connect", connect)
    with Book.open(path) as book:
        extra = 3  # www.sqlite.org/pragma.html, pragma_synchronous
        assert book.store.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert book.store.execute("PRAGMA synchronous").fetchone() == (extra,)
        fill(book)
    assert list(path.parent.iterdir()) == [path]
    with Book.open(path) as book:
        assert len(book.cards()) == 3


def test_while_another_program_reads_the_book_is_kept_without_a_log(path: Path) -> None:
    Book.open(path).close()
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN")
        other.execute("SELECT count(*) FROM card").fetchone()
        with Book.open(path, patience=0.01) as book:
            assert book.store.execute("PRAGMA journal_mode").fetchone() == ("delete",)
            other.execute("COMMIT")
            fill(book, 1)
            assert len(book.cards()) == 1


def test_a_book_whose_making_stops_is_made_at_the_next_opening(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(opening, "added_after", lambda _: [*added_after(0), "SELECT nothing"])
    with pytest.raises(BookProblem, match="failed"):
        Book.open(path)
    assert path.read_bytes() == b""
    monkeypatch.undo()
    with Book.open(path) as book:
        fill(book, 1)
        assert verify(book) == []


@pytest.mark.parametrize("first_page", ["written", "lost"])
def test_a_power_cut_while_a_book_is_made_leaves_no_trace(
    path: Path, tmp_path: Path, first_page: str
) -> None:
    left = tmp_path / "left"
    path.parent.mkdir()
    with closing(sqlite3.connect(path, isolation_level=None)) as store:
        store.execute("PRAGMA cache_size = 1")  # pages reach the file before the commit
        store.execute("BEGIN")
        for statement in added_after(0):
            store.execute(statement)
        shutil.copytree(path.parent, left)
    cut = left / path.name
    assert cut.stat().st_size > 4096
    if first_page == "lost":
        with cut.open("r+b") as file:
            file.write(bytes(4096))
    with Book.open(cut) as book:
        fill(book, 1)
        assert verify(book) == []
    assert list(left.iterdir()) == [cut]


def test_of_two_programs_that_make_a_book_the_slower_finds_it_made(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    version_of = opening.version_of
    Book.open(path).close()
    seen = iter([VERSION, 0])  # the look through it, and the first look of the making
    monkeypatch.setattr(opening, "version_of", lambda store: next(seen, version_of(store)))
    with Book.open(path) as book:
        fill(book, 1)
        assert len(book.cards()) == 1
