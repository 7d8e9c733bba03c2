"""Each thing that can be wrong with a book has its own code, and the file stays as it is."""

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from assistant.book import opening
from assistant.book.book import Book
from assistant.book.problems import BookProblem, code_of
from assistant.book.records import Body
from assistant.book.schema import APPLICATION_ID, VERSION
from assistant.book.verifying import verify
from tests.book.conftest import as_anyone
from tests.book.samples import a_card, a_talk, at, fill, made_id, whole

QUICKLY = 0.01


def problem_of(act: Callable[[], object]) -> BookProblem:
    """The problem that an act ends in."""
    with pytest.raises(BookProblem) as caught:
        act()
    return caught.value


def put_bytes(path: Path, offset: int, raw: bytes) -> None:
    """Overwrites a part of the file."""
    with path.open("r+b") as file:
        file.seek(offset)
        file.write(raw)


@pytest.fixture
def full_book(path: Path) -> Path:
    """A closed book with a few pages."""
    with Book.open(path) as book:
        fill(book, 12)
    return path


def other_database(path: Path, application: int, version: int) -> None:
    """A database of somebody else's."""
    with closing(sqlite3.connect(path)) as store:
        store.execute("CREATE TABLE theirs (x)")
        store.execute(f"PRAGMA application_id = {application}")
        store.execute(f"PRAGMA user_version = {version}")
        store.commit()


