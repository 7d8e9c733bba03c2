"""A book rebuilt from its lines is the same; what can't be taken is named, nothing else lost."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.exporting import exported
from assistant.book.holding import me
from assistant.book.importing import MOST_TOLD
from assistant.book.nobook import NoBook
from assistant.book.problems import BookProblem
from assistant.book.records import Note
from assistant.book.untrusted import NotTaken, Refusal
from assistant.book.verifying import verify
from assistant.book.whole_file import write_whole
from tests.book.exchanging import (
    Row,
    as_file,
    file_of,
    lines_of,
    resealed,
    rows_of,
    taken,
    union,
)
from tests.book.keep import KEPT
from tests.book.samples import a_card, a_note, a_talk, at, fill, made_id, whole

ROOT = Path(__file__).parents[2]
AN_ANSWER = [("answered", {"crop": "oats"})]


@pytest.fixture
def file() -> bytes:
    """Three finished conversations of two answers, each with a card and a note."""
    with NoBook() as book:
        fill(book)
        return file_of(book)


# -- the same book ----------------------------------------------------------------------------


def test_a_book_rebuilt_from_its_lines_equals_the_original(path: Path, book: Book) -> None:
    with Book.open(path.with_name("first.db")) as first:
        talks = fill(first)
        unfinished = a_talk(500, follows=talks[0].id, scripted=True)
        first.start(unfinished)
        first.append(
            unfinished.id,
            [("answered", {"typed": "caf\udce9 \u2028 é \x7f", "n": [-3, -0.5, 1e-9]})],
            at(501),
        )
        file = file_of(first)
        report = taken(book, file)
        assert (report.added["talk"], report.added["card"], report.added["note"]) == (4, 3, 3)
        assert (report.here, report.left_out, report.missing) == (0, 0, 0)
        assert file_of(book) == file
        for talk in (*talks, unfinished):
            assert book.talk(talk.id) == first.talk(talk.id)
            assert book.events(talk.id) == first.events(talk.id)
        assert book.cards(limit=9) == first.cards(limit=9)
        assert book.notes(a_card(talks[1]).id) == first.notes(a_card(talks[1]).id)
        assert book.unfinished(include_scripted=True) == [unfinished]
        assert verify(book) == []


def test_the_lines_are_ascii_and_the_hold_of_a_conversation_stays_here(book: Book) -> None:
    (talk,) = fill(book, 1)
    book.append(talk.id, [("answered", {"typed": "\x1b[2J\x7f\x9b1m\u202eé"})], at(50))
    before = file_of(book)
    assert before.isascii()
    assert not set(before) & (set(range(32)) - {10} | {127})
    book.hold(talk.id, "somewhere 12", at(60))
    assert file_of(book) == before
    assert b"somewhere" not in before


def test_only_one_drill_is_exported_with_all_that_belongs_to_it(book: Book) -> None:
    talks = [a_talk(20 * number) for number in range(2)]
    for talk, drill in zip(talks, ("Old green", "New red"), strict=True):
        book.start(talk)
        book.finish(a_card(talk, drill=drill), AN_ANSWER)
        book.add_note(a_note(talk, 60))
    rows = rows_of(file_of(book, "OLD GREEN"))
    assert [row["row"] for row in rows] == ["talk", "event", "card", "note"]
    assert [row.get("talk") for row in rows[1:3]] == [talks[0].id] * 2
    assert talks[1].id not in file_of(book, "OLD GREEN").decode()
    with NoBook() as other:
        assert taken(other, file_of(book, "OLD GREEN")).left_out == 0
        taken(other, file_of(book))
        assert file_of(other) == file_of(book)


def test_a_conversation_that_went_on_elsewhere_goes_on_here(book: Book) -> None:
    talk = a_talk()
    book.start(talk)
    book.append(talk.id, AN_ANSWER, at(2))
    with NoBook() as phone:
        taken(phone, file_of(book))
        phone.append(talk.id, AN_ANSWER, at(3))
        phone.finish(a_card(talk), [("finished", {"outcome": "proven"})])
        report = taken(book, file_of(phone))
        assert (report.added["event"], report.added["card"], report.here) == (2, 1, 2)
        assert file_of(book) == file_of(phone)


def test_a_book_of_the_first_format_that_can_not_be_written_is_exported_all_the_same(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path.parent.mkdir()
    shutil.copyfile(KEPT / "format_1.db", path)
    with monkeypatch.context() as patch, whole(path):
        patch.setattr("assistant.book.opening.may_write", lambda _path: False)
        with Book.open(path) as book:
            file = file_of(book)
    with Book.open(path) as book:
        assert file_of(book) == file
    assert union(file) == file


@pytest.mark.parametrize("table", ["talk", "event", "card", "note"])
def test_a_damaged_row_is_not_exported_and_no_file_is_left(
    table: str, book: Book, tmp_path: Path
) -> None:
    fill(book)
    book.store.execute(f"DROP TRIGGER {table}_unchanged")
    book.store.execute(f"UPDATE {table} SET moment = moment + 1")
    with pytest.raises(BookProblem, match="damaged"):
        write_whole(tmp_path / "new", exported(book))
    assert not [each for each in tmp_path.iterdir() if "new" in each.name]
    book.start(a_talk(800))  # the look at the book has ended


# -- conflicts --------------------------------------------------------------------------------


def test_where_a_conversation_went_on_in_two_books_each_keeps_its_own(book: Book) -> None:
    talk, alone = a_talk(), a_talk(30)
    book.start(talk)
    with NoBook() as phone:
        taken(phone, file_of(book))
        phone.append(talk.id, AN_ANSWER * 2, at(3))
        phone.finish(a_card(talk), [("finished", {"outcome": "proven"})])
        phone.start(alone)
        book.append(talk.id, [("answered", {"crop": "rye"})], at(4))
        before, file = lines_of(book), file_of(phone)
        report = taken(book, file)
        assert [(r.code, r.about) for r in report.refusals] == [("forked", talk.id)] * 4
        assert lines_of(book) - before == {line for line in lines_of(phone) if alone.id in line}
        assert lines_of(book) >= before
        assert verify(book) == []
        again = taken(book, file)
        assert (again.added.total(), again.left_out) == (0, 4)


@pytest.mark.parametrize("table", ["talk", "card", "note"])
def test_another_row_under_the_same_id_is_named_and_ours_stays(table: str, file: bytes) -> None:
    rows = rows_of(file)
    at_row = next(n for n, row in enumerate(rows) if row["row"] == table)
    field = {"talk": "program", "card": "drill", "note": "text"}[table]
    rows[at_row][field] = "another"
    forged = as_file(resealed(rows))
    with NoBook() as book:
        taken(book, file)
        report = taken(book, forged)
        assert report.refusals[0].code == "other"
        assert report.refusals[0].line == at_row + 2
        assert file_of(book) == file


def test_a_conversation_that_a_living_program_has_open_takes_no_answers(book: Book) -> None:
    talk = a_talk()
    book.start(talk)
    with NoBook() as phone:
        taken(phone, file_of(book))
        phone.append(talk.id, AN_ANSWER * 2, at(3))
        book.hold(talk.id, me(), at(4))
        report = taken(book, file_of(phone))
        assert [each.code for each in report.refusals] == ["held", "held"]
        assert book.events(talk.id) == []
        book.let_go(talk.id, me())
        assert taken(book, file_of(phone)).added["event"] == 2


# -- damage and forgery -----------------------------------------------------------------------


def changed(rows: list[Row], number: int, **fields: object) -> list[Row]:
    return [{**row, **fields} if n == number else row for n, row in enumerate(rows)]


def test_every_changed_letter_of_every_row_is_found(file: bytes) -> None:
    rows = rows_of(file)
    for number, row in enumerate(rows):
        for name, value in row.items():
            if isinstance(value, str) and name not in {"row", "hash"}:
                spoiled = changed(rows, number, **{name: "0" + value[1:]})
                if spoiled == rows:
                    continue
                with NoBook() as book:
                    report = taken(book, as_file(spoiled))
                    assert number + 2 in [each.line for each in report.refusals]
                    assert lines_of(book) <= set(file.decode().splitlines(keepends=True))
                    assert verify(book) == []


@pytest.mark.parametrize(
    ("spoil", "codes"),
    [
        (lambda rows: rows[1:], {"apart"}),  # no beginning
        (lambda rows: rows[:1] + rows[2:], {"apart", "damaged"}),  # an answer is missing
        (lambda rows: rows[::-1], {"apart", "damaged"}),
        (lambda rows: changed(rows, 1, hash="0" * 64), {"damaged", "apart"}),
        (lambda rows: changed(rows, 1, hash=rows[2]["hash"]), {"damaged", "apart"}),
    ],
)
def test_what_does_not_follow_is_left_out_and_the_book_verifies(
    spoil: Callable[[list[Row]], list[Row]], codes: set[str], file: bytes
) -> None:
    with NoBook() as book:
        report = taken(book, as_file(spoil(rows_of(file))))
        assert report.left_out > 0
        assert {each.code for each in report.refusals} <= codes
        assert verify(book) == []
        assert lines_of(book) < set(file.decode().splitlines(keepends=True))


def test_an_answer_slipped_in_before_a_card_is_refused(book: Book) -> None:
    talk = a_talk()
    book.start(talk)
    book.finish(a_card(talk), AN_ANSWER)
    rows = rows_of(file_of(book))
    slipped = {**rows[1], "number": 2, "moment": rows[1]["moment"] + 1}
    rows[2]["moment"] += 5
    start, event, card = resealed(rows)
    (*_, late) = resealed([start, event, slipped])
    with NoBook() as other:
        report = taken(other, as_file([start, event, card, late]))
        assert [each.code for each in report.refusals] == ["damaged"]
        assert verify(other) == []


def test_a_line_that_was_already_there_may_stand_in_the_file_twice(file: bytes) -> None:
    rows = rows_of(file)
    with NoBook() as book:
        report = taken(book, as_file([*rows, *rows]))
        assert (report.added.total(), report.here, report.left_out) == (len(rows), len(rows), 0)
        assert file_of(book) == file


def test_only_the_first_lines_left_out_are_told_and_all_are_counted() -> None:
    with NoBook() as book:
        report = taken(book, as_file([{"row": "talk"}] * 50))
        assert report.left_out == 50
        assert report.refusals == [Refusal(n, "fields") for n in range(2, MOST_TOLD + 2)]


def test_a_file_that_was_cut_between_lines_tells_how_many_are_missing(file: bytes) -> None:
    cut = b"".join(file.splitlines(keepends=True)[:-3])
    with NoBook() as book:
        report = taken(book, cut)
        assert (report.missing, report.left_out) == (3, 0)
        taken(book, file)
        assert file_of(book) == file


# -- all or nothing ---------------------------------------------------------------------------


def test_a_file_that_turns_out_too_large_adds_nothing(
    file: bytes, book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("assistant.book.untrusted.LARGEST_FILE", len(file) - 1)
    before = file_of(book)
    with pytest.raises(NotTaken, match="too_big"):
        taken(book, file)
    assert file_of(book) == before


def test_trouble_half_way_adds_nothing(file: bytes, book: Book) -> None:
    fill(book, 1)
    before = file_of(book)

    class Breaks:
        def event(self, kind: str, body: object) -> bool:
            del kind, body
            return True

        def card(self, body: object) -> bool:
            raise MemoryError(body)

    with pytest.raises(MemoryError):
        taken(book, file, Breaks())
    assert file_of(book) == before


KILLED = """
import io, os, signal, sys
from pathlib import Path
from assistant.book.book import Book
from assistant.book.importing import take_in

