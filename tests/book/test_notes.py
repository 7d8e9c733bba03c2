"""Notes on cards: added at any time, never changed."""

from dataclasses import replace

import pytest

from assistant.book.book import Book
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_note, fill, made_id


def test_notes_come_back_in_the_order_of_their_writing(book: Book) -> None:
    talk, other = fill(book, 2)
    late, early = a_note(talk, 90, "too deep in the hollow"), a_note(talk, 60, "wind \udcff west")
    book.add_note(late)
    book.add_note(early)
    told = [a_note(talk), late, replace(early, text="wind ? west")]
    assert book.notes(a_card(talk).id) == told
    assert book.notes(a_card(other).id) == [a_note(other)]
    assert verify(book) == []


def test_no_card_has_no_notes(book: Book) -> None:
    fill(book, 1)
    assert book.notes(made_id(77)) == []


def test_a_note_on_no_card_is_refused(book: Book) -> None:
    (talk,) = fill(book, 1)
    with pytest.raises(KeyError):
        book.add_note(replace(a_note(talk, 70), card=made_id(77)))
    assert book.notes(made_id(77)) == []
