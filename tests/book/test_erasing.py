"""What is erased is gone from the file; a kill at any step leaves the old book or the new one."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.erasing import Extent, erase, extent
from assistant.book.problems import BookProblem
from assistant.book.records import Holder, Note
from assistant.book.searching import Search
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_talk, an_event, at, fill, made_id

ROOT = Path(__file__).resolve().parents[2]
NAMED = "the field by the chapel"
KINDS = pytest.mark.skipif(os.name == "nt", reason="this system has no such signal")

# Erases a card, and is killed when SQLite has done a number of its own steps, or before one of the
# acts that are named.
KILLED = """
import os, signal, sys
from pathlib import Path
from assistant.book import erasing, replacing
from assistant.book.book import Book

path, talk, steps, act = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]), sys.argv[4]
left = steps

def die(*_):
    os.kill(os.getpid(), signal.SIGKILL)

def step():
    global left
    left -= 1
    if not left:
        die()

book = Book.open(path)
if steps:
    book.store.set_progress_handler(step, 1)
if act:
    module, _, name = act.partition(".")
    setattr({"erasing": erasing, "replacing": replacing, "os": os}[module], name, die)
erasing.erase(book, {talk})
os.write(1, b"done")
"""


def with_named(path: Path) -> Book:
    """A book of three cards; the second, and all that hangs on it, names a field."""
    book = Book.open(path)
    fill(book, 1)
    talk = a_talk(20)
    book.start(talk, [an_event(1, {"drill": NAMED})])
    book.finish(a_card(talk, drill=NAMED, lot=NAMED), [("answered", {"lot": NAMED})])
    book.add_note(Note(made_id(35), a_card(talk).id, at(35), f"Rained on {NAMED}"))
    book.start(a_talk(40, follows=talk.id), [an_event(1, {"drill": NAMED})])
    book.start(a_talk(60), holder=Holder("barn 7", at(60)))
    return book


def test_what_hangs_on_a_card_goes_with_it_and_all_else_stays(path: Path) -> None:
    with with_named(path) as book:
        kept = [book.talk(made_id(number)) for number in (0, 60)]
        erase(book, extent(book, {made_id(20)}).talks)
    with Book.open(path) as book:
        assert [card.talk for card in book.cards()] == [made_id(0)]
        assert [book.talk(made_id(n)) for n in (0, 20, 40, 60)] == [kept[0], None, None, kept[1]]
        assert book.notes(a_card(a_talk(20)).id) == []
        assert book.rows(Search("SELECT talk, who FROM holder")) == [(made_id(60), "barn 7")]
        assert len(book.events(made_id(0))) == 2
        assert verify(book) == []


def test_nothing_of_it_is_left_in_any_file(path: Path) -> None:
    with with_named(path) as book:
        erase(book, extent(book, {made_id(20)}).talks)
    assert [file.name for file in path.parent.iterdir()] == ["book.db"]
    assert NAMED.encode() not in path.read_bytes()
    assert path.stat().st_mode & 0o777 == 0o600 or os.name == "nt"


@pytest.mark.skipif(os.name == "nt", reason="this system can't write over an open file")
def test_the_old_file_is_written_over(path: Path) -> None:
    other_name = path.with_name("other name")
    with with_named(path) as book:
        book.store.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        os.link(path, other_name)
        assert NAMED.encode() in other_name.read_bytes()
        erase(book, {made_id(20), made_id(40)})
    assert set(other_name.read_bytes()) == {0}


def test_what_would_go_is_told_before(path: Path) -> None:
    with with_named(path) as book:
        card = a_card(a_talk(20))
        offer = ("offered", {"cards": [{"id": card.id, "line": NAMED}]})
        book.append(made_id(60), [offer], at(61))
        found = extent(book, {made_id(20)})
        assert found == Extent(frozenset({made_id(20), made_id(40)}), 1, 1, 1)
        assert extent(book, {made_id(60)}) == Extent(frozenset({made_id(60)}), 0, 0, 0)


def test_a_circle_of_corrections_has_an_end(path: Path) -> None:
    with Book.open(path) as book:
        book.start(a_talk(1, follows=made_id(2)))
        book.start(a_talk(2, follows=made_id(1)))
        assert extent(book, {made_id(1)}).talks == {made_id(1), made_id(2)}


def test_while_another_program_has_the_book_open_it_stays(path: Path) -> None:
    with_named(path).close()
    with Book.open(path, patience=0.05) as book, Book.open(path) as other:
        with pytest.raises(BookProblem, match="locked"):
            erase(book, {made_id(20)})
        assert len(other.cards()) == 2
        other.append(made_id(60), [("answered", {})], at(70))
    with Book.open(path) as book:
        assert len(book.cards()) == 2


def test_a_copy_that_is_not_whole_takes_no_place(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with_named(path).close()
    monkeypatch.setattr("assistant.book.replacing.verify", lambda _book: ["x"])
    with Book.open(path) as book, pytest.raises(BookProblem, match="damaged"):
        erase(book, {made_id(20)})
    with Book.open(path) as book:
        assert len(book.cards()) == 2
    assert [file.name for file in path.parent.iterdir()] == ["book.db"]


def killed(path: Path, steps: int = 0, act: str = "") -> tuple[int, bytes]:
    """The exit code, and what was written once it was done."""
    command = [sys.executable, "-c", KILLED, str(path), made_id(20), str(steps), act]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, check=False)
    return done.returncode, done.stdout


def assert_old_or_new(path: Path) -> str:
    """Which of the two it is, whole."""
    with Book.open(path) as book:
        found = {card.talk for card in book.cards()}
        assert verify(book) == []
        assert len(book.events(made_id(0))) == 2
    assert made_id(0) in found
    return "old" if made_id(20) in found else "new"


ACTS = {
    "erasing.alone": "old",
    "erasing.copy_without": "old",
    "erasing.check": "old",
    "erasing.take_place": "old",
    "replacing.forget_logs": "old",
    "replacing.sync": "old",
    "os.replace": "old",
    "erasing.wipe": "new",
}


@KINDS
@pytest.mark.parametrize(("act", "left"), ACTS.items())
def test_a_kill_before_each_act_leaves_the_old_book_or_the_new(
    path: Path, act: str, left: str
) -> None:
    with_named(path).close()
    code, said = killed(path, act=act)
    assert (code, said) == (-signal.SIGKILL, b"")
    assert assert_old_or_new(path) == left


@KINDS
@pytest.mark.parametrize("steps", [1, 30, 100, 200, 300, 400, 500, 700])
def test_a_kill_while_it_is_copied_leaves_the_old_book(path: Path, steps: int) -> None:
    with_named(path).close()
    code, _ = killed(path, steps)
    assert assert_old_or_new(path) == ("new" if code == 0 else "old")


@KINDS
@pytest.mark.campaign
def test_a_kill_at_any_step_leaves_the_old_book_or_the_new(tmp_path: Path) -> None:
    for steps in range(1, 10_000):
        path = tmp_path / str(steps) / "book.db"
        with_named(path).close()
        code, _ = killed(path, steps)
        assert assert_old_or_new(path) == ("new" if code == 0 else "old")
        if code == 0:
            break
    assert steps > 100
