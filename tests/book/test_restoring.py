"""A backup takes the place of the book, whatever stands there, and what stood there is kept."""

import subprocess
import sys
from datetime import timedelta
from pathlib import Path

import pytest

from assistant.book.backups import back_up, backups_of
from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.restoring import difference, restore
from assistant.book.schema import guards
from assistant.book.verifying import verify
from tests.book.real_book import later, rows_of
from tests.book.samples import DAWN, a_card, a_talk, at, fill, whole

ROOT = Path(__file__).resolve().parents[2]
KEPT = Path(__file__).parent / "kept"


@pytest.fixture
def backup(path: Path) -> Path:
    """A backup of a book that went on: it has one card more now, and a job without a card."""
    with Book.open(path) as book:
        fill(book, 3)
        backup = back_up(book, DAWN)
        book.start(a_talk(500))
        book.finish(a_card(a_talk(500), "Big red"))
        book.start(a_talk(600))
    return backup


def test_the_book_is_as_it_was_and_what_stood_there_is_kept(path: Path, backup: Path) -> None:
    before = rows_of(path)
    aside = restore(backup, path, DAWN)
    assert aside is not None
    assert aside.name == f"book.before-restore-{later(0)}.db"
    assert rows_of(path) == rows_of(backup)
    assert rows_of(aside) == before
    with Book.open(path) as book:
        book.append(a_talk(0).id, [("looked_at", {})], at(900))
        assert verify(book) == []
    assert sorted(each.name for each in path.parent.iterdir()) == ["backups", aside.name, path.name]


def test_the_difference_is_told_by_name(path: Path, backup: Path) -> None:
    told = difference(path, backup)
    assert [(name.number, name.day, name.drill) for name in told.lacks] == [
        (a_talk(500).id, "2031-04-02", "Big red")
    ]
    assert (told.compared, told.adds, told.left) == (True, [], 1)
    restore(backup, path, DAWN)
    with Book.open(path) as book:
        book.start(a_talk(700))
    newer = difference(path, backup)
    assert (newer.lacks, newer.adds, newer.left) == ([], [], 1)


def test_cards_that_only_the_backup_has_are_told_too(path: Path, backup: Path) -> None:
    path.unlink()
    told = difference(path, backup)
    assert (told.compared, told.lacks, told.left) == (True, [], 0)
    assert len(told.adds) == 3


def test_a_missing_book_comes_back(path: Path, backup: Path) -> None:
    path.unlink()
    assert restore(backup, path, DAWN) is None
    assert rows_of(path) == rows_of(backup)


def test_a_book_may_come_to_a_folder_that_is_not_there(path: Path, backup: Path) -> None:
    new = path.parent / "new" / "place.db"
    assert restore(backup, new, DAWN) is None
    assert rows_of(new) == rows_of(backup)


@pytest.mark.parametrize("content", [b"SQLite format 3\x00", b"x" * 200, b""])
def test_a_damaged_book_gives_place_and_is_kept(path: Path, backup: Path, content: bytes) -> None:
    path.write_bytes(content)
    told = difference(path, backup)
    assert told.compared is (content == b"")
    aside = restore(backup, path, DAWN)
    assert rows_of(path) == rows_of(backup)
    assert aside is not None
    if content:
        assert aside.read_bytes() == content


def test_a_damaged_log_does_not_get_into_the_book_that_comes(path: Path, backup: Path) -> None:
    path.write_bytes(path.read_bytes()[:50])
    for ending in ("-wal", "-journal"):
        path.with_name(path.name + ending).write_bytes(b"x" * 9000)
    aside = restore(backup, path, DAWN)
    assert aside is not None
    assert rows_of(path) == rows_of(backup)
    for ending in ("-wal", "-journal"):
        assert aside.with_name(aside.name + ending).read_bytes() == b"x" * 9000
        assert not path.with_name(path.name + ending).exists()


