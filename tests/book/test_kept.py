"""A book of every format that was ever released opens and means what it meant."""

import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from assistant.book.book import Book
from assistant.book.records import Note
from assistant.book.schema import VERSION
from assistant.book.verifying import verify
from tests.book.conftest import as_anyone
from tests.book.keep import KEPT, facts_left, meaning, ran
from tests.book.samples import at, made_id, whole

FORMATS = range(1, VERSION + 1)


@pytest.fixture(params=FORMATS)
def number(request: pytest.FixtureRequest) -> int:
    """A format."""
    version: int = request.param
    return version


@pytest.fixture
def told(number: int) -> dict[str, Any]:
    """What the kept book meant to the program that made it."""
    text = (KEPT / f"format_{number}.json").read_text(encoding="utf-8")
    meant: dict[str, Any] = json.loads(text)
    return meant


@pytest.fixture
def path(number: int, open_folder: Path) -> Iterator[Path]:
    """A copy of the kept book, in a folder of its own."""
    path = open_folder / "book.db"
    shutil.copyfile(KEPT / f"format_{number}.db", path)
    yield path
    open_folder.chmod(0o777)


def meant(told: dict[str, Any]) -> dict[str, Any]:
    """What was told, without what a conversation is resumed for."""
    return {part: records for part, records in told.items() if part != "left"}


def version_in(path: Path) -> int:
    """The format that a file says it has."""
    return int.from_bytes(path.read_bytes()[60:64], "big")


def test_there_is_one_of_each_format_with_something_in_it(
    number: int, path: Path, told: dict[str, Any]
) -> None:
    assert version_in(path) == number
    assert len(told["cards"]) == 3
    assert len(told["events"]) > 50
    assert bool(told["notes"]) == (number >= 2)


def test_it_opens_means_the_same_and_is_of_the_present_format_then(
    path: Path, told: dict[str, Any]
) -> None:
    with Book.open(path) as book:
        assert meaning(book) == meant(told)
        assert verify(book) == []
    assert version_in(path) == VERSION
    with Book.open(path) as book:
        assert meaning(book) == meant(told)


def test_it_is_added_to(path: Path, told: dict[str, Any]) -> None:
    left, card = told["left"][0]["id"], told["cards"][0]["id"]
    note = Note(made_id(2), card, at(), "left a bit open")
    with Book.open(path) as book:
        book.append(left, [("answered", {})], at(1))
        book.add_note(note)
        assert book.notes(card)[-1] == note
        assert verify(book) == []


@pytest.mark.parametrize(("file", "folder"), [(0o444, 0o755), (0o444, 0o555)])
def test_one_that_can_only_be_read_means_the_same_and_is_left_as_it_was(
    path: Path, told: dict[str, Any], file: int, folder: int
) -> None:
    path.chmod(file)
    path.parent.chmod(folder)
    with whole(path), as_anyone(), Book.open(path) as book:
        assert book.read_only
        assert meaning(book) == meant(told)
        assert verify(book) == []
        assert [talk.id for talk in book.unfinished(include_scripted=True)] == [
            told["left"][0]["id"]
        ]


def test_its_cards_are_shown_as_they_were_made(path: Path, told: dict[str, Any]) -> None:
    for card in told["cards"]:
        code, out = ran("book", "card", card["talk"], "--book", str(path))
        assert (code, out.splitlines()) == (0, card["lines"])


def test_what_was_left_is_taken_up_with_all_that_was_told(path: Path, told: dict[str, Any]) -> None:
    (left,) = told["left"]
    found = facts_left(path, left["id"])
    assert len(left["facts"]) > 20
    known = {name: told for name, told in left["facts"].items() if told[0] is not None}
    assert {name: found.get(name) for name in known} == known
    assert all(found.get(n, [None])[0] is None for n in left["facts"].keys() - known.keys())
