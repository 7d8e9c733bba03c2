"""Whatever is appended is read back, in any pieces, and verifies."""

import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.book.book import Book
from assistant.book.nobook import NoBook
from assistant.book.records import Body, StoredCard, Talk
from assistant.book.rows import card_from, card_row, talk_from, talk_row
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_talk, at

# What a terminal sends, bytes included that are no text.
TYPED = st.text(
    st.one_of(
        st.characters(codec="utf-8"), st.characters(min_codepoint=0xDC80, max_codepoint=0xDCFF)
    )
)
LEAVES = st.none() | st.booleans() | st.integers() | TYPED
NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
JSON = st.recursive(
    LEAVES | NUMBERS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TYPED, inner, max_size=4),
    max_leaves=8,
)
BODIES = st.dictionaries(TYPED, JSON, max_size=4)
EVENTS = st.tuples(st.text(min_size=1), BODIES)
PIECES = st.lists(st.lists(EVENTS, max_size=4), max_size=4)
TEXTS = st.text()
TALKS = st.builds(
    Talk,
    *[TEXTS] * 6,
    st.booleans(),
    st.none() | TEXTS,
)
CARDS = st.builds(
    StoredCard,
    *[TEXTS] * 8,
    st.booleans(),
    BODIES,
    st.lists(JSON, max_size=4),
)


def told(book: Book, pieces: list[list[tuple[str, Body]]]) -> None:
    """Appends the pieces and holds that they are read back in one row."""
    talk = a_talk()
    book.start(talk)
    for minute, piece in enumerate(pieces):
        book.append(talk.id, piece, at(minute))
    expected = [
        (at(minute), kind, body) for minute, piece in enumerate(pieces) for kind, body in piece
    ]
    found = book.events(talk.id)
    assert [(event.at, event.kind, event.body) for event in found] == expected
    assert [event.number for event in found] == list(range(1, len(expected) + 1))
    assert [list(event.body) for event in found] == [list(body) for _, _, body in expected]
    assert verify(book) == []


@given(PIECES)
def test_a_book_in_memory_reads_back_what_was_appended(
    pieces: list[list[tuple[str, Body]]],
) -> None:
    with NoBook() as book:
        told(book, pieces)


@settings(max_examples=15)
@given(PIECES)
def test_a_file_reads_back_what_was_appended_after_it_was_closed(
    pieces: list[list[tuple[str, Body]]],
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.db"
        with Book.open(path) as book:
            told(book, pieces)
            before = book.events(a_talk().id)
        with Book.open(path) as book:
            assert book.events(a_talk().id) == before
            assert verify(book) == []


@given(TALKS, st.integers())
def test_a_conversation_is_the_same_after_being_a_row(talk: Talk, moment: int) -> None:
    assert talk_from(talk_row(talk, moment)) == talk


@given(CARDS, st.integers())
def test_a_card_is_the_same_after_being_a_row(card: StoredCard, moment: int) -> None:
    assert card_from(card_row(card, moment)) == card


@settings(max_examples=30)
@given(st.lists(st.integers(min_value=-(10**9), max_value=10**9), min_size=1, max_size=8))
def test_cards_come_newest_first_whatever_the_clock_said(minutes: list[int]) -> None:
    with NoBook() as book:
        for number, minute in enumerate(minutes):
            talk = a_talk(20 * number)
            book.start(talk)
            book.finish(a_card(talk, at=at(minute % 10**6)))
        found = [card.talk for card in book.cards(drill="old green")]
    assert found == [a_talk(20 * number).id for number in reversed(range(len(minutes)))]