SPOILERS: dict[str, tuple[str, Callable[[Path], None]]] = {
    "a page overwritten": ("damaged", lambda p: put_bytes(p, 4096 * 2, b"\xff" * 4096)),
    "the list of tables overwritten": ("damaged", lambda p: put_bytes(p, 100, b"\xff" * 500)),
    "a page size that cannot be": ("damaged", lambda p: put_bytes(p, 16, b"\x00\x07")),
    "the second half lost": ("damaged", lambda p: os.truncate(p, p.stat().st_size // 2)),
    "cut within its header": ("damaged", lambda p: os.truncate(p, 60)),
    "another's": ("foreign", lambda p: put_bytes(p, 68, b"else")),
    "nobody's": ("foreign", lambda p: put_bytes(p, 68, bytes(4))),
    "made by a later program": (
        "newer",
        lambda p: put_bytes(p, 60, (VERSION + 1).to_bytes(4, "big")),
    ),
    "a text": ("not_a_database", lambda p: put_bytes(p, 0, b"crop,rate\nwheat,80\n")),
    "one byte": ("not_a_database", lambda p: os.truncate(p, 1)),
}


@pytest.mark.parametrize(("code", "spoil"), SPOILERS.values(), ids=SPOILERS)
def test_a_file_that_is_no_sound_book_of_ours_is_told_and_left_alone(
    full_book: Path, code: str, spoil: Callable[[Path], None]
) -> None:
    spoil(full_book)
    with whole(full_book):
        problem = problem_of(lambda: Book.open(full_book))
    assert (problem.code, problem.path) == (code, full_book)


def test_a_database_with_our_mark_but_without_our_tables_is_damaged(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    other_database(path, APPLICATION_ID, 1)
    with whole(path):
        assert problem_of(lambda: Book.open(path)).code == "damaged"


@pytest.mark.parametrize("version", range(VERSION))
def test_a_book_that_calls_itself_older_than_it_is_is_damaged(
    full_book: Path, version: int
) -> None:
    put_bytes(full_book, 60, version.to_bytes(4, "big"))
    with whole(full_book):
        assert problem_of(lambda: Book.open(full_book)).code == "damaged"


def test_a_newer_book_is_told_by_a_log_that_was_left_behind(path: Path, tmp_path: Path) -> None:
    left = tmp_path / "left"
    with Book.open(path) as book:
        book.store.execute(f"PRAGMA user_version = {VERSION + 1}")
        shutil.copytree(path.parent, left)  # as a kill leaves it
    assert int.from_bytes((left / path.name).read_bytes()[60:64], "big") == VERSION
    assert problem_of(lambda: Book.open(left / path.name)).code == "newer"


def test_a_book_without_its_guards_is_damaged(full_book: Path) -> None:
    with closing(sqlite3.connect(full_book)) as store:
        store.execute("DROP TRIGGER card_kept")
    with whole(full_book):
        assert problem_of(lambda: Book.open(full_book)).code == "damaged"


def test_a_database_of_another_program_is_foreign(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    other_database(path, 0x1234, 99)
    with whole(path):
        assert problem_of(lambda: Book.open(path)).code == "foreign"


def test_damage_under_a_log_that_was_left_behind_is_told_and_left_alone(
    path: Path, tmp_path: Path
) -> None:
    left = tmp_path / "left"
    with Book.open(path) as book:
        fill(book, 12)
        book.store.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        book.start(a_talk(999))
        shutil.copytree(path.parent, left)  # as a kill leaves it
    spoiled = left / path.name
    put_bytes(spoiled, 4096 * 2, b"\xff" * 4096)
    before = spoiled.read_bytes(), (left / "book.db-wal").read_bytes()
    assert problem_of(lambda: Book.open(spoiled)).code == "damaged"
    assert (spoiled.read_bytes(), (left / "book.db-wal").read_bytes()) == before


def test_damage_in_a_book_too_large_to_look_through_is_found_by_verifying(
    full_book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_bytes(full_book, 4096 * 2, b"\xff" * 4096)
    monkeypatch.setattr(opening, "CHECKED_BELOW", 0)
    with Book.open(full_book) as book:
        assert problem_of(lambda: verify(book)).code == "damaged"


def test_damage_met_while_reading_is_told(full_book: Path) -> None:
    with Book.open(full_book) as book:
        book.store.execute("PRAGMA cache_size = 0")
        book.store.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        put_bytes(full_book, 4096, b"\xff" * (full_book.stat().st_size - 4096))
        assert problem_of(book.cards).code == "damaged"


def test_a_folder_is_no_book(tmp_path: Path) -> None:
    assert problem_of(lambda: Book.open(tmp_path)).code == "not_a_database"


@pytest.mark.skipif(os.name == "nt", reason="this system has no such file")
def test_a_device_is_no_book() -> None:
    assert problem_of(lambda: Book.open(Path(os.devnull))).code == "not_a_database"


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    path = tmp_path / "file" / "book.db"
    assert problem_of(lambda: Book.open(path)).code == "no_folder"


def test_a_folder_that_takes_no_new_file_is_told(open_folder: Path) -> None:
    open_folder.chmod(0o555)
    with as_anyone():
        assert problem_of(lambda: Book.open(open_folder / "book.db")).code == "no_folder"
        assert problem_of(lambda: Book.open(open_folder / "a" / "book.db")).code == "no_folder"
    assert list(open_folder.iterdir()) == []


@pytest.mark.parametrize(("file", "folder"), [(0o444, 0o755), (0o444, 0o555), (0o644, 0o555)])
def test_a_book_that_cannot_be_written_is_read(open_folder: Path, file: int, folder: int) -> None:
    path = open_folder / "book.db"
    with Book.open(path) as book:
        talk = fill(book, 1)[0]
    path.chmod(file)
    open_folder.chmod(folder)
    with whole(path), as_anyone(), Book.open(path) as book:
        assert book.read_only
        assert book.cards() == [a_card(talk)]
        assert problem_of(lambda: book.start(a_talk(9))).code == "read_only"
        assert problem_of(lambda: book.append(talk.id, [("a", {})], at())).code == "read_only"
        assert problem_of(lambda: book.finish(a_card(talk))).code == "read_only"


def test_a_book_that_cannot_be_read_has_no_better_name(open_folder: Path) -> None:
    path = open_folder / "book.db"
    Book.open(path).close()
    with as_anyone():
        assert problem_of(lambda: Book.open(path)).code == "failed"


def test_a_book_that_another_program_keeps_to_itself_is_locked(full_book: Path) -> None:
    with closing(sqlite3.connect(full_book, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with whole(full_book):
            assert problem_of(lambda: Book.open(full_book, QUICKLY)).code == "locked"


def test_a_book_that_another_program_writes_is_read_but_not_written(path: Path) -> None:
    with Book.open(path, QUICKLY) as book, Book.open(path, QUICKLY) as other:
        book.start(a_talk())
        other.store.execute("BEGIN IMMEDIATE")
        assert problem_of(lambda: book.append(made_id(1), [("a", {})], at())).code == "locked"
        assert book.events(made_id(1)) == []
        other.store.execute("ROLLBACK")
        book.append(made_id(1), [("a", {})], at())
        assert len(book.events(made_id(1))) == 1


def test_when_the_disk_is_full_nothing_that_was_kept_is_lost(path: Path) -> None:
    with Book.open(path) as book:
        book.start(a_talk())
        book.append(made_id(1), [("answered", {"a": 1})], at(1))
        # SQLite's own limit ends in the same code as a disk without room.
        (pages,) = book.store.execute("PRAGMA page_count").fetchone()
        book.store.execute(f"PRAGMA max_page_count = {pages}")
        long: list[tuple[str, Body]] = [("answered", {"a": 2}), ("answered", {"a": "x" * 50_000})]
        assert problem_of(lambda: book.append(made_id(1), long, at(2))).code == "full"
        assert [event.body for event in book.events(made_id(1))] == [{"a": 1}]
    with Book.open(path) as book:
        book.append(made_id(1), long, at(3))
        assert len(book.events(made_id(1))) == 3


@pytest.mark.skipif(os.name == "nt", reason="this system keeps an open file where it is")
@pytest.mark.parametrize("again", [False, True])
def test_an_answer_is_not_confirmed_when_the_file_is_gone(path: Path, again: bool) -> None:
    with Book.open(path) as book:
        book.start(a_talk())
        path.rename(path.with_name("moved.db"))
        if again:
            path.touch()
        assert problem_of(lambda: book.append(made_id(1), [("a", {})], at())).code == "gone"


@pytest.mark.skipif(os.name == "nt", reason="this system keeps an open file where it is")
@pytest.mark.parametrize("again", [False, True])
def test_a_book_whose_file_is_gone_can_be_started_over(path: Path, again: bool) -> None:
    moved = path.with_name("moved.db")
    with Book.open(path) as book:
        book.start(a_talk())
        path.rename(moved)
        if again:
            path.touch()
        assert book.talk(made_id(1)) == a_talk()  # what it held can still be read
        book.start_over()
        assert book.talk(made_id(1)) is None
        book.start(a_talk(2))
    with Book.open(path) as book:
        assert book.unfinished() == [a_talk(2)]
    assert not path.with_name("book.db-wal").exists()


@pytest.mark.parametrize(
    ("trouble", "code"),
    [
        (OSError(28, "x"), "full"),
        (OSError(5, "x"), "failed"),
        (PermissionError(13, "x"), "failed"),
        (sqlite3.OperationalError("x"), "failed"),
    ],
)
def test_what_the_system_reports_has_a_code(trouble: OSError | sqlite3.Error, code: str) -> None:
    assert code_of(trouble) == code


@pytest.mark.parametrize(
    ("result", "code"),
    [
        # www.sqlite.org/rescode.html
        (5, "locked"),
        (261, "locked"),
        (6, "locked"),
        (15, "locked"),
        (8, "read_only"),
        (1032, "read_only"),
        (11, "damaged"),
        (267, "damaged"),
        (13, "full"),
        (4874, "full"),
        (26, "not_a_database"),
        (10, "failed"),
        (14, "failed"),
    ],
)
def test_what_sqlite_reports_has_a_code(result: int, code: str) -> None:
    trouble = sqlite3.OperationalError("x")
    trouble.sqlite_errorcode = result
    assert code_of(trouble) == code
