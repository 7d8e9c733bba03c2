"""The page to print, through the command line: to a file, to standard output, or a sentence."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.cli import main
from assistant.dialogue.log import Began
from assistant.sitting.journal import stored
from assistant.terminal.leaving import TROUBLE, USAGE
from tests.stories.play import play
from tests.stories.story import FOLDER, read_story

Out = pytest.CaptureFixture[str]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A book on disk with one card, of a drill whose name would clear a screen."""
    played = play(read_story(FOLDER / "fluted_pounds.txt"))
    card = played.book.cards(limit=1)[0]
    talk = played.book.talk(card.talk)
    assert talk is not None
    facts = {**card.facts, "drill": {"value": "x", "shown": "the \x1b[2Jbarn drill"}}
    path = tmp_path / "book.db"
    with Book.open(path) as kept:
        kept.start(talk)
        kept.append(talk.id, [stored(Began("us"))], card.at)
        kept.finish(replace(card, facts=facts))
    return path


def said(capsys: Out, book: Path, *argv: str) -> tuple[int, str, str]:
    code = main(["book", "card", "--book", str(book), *argv])
    captured = capsys.readouterr()
    return code, captured.out, captured.err


def test_the_page_is_written_to_a_file_and_the_text_card_stays(
    book: Path, tmp_path: Path, capsys: Out
) -> None:
    page = tmp_path / "page.html"
    code, out, err = said(capsys, book, "--page", str(page))
    assert (code, err) == (0, "")
    assert " ".join(out.split()) == (f"The page is in {page}. Open it in a browser, and print it.")
    text = page.read_text("ascii")
    assert text.startswith("<!doctype html>")
    assert "<h1>the &#65533;[2Jbarn drill</h1>" in text
    assert said(capsys, book)[1].startswith("CARD FOR THE LID")


def test_a_dash_writes_the_same_page_out(book: Path, tmp_path: Path, capsys: Out) -> None:
    page = tmp_path / "page.html"
    said(capsys, book, "--page", str(page))
    assert said(capsys, book, "--page", "-") == (0, page.read_text("ascii"), "")


def test_a_file_that_is_there_stays_as_it_is(book: Path, tmp_path: Path, capsys: Out) -> None:
    notes = tmp_path / "notes.txt"
    notes.write_text("mine", "ascii")
    code, out, err = said(capsys, book, "--page", str(notes))
    assert (code, out) == (USAGE, "")
    assert "is there already, and stays as it is." in " ".join(err.split())
    assert notes.read_text("ascii") == "mine"


@pytest.mark.parametrize("name", ["no/such/folder/x.html", "a\0b.html"])
def test_a_file_that_can_not_be_written_is_told(
    name: str, book: Path, tmp_path: Path, capsys: Out
) -> None:
    code, out, err = said(capsys, book, "--page", str(tmp_path / name))
    assert (code, out) == (TROUBLE, "")
    assert err.startswith("I can't write")


def test_a_page_without_its_file_or_of_a_card_that_is_not_there_is_told(
    book: Path, tmp_path: Path, capsys: Out
) -> None:
    assert said(capsys, book, "--page")[0] == USAGE
    page = tmp_path / "page.html"
    code, _, err = said(capsys, book, "06nothing", "--page", str(page))
    assert code == USAGE
    assert "The book knows no '06nothing'." in err
    assert not page.exists()
