"""Merging books is set union: commutative, associative, idempotent, and it verifies.

Three machines with clocks of their own hold conversations, write notes and take each other's books.
A conversation goes on where it began; what happens otherwise is in test_importing.py.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.book.book import Book
from assistant.book.nobook import NoBook
from assistant.book.records import Note, Talk
from assistant.book.verifying import verify
from tests.book.exchanging import file_of, lines_of, taken, union
from tests.book.samples import a_card, a_talk, at, made_id

MACHINES = 3
ACTS = st.tuples(
    st.integers(0, MACHINES - 1),
    st.sampled_from(["start", "say", "say", "finish", "note", "take"]),
    st.integers(0, 10**6),  # which of those that there are
    st.integers(-(10**6), 10**6),  # what the clock says, in minutes
    st.text(max_size=5),
)


@dataclass
class Yard:
    """Machines with a book each; a conversation is held at one of them."""

    books: Sequence[Book]
    held: list[tuple[int, Talk]] = field(default_factory=list)
    made: int = 0

    def act(self, machine: int, act: str, which: int, minute: int, text: str) -> None:
        """One thing that happens at a machine."""
        self.made += 1
        book = self.books[machine]
        own = [talk for at_machine, talk in self.held if at_machine == machine]
        cards = book.cards(limit=100, include_scripted=True)
        if act == "start":
            talk = a_talk(self.made, scripted=bool(which % 2))
            book.start(talk)
            self.held.append((machine, talk))
        elif act == "say" and own:
            book.append(own[which % len(own)].id, [("answered", {"crop": text})], at(minute))
        elif act == "finish" and own:
            talk = own[which % len(own)]
            card = a_card(talk, drill=text, id=made_id(10_000 + self.made), at=at(minute))
            book.finish(card, [("finished", {"outcome": "proven"})])
        elif act == "note" and cards:
            card = cards[which % len(cards)]
            note = Note(made_id(20_000 + self.made), card.id, at(minute), text)
            book.add_note(note)
        elif act == "take":
            assert taken(book, file_of(self.books[which % MACHINES])).left_out == 0


@pytest.fixture(scope="module")
def nothing() -> Iterator[bytes]:
    with NoBook() as book:
        yield file_of(book)


@settings(max_examples=40)
@given(st.lists(ACTS, max_size=25))
def test_merging_is_set_union_in_any_order(
    nothing: bytes, acts: list[tuple[int, str, int, int, str]]
) -> None:
    with ExitStack() as stack:
        yard = Yard([stack.enter_context(NoBook()) for _ in range(MACHINES)])
        for act in acts:
            yard.act(*act)
        a, b, c = map(file_of, yard.books)
        all_lines = set().union(*map(lines_of, yard.books))
        assert union(a) == union(a, a) == a
        assert union(a, nothing) == union(nothing, a) == a
        assert union(a, b) == union(b, a)
        assert union(union(a, b), c) == union(a, union(b, c)) == union(c, b, a)
        with NoBook() as book:
            for file in (c, a, b):
                taken(book, file)
            assert lines_of(book) == all_lines
            assert verify(book) == []
            assert taken(book, a).added.total() == 0


@settings(max_examples=20)
@given(st.lists(ACTS, min_size=5, max_size=25), st.data())
def test_a_book_that_took_others_goes_on_and_its_newest_is_last(
    acts: list[tuple[int, str, int, int, str]], data: st.DataObject
) -> None:
    with ExitStack() as stack:
        yard = Yard([stack.enter_context(NoBook()) for _ in range(MACHINES)])
        for act in acts:
            yard.act(*act)
        book = yard.books[0]
        for other in yard.books[1:]:
            taken(book, file_of(other))
        talk = a_talk(30_000)
        book.start(talk)
        minute = data.draw(st.integers(-(10**6), 10**6))
        book.finish(a_card(talk, at=at(minute)), [("finished", {"outcome": "proven"})])
        assert book.cards(limit=1)[0].talk == talk.id
        assert verify(book) == []