# Another program: it opens the book, waits for a line, and writes one answer more.
OTHER = """
import sys
from pathlib import Path
from assistant.book.book import Book
from tests.book.samples import a_talk, at

with Book.open(Path(sys.argv[1])) as book:
    print(len(book.unfinished()), flush=True)
    input()
    book.append(a_talk(600).id, [("answered", {})], at(700))
"""


def test_a_book_that_is_open_elsewhere_stays(path: Path, backup: Path) -> None:
    other = subprocess.Popen(
        [sys.executable, "-c", OTHER, str(path)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert other.stdout is not None
    assert other.stdout.readline() == "1\n"
    with pytest.raises(BookProblem, match="locked"):
        restore(backup, path, DAWN)
    other.communicate("\n")
    assert other.returncode == 0
    with Book.open(path) as book:
        assert len(book.events(a_talk(600).id)) == 1
        assert verify(book) == []


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"SQLite format 3\x00" + bytes(52) + b"\0\0\0\1else" + bytes(4028), "foreign"),
        (b"SQLite format 3\x00" + bytes(44) + b"\0\0\0\x63\0\0\0\0DrlS" + bytes(4028), "newer"),
    ],
)
def test_what_belongs_to_another_program_or_a_newer_one_stays(
    path: Path, backup: Path, content: bytes, code: str
) -> None:
    path.write_bytes(content)
    with whole(path), pytest.raises(BookProblem, match=code):
        restore(backup, path, DAWN)


@pytest.mark.parametrize(
    ("content", "code"),
    [(b"", "not_a_database"), (b"x" * 200, "not_a_database"), (b"SQLite format 3\x00", "damaged")],
)
def test_a_backup_that_is_not_whole_is_not_put_back(
    path: Path, backup: Path, content: bytes, code: str
) -> None:
    backup.write_bytes(content)
    for act in (lambda: difference(path, backup), lambda: restore(backup, path, DAWN)):
        with whole(path), whole(backup), pytest.raises(BookProblem, match=code) as raised:
            act()
        assert raised.value.path == backup


def test_a_backup_with_a_changed_row_is_not_put_back(path: Path, backup: Path) -> None:
    with Book.open(backup) as book:
        book.store.execute("DROP TRIGGER card_unchanged")
        book.store.execute("UPDATE card SET crop = 'oats'")
        book.store.execute(guards("card")[0])
    with whole(path), pytest.raises(BookProblem, match="damaged"):
        restore(backup, path, DAWN)


def test_a_backup_that_is_missing_is_said_to_be(path: Path, backup: Path) -> None:
    backup.unlink()
    with whole(path), pytest.raises(BookProblem, match="not_a_database"):
        restore(backup, path, DAWN)


def test_a_backup_of_an_earlier_format_becomes_a_book_of_this_one(path: Path) -> None:
    path.parent.mkdir()
    old = (KEPT / "format_1.db").read_bytes()
    assert restore(KEPT / "format_1.db", path, DAWN) is None
    assert (KEPT / "format_1.db").read_bytes() == old
    with Book.open(path) as book:
        assert len(book.cards(include_scripted=True)) == 3
        assert verify(book) == []


def test_every_backup_that_is_kept_can_be_put_back(path: Path) -> None:
    with Book.open(path) as book:
        for day in range(30):
            book.start(a_talk(1440 * day))
            book.finish(a_card(a_talk(1440 * day)))
            back_up(book, DAWN + timedelta(days=day))
    listed = backups_of(path)
    assert len(listed) > 8
    for each in listed:
        restore(each.path, path, DAWN)
        assert rows_of(path) == rows_of(each.path)


def test_a_book_behind_a_link_is_restored_where_it_lies(path: Path, backup: Path) -> None:
    link = path.parent.parent / "link.db"
    link.symlink_to(path)
    restore(backup, link, DAWN)
    assert link.is_symlink()
    assert rows_of(path) == rows_of(backup)
