"""What is done to the files of a book, for the tests that let every step of it fail."""

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from assistant.book.book import Book
from assistant.book.schema import VERSION, made_in
from assistant.book.verifying import verify
from tests.book.faults import Act
from tests.book.keep import KEPT, meaning
from tests.book.samples import a_card, a_talk, made_id

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


ACTS = (
    Act("a conversation", TALK, nothing, talk_is_whole),
    Act("a new format", UPDATE, old_book, old_or_new),
)
