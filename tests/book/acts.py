"""What is done to the files of a book, for the tests that let every step of it fail."""

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from assistant.book.book import Book
from assistant.book.nobook import NoBook
from assistant.book.schema import VERSION, made_in
from assistant.book.verifying import verify
from tests.book.exchanging import file_of
from tests.book.faults import Act
from tests.book.keep import KEPT, meaning
from tests.book.samples import a_card, a_talk, fill, made_id

ANSWERS = 4
TALK = """
from assistant.book.book import Book
from tests.book.samples import a_card, a_talk, at, made_id

def act(folder, say):
    talk = a_talk(1)
    with Book.open(folder / "book.db") as book:
        tried(lambda: book.start(talk))
        for number in range(1, 5):
            answer = ("answered", {"number": number})
            tried(lambda: book.append(talk.id, [answer], at(number)))
            say(f"kept {number}")
        tried(lambda: book.finish(a_card(talk), [("finished", {})]))
        say("kept card")
"""


def talk_is_whole(folder: Path, said: list[str]) -> None:
    """Every answer that was confirmed is there, at most one more, none twice."""
    confirmed = sum(line.startswith("kept") for line in said)
    with Book.open(folder / "book.db") as book:
        events = book.events(made_id(1))
        numbers = [event.body["number"] for event in events if event.kind == "answered"]
        cards = book.cards()
        assert verify(book) == []
    assert numbers == list(range(1, len(numbers) + 1))
    assert cards in ([], [a_card(a_talk(1))])
    assert bool(cards) == (events[-1:] != [] and events[-1].kind == "finished")
    assert confirmed <= len(numbers) + len(cards) <= confirmed + 1
    assert [file.name for file in folder.iterdir()] == ["book.db"]


UPDATE = """
from assistant.book.book import Book

def act(folder, say):
    with Book.open(folder / "book.db") as book:
        say(f"kept {len(book.cards(include_scripted=True))}")
"""


def old_book(folder: Path) -> None:
    """A book of the first format."""
    shutil.copyfile(KEPT / "format_1.db", folder / "book.db")


def old_or_new(folder: Path, said: list[str]) -> None:
    """The book is wholly of the first format or wholly of the present one, and means the same."""
    path = folder / "book.db"
    with closing(sqlite3.connect(path)) as store:
        names = {name for (name,) in store.execute("SELECT name FROM sqlite_master")}
        (version,) = store.execute("PRAGMA user_version").fetchone()
    assert version == VERSION or (version == 1 and said != ["kept 3"])
    assert names == set(made_in(version))
    told = json.loads((KEPT / "format_1.json").read_text(encoding="utf-8"))
    with Book.open(path) as book:
        assert {**meaning(book), "left": told["left"]} == told
        assert verify(book) == []


def nothing(folder: Path) -> None:
    """Leaves a folder empty."""
    assert list(folder.iterdir()) == []


IMPORT = """
from assistant.book.book import Book
from assistant.book.importing import take_in
from tests.book.exchanging import AnyBody

def act(folder, say):
    with Book.open(folder / "book.db") as book, open(folder / "yard.jsonl", "rb") as file:
        take_in(book, file, AnyBody())
        say("kept all")
"""
EXPORT = """
from assistant.book.book import Book
from assistant.book.exporting import exported
from assistant.book.whole_file import write_whole

def act(folder, say):
    with Book.open(folder / "book.db") as book:
        try:
            write_whole(folder / "new.jsonl", exported(book))
            say("kept all")
        except OSError:
            say("problem file")
"""


def book_and_file(folder: Path) -> None:
    """A book with a conversation, and the exported file of another one."""
    with NoBook() as other:
        fill(other, 3)
        (folder / "yard.jsonl").write_bytes(file_of(other))
    with Book.open(folder / "book.db") as book:
        book.start(a_talk(500))


def all_or_nothing(folder: Path, said: list[str]) -> None:
    """The book took the whole file or none of it."""
    with Book.open(folder / "book.db") as book:
        cards = len(book.cards())
        assert book.talk(made_id(500)) == a_talk(500)
        assert verify(book) == []
    assert cards == 3 if "kept all" in said else cards in {0, 3}


def whole_or_absent(folder: Path, said: list[str]) -> None:
    """The new file is the whole book or is not there; the book is as it was."""
    with Book.open(folder / "book.db") as book:
        assert book.talk(made_id(500)) == a_talk(500)
        whole = file_of(book)
    new = folder / "new.jsonl"
    if "kept all" in said or new.exists():
        assert new.read_bytes() == whole


ACTS = (
    Act("a conversation", TALK, nothing, talk_is_whole),
    Act("a new format", UPDATE, old_book, old_or_new),
    Act("an import", IMPORT, book_and_file, all_or_nothing),
    Act("an export", EXPORT, book_and_file, whole_or_absent),
)