class Kills:
    left = int(sys.argv[3])
    def event(self, kind, body):
        self.left -= 1
        if not self.left:
            os.kill(os.getpid(), signal.SIGKILL)
        return True
    def card(self, body):
        return True

with Book.open(Path(sys.argv[1])) as book, open(sys.argv[2], "rb") as source:
    take_in(book, source, Kills())
    if "committed" in sys.argv:
        os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.skipif(os.name == "nt", reason="this system has no SIGKILL")
@pytest.mark.parametrize(("events", "whole"), [(1, False), (7, False), (12, False), (0, True)])
def test_a_killed_import_leaves_the_old_book_or_the_new(
    events: int, whole: bool, path: Path, tmp_path: Path
) -> None:
    with NoBook() as other:
        fill(other, 6)
        (tmp_path / "file").write_bytes(file_of(other))
        lines = lines_of(other)
    with Book.open(path) as book:
        book.start(a_talk(999))
        old = lines_of(book)
    last = "committed" if whole else "not yet"
    run = subprocess.run(
        [sys.executable, "-c", KILLED, path, tmp_path / "file", str(events), last],
        cwd=ROOT,
        check=False,
    )
    assert run.returncode == -signal.SIGKILL
    with Book.open(path) as book:
        assert lines_of(book) == (old | lines if whole else old)
        assert verify(book) == []


def test_notes_come_along_later_than_their_card(book: Book, file: bytes) -> None:
    taken(book, file)
    with NoBook() as phone:
        taken(phone, file)
        card = phone.cards(limit=1)[0]
        phone.add_note(replace(Note(made_id(7), card.id, at(999), "dry"), text="wet in the hollow"))
        report = taken(book, file_of(phone))
    assert report.added == {"note": 1}
    assert [note.text for note in book.notes(card.id)][-1] == "wet in the hollow"
