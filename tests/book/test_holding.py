"""Who has a conversation open: one at a time, and whoever lost it keeps nothing more in it."""

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.holding import alive, machine, me
from assistant.book.problems import BookProblem
from assistant.book.records import Holder
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_talk, at, made_id
from tests.book.test_problems import problem_of

TALK = made_id(1)


@pytest.fixture
def other(path: Path) -> Iterator[Book]:
    """The same book, open in a second program that has started a conversation."""
    with Book.open(path) as opened:
        opened.start(a_talk())
        yield opened


@pytest.fixture
def book(other: Book) -> Iterator[Book]:
    """The book, opened after the other."""
    with Book.open(other.path) as opened:
        yield opened


def test_a_conversation_is_held_by_one_and_the_other_is_told_by_whom(
    book: Book, other: Book
) -> None:
    assert book.hold(TALK, "barn 1", at(1)) is None
    assert other.hold(TALK, "house 2", at(2)) == Holder("barn 1", at(1))
    assert other.hold(made_id(2), "house 2", at(2)) is None
    book.append(TALK, [("answered", {})], at(3))
    assert len(other.events(TALK)) == 1


def test_whoever_holds_it_may_take_it_again(book: Book, other: Book) -> None:
    assert book.hold(TALK, "barn 1", at(1)) is None
    assert book.hold(TALK, "barn 1", at(5)) is None
    assert other.hold(TALK, "house 2", at(6)) == Holder("barn 1", at(5))


def test_what_was_let_go_is_free(book: Book, other: Book) -> None:
    book.hold(TALK, "barn 1", at(1))
    book.let_go(TALK, "barn 1")
    assert other.hold(TALK, "house 2", at(2)) is None
    book.append(TALK, [("answered", {})], at(3))  # not held any more: written as ever
    assert len(book.events(TALK)) == 1


def test_letting_go_leaves_the_hold_of_another(book: Book, other: Book) -> None:
    book.hold(TALK, "barn 1", at(1))
    other.take_over(TALK, "house 2", at(2))
    book.let_go(TALK, "barn 1")
    assert book.hold(TALK, "barn 1", at(3)) == Holder("house 2", at(2))


def test_whoever_lost_it_writes_nothing_more(book: Book, other: Book) -> None:
    book.hold(TALK, "barn 1", at(1))
    book.append(TALK, [("answered", {"a": 1})], at(1))
    other.take_over(TALK, "house 2", at(2))
    for act in (
        lambda: book.append(TALK, [("answered", {"a": 2})], at(3)),
        lambda: book.finish(a_card(a_talk()), [("answered", {"a": 3})]),
    ):
        problem = problem_of(act)
        assert (problem.code, problem.path) == ("taken_over", book.path)
    other.append(TALK, [("answered", {"a": 4})], at(4))
    assert [event.body for event in book.events(TALK)] == [{"a": 1}, {"a": 4}]
    assert book.cards() == []
    other.let_go(TALK, "house 2")
    assert problem_of(lambda: book.append(TALK, [("a", {})], at(5))).code == "taken_over"
    assert verify(book) == []


def test_whoever_lost_it_may_take_it_back(book: Book, other: Book) -> None:
    book.hold(TALK, "barn 1", at(1))
    other.take_over(TALK, "house 2", at(2))
    book.take_over(TALK, "barn 1", at(3))
    book.append(TALK, [("answered", {})], at(4))
    assert problem_of(lambda: other.append(TALK, [("a", {})], at(5))).code == "taken_over"


def test_a_hold_lasts_until_it_is_let_go_whatever_happens_to_the_program(path: Path) -> None:
    with closing(Book.open(path)) as book:
        book.start(a_talk())
        book.hold(TALK, "barn 1", at(1))
    with Book.open(path) as book:
        assert book.hold(TALK, "house 2", at(2)) == Holder("barn 1", at(1))


def test_a_hold_that_cannot_be_written_is_no_hold(book: Book, other: Book) -> None:
    other.store.execute("BEGIN IMMEDIATE")
    book.store.execute("PRAGMA busy_timeout = 1")
    assert problem_of(lambda: book.hold(TALK, "barn 1", at(1))).code == "locked"
    other.store.execute("ROLLBACK")
    book.append(TALK, [("answered", {})], at(2))
    assert other.hold(TALK, "house 2", at(3)) is None


def test_a_name_may_hold_any_sign(book: Book, other: Book) -> None:
    book.hold(TALK, "barn \udcff 1", at(1))
    assert other.hold(TALK, "house 2", at(2)) == Holder("barn ? 1", at(1))
    with pytest.raises(BookProblem):
        book.append(TALK, [("answered", {})], at(3))


class TestWhoRuns:
    def test_this_program_runs(self) -> None:
        assert me() == f"{machine()} {os.getpid()}"
        assert alive(me())

    @pytest.mark.skipif(os.name == "nt", reason="this system tells nobody")
    def test_a_process_that_ended_does_not(self) -> None:
        child = subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE)
        who = f"{machine()} {child.pid}"
        assert alive(who)
        child.communicate()
        assert not alive(who)

    def test_a_number_that_no_process_can_have_does_not(self) -> None:
        assert alive(f"{machine()} 99999999999999999999") == (os.name == "nt")

    def test_somebody_elses_process_runs(self, monkeypatch: pytest.MonkeyPatch) -> None:
        def refused(process: int, signal: int) -> None:
            raise PermissionError(process, signal)

        monkeypatch.setattr(os, "kill", refused)
        assert alive(f"{machine()} 1")

    @pytest.mark.parametrize("who", ["elsewhere 1", "", "1", f"{machine()} x", f"{machine()} -1"])
    def test_what_cannot_be_known_from_here_counts_as_running(self, who: str) -> None:
        assert alive(who)

    def test_no_signal_is_ever_sent_where_zero_is_one(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        sent: list[int] = []
        monkeypatch.setattr(os, "kill", lambda process, _: sent.append(process))
        monkeypatch.setattr(os, "name", "nt")
        assert alive(f"{machine()} 1")
        assert sent == []
