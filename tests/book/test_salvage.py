"""What is whole in a damaged book is saved, the rest is named, and the damaged bytes stay."""

import random
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.salvage import Saved, salvage, sound
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.verifying import verify
from tests.book.real_book import CARDS, Row, later, put, real_book, rows_of
from tests.book.samples import DAWN, a_card, a_talk, at

PAGE = 4096
LAST = -1  # the hash stands last in a row
Damage = Callable[[bytearray, random.Random], None]


def flip(content: bytearray, chance: random.Random) -> None:
    content[chance.randrange(PAGE, len(content))] ^= 1 << chance.randrange(8)


def flip_many(content: bytearray, chance: random.Random) -> None:
    for _ in range(40):
        flip(content, chance)


def cut(content: bytearray, chance: random.Random) -> None:
    del content[chance.randrange(PAGE, len(content)) :]


def zero_a_page(content: bytearray, chance: random.Random) -> None:
    page = chance.randrange(1, len(content) // PAGE)
    content[page * PAGE : (page + 1) * PAGE] = bytes(PAGE)


def zero_pages(content: bytearray, chance: random.Random) -> None:
    for _ in range(len(content) // PAGE // 5):
        zero_a_page(content, chance)


def zero_the_first(content: bytearray, _chance: random.Random) -> None:
    content[:PAGE] = bytes(PAGE)


def spoil_the_tables(content: bytearray, chance: random.Random) -> None:
    """Only the first page's header stays: SQLite finds no table any more."""
    content[100:PAGE] = chance.randbytes(PAGE - 100)


def swap_pages(content: bytearray, chance: random.Random) -> None:
    one, other = (PAGE * chance.randrange(1, len(content) // PAGE) for _ in range(2))
    first, second = content[one : one + PAGE], content[other : other + PAGE]
    content[one : one + PAGE], content[other : other + PAGE] = second, first


def rubbish(content: bytearray, chance: random.Random) -> None:
    place = chance.randrange(PAGE, len(content) - PAGE)
    content[place : place + 700] = chance.randbytes(700)


DAMAGES = [
    flip,
    flip_many,
    cut,
    zero_a_page,
    zero_pages,
    zero_the_first,
    spoil_the_tables,
    swap_pages,
    rubbish,
]


def mended(path: Path) -> tuple[Saved, dict[str, set[Row]]]:
    """What salvage tells, and the rows of the new book, which must be sound."""
    saved = salvage(path, DAWN)
    with Book.open(path) as book:
        assert verify(book) == []
    return saved, rows_of(path)


def unsealed(rows: set[Row]) -> set[Row]:
    return {row[:LAST] for row in rows}


class Seen:
    """What SQLite itself still reads of a damaged book, row by row, each by its key."""

    def __init__(self, path: Path, written: dict[str, set[Row]]) -> None:
        address = f"{path.as_uri()}?mode=ro&immutable=1"
        with closing(sqlite3.connect(address, uri=True)) as store:
            store.text_factory = lambda raw: raw.decode("utf-8", "replace")
            self.rows = {
                table: {row for row in rows if read_by_key(store, table, row)}
                for table, rows in written.items()
            }
        self.events = {row[:2]: row for row in self.rows["event"]}

    def whole(self) -> dict[str, set[Row]]:
        """The rows that must be saved: whole, and what proves them is whole too."""
        talks = self.rows["talk"]
        cards = {row for row in self.rows["card"] if (row[1], LAST_NUMBER) in self.events}
        return {
            "talk": talks,
            "event": {row for talk in talks for row in self._unbroken(talk[0])},
            "card": cards,
            "note": {row for row in self.rows["note"] if row[1] in {card[0] for card in cards}},
        }

    def _unbroken(self, talk: object) -> Iterator[Row]:
        for number in range(1, LAST_NUMBER + 1):
            if (talk, number) not in self.events:
                return
            yield self.events[talk, number]


LAST_NUMBER = 34  # events of each conversation


def read_by_key(store: sqlite3.Connection, table: str, row: Row) -> bool:
    keys = [f"{key} = ?" for key in KEYS[table]]
    names = ", ".join((*COLUMNS[table], "hash"))
    select = f"SELECT {names} FROM {table} WHERE {' AND '.join(keys)}"
    try:
        read: Row | None = store.execute(select, row[: len(keys)]).fetchone()
    except sqlite3.Error:
        return False
    return read == row


def numbers(rows: dict[str, set[Row]]) -> set[object]:
    """What people know the cards by."""
    return {row[1] for row in rows["card"]}


@pytest.mark.parametrize("seed", range(2))
@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_book_gives_up_what_is_whole_and_nothing_else(
    path: Path, damage: Damage, seed: int
) -> None:
    written = rows_of(put(path, real_book()))
    content = bytearray(real_book())
    damage(content, random.Random(seed))
    spoilt = bytes(content)
    whole = Seen(put(path, spoilt), written).whole()
    saved, rows = mended(path)
    assert saved.aside.read_bytes() == spoilt
    assert saved.aside.name == f"book.damaged-{later(0)}.db"
    assert sorted(path.parent.iterdir()) == [saved.aside, path]
    for table in COLUMNS:
        assert unsealed(rows[table]) <= unsealed(written[table])
        assert unsealed(rows[table]) >= unsealed(whole[table])
    assert (saved.cards, saved.conversations) == (len(rows["card"]), len(rows["talk"]))


def zeroed(page: int) -> bytes:
    content = bytearray(real_book())
    content[page * PAGE : (page + 1) * PAGE] = bytes(PAGE)
    return bytes(content)


def pages(step: int) -> range:
    """Some of the pages, the first left out."""
    return range(1, len(real_book()) // PAGE, step)


def assert_one_page_costs_its_own_rows(path: Path, page: int) -> None:
    written = rows_of(put(path, real_book()))
    whole = Seen(put(path, zeroed(page)), written).whole()
    saved, rows = mended(path)
    for table in COLUMNS:
        assert unsealed(written[table]) >= unsealed(rows[table]) >= unsealed(whole[table])
    assert {name.number for name in saved.lost} == numbers(written) - numbers(rows)
    named = {row[1]: (row[2][:10], *row[4:7]) for row in written["card"]}
    for name in saved.lost:
        assert (name.day, name.drill, name.crop, name.lot) == named[name.number]
    assert saved.talks == sorted({r[0] for r in written["talk"]} - {r[0] for r in rows["talk"]})
    short = {row[:2] for row in written["event"]} - {row[:2] for row in rows["event"]}
    assert saved.cut == sorted({talk for talk, _ in short} - set(saved.talks))
    assert saved.notes == len(written["note"]) - len(rows["note"])


@pytest.mark.parametrize("page", pages(11))
def test_one_lost_page_costs_its_own_rows_and_each_is_named(path: Path, page: int) -> None:
    assert_one_page_costs_its_own_rows(path, page)


@pytest.mark.campaign
@pytest.mark.parametrize("page", pages(1))
def test_any_lost_page_costs_its_own_rows_and_each_is_named(path: Path, page: int) -> None:
    assert_one_page_costs_its_own_rows(path, page)


def test_a_sound_book_keeps_every_row_with_its_hash(path: Path) -> None:
    written = rows_of(put(path, real_book()))
    saved, rows = mended(path)
    assert rows == written
    assert (saved.cards, saved.conversations) == (CARDS, CARDS)
    assert (saved.lost, saved.talks, saved.cut, saved.notes) == ([], [], [], 0)


def test_damage_in_the_indexes_alone_loses_nothing(path: Path) -> None:
    written = rows_of(put(path, real_book()))
    with closing(sqlite3.connect(path)) as store:
        roots = [
            root
            for (root,) in store.execute("SELECT rootpage FROM sqlite_master WHERE type = 'index'")
        ]
    content = bytearray(real_book())
    for root in filter(None, roots):
        content[(root - 1) * PAGE : root * PAGE] = bytes(PAGE)
    assert len(roots) > 8
    saved, rows = mended(put(path, bytes(content)))
    assert rows == written
    assert (saved.lost, saved.talks, saved.cut, saved.notes) == ([], [], [], 0)


def spoilt(path: Path, table: str, column: str, key: str) -> None:
    """Changes one row behind the book's back and leaves its hash."""
    with closing(sqlite3.connect(path, isolation_level=None)) as store:
        store.execute(f"DROP TRIGGER {table}_unchanged")
        store.execute(f"UPDATE {table} SET {column} = 'else' WHERE {key}")


def one_of(path: Path) -> tuple[str, str]:
    """The ids of a conversation and of its card, which has a note."""
    with Book.open(path) as book:
        talk = a_talk(20)
        return talk.id, book.cards(limit=CARDS)[CARDS - 2].id


def test_a_card_outlives_its_conversation(path: Path) -> None:
    talk, card = one_of(put(path, real_book()))
    spoilt(path, "talk", "job", f"id = '{talk}'")
    saved, _rows = mended(path)
    assert (saved.cards, saved.conversations) == (CARDS, CARDS - 1)
    assert (saved.lost, saved.talks, saved.cut, saved.notes) == ([], [talk], [], 0)
    with Book.open(path) as book:
        found = book.card(talk)
        assert found is not None
        assert found.id == card
        assert book.talk(talk) is None
        assert len(book.notes(card)) == 1
    again, _rows = mended(path)
    assert (again.cards, again.conversations) == (CARDS, CARDS - 1)


def test_a_conversation_keeps_its_answers_up_to_the_first_that_is_lost(path: Path) -> None:
    talk, card = one_of(put(path, real_book()))
    spoilt(path, "event", "body", f"talk = '{talk}' AND number = 12")
    saved, _rows = mended(path)
    assert (saved.lost, saved.talks, saved.cut) == ([], [], [talk])
    with Book.open(path) as book:
        assert [event.number for event in book.events(talk)] == list(range(1, 12))
        found = book.card(talk)
        assert found is not None
        assert found.id == card
        book.append(talk, [("answered", {"a": 1})], at(900))
        assert verify(book) == []


def test_a_changed_card_is_named_with_its_notes(path: Path) -> None:
    talk, card = one_of(put(path, real_book()))
    spoilt(path, "card", "outcome", f"id = '{card}'")
    saved, _rows = mended(path)
    assert [(name.number, name.drill, name.lot) for name in saved.lost] == [
        (talk, "Big red", "bin 4")
    ]
    assert (saved.cut, saved.notes) == ([], 1)


def test_what_stands_only_in_the_log_is_saved_and_the_log_is_kept_aside(
    path: Path, tmp_path: Path
) -> None:
    put(path, real_book())
    left = tmp_path / "left" / "book.db"
    with Book.open(path) as book:
        book.start(a_talk(7000))
        book.finish(a_card(a_talk(7000)), [("finished", {})])
        shutil.copytree(path.parent, left.parent)
    content = bytearray(left.read_bytes())
    content[-PAGE * 9 : -PAGE * 8] = bytes(PAGE)
    left.write_bytes(content)
    log = left.with_name("book.db-wal").read_bytes()
    assert log
    saved = salvage(left, DAWN)
    assert saved.aside.read_bytes() == bytes(content)
    assert saved.aside.with_name(saved.aside.name + "-wal").read_bytes() == log
    assert not left.with_name("book.db-wal").exists()
    with Book.open(left) as book:
        assert book.card(a_talk(7000).id) == a_card(a_talk(7000))
        assert verify(book) == []


def test_two_salvages_in_one_second_keep_both_damaged_books(path: Path) -> None:
    asides = [salvage(put(path, zeroed(page)), DAWN).aside for page in (20, 30)]
    assert [aside.read_bytes() for aside in asides] == [zeroed(20), zeroed(30)]


FOREIGN = b"SQLite format 3\x00\x10\x00" + bytes(50) + b"\0\0\0\1else" + bytes(4024)
NEWER = real_book()[:60] + b"\0\0\0\x63" + real_book()[64:]


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"some text of ours\n" * 300, "not_a_database"),
        (FOREIGN, "foreign"),
        (NEWER, "newer"),
    ],
)
def test_what_is_not_ours_to_mend_stays_as_it_is(path: Path, content: bytes, code: str) -> None:
    put(path, content)
    with pytest.raises(BookProblem, match=code):
        salvage(path, DAWN)
    assert path.read_bytes() == content
    assert list(path.parent.iterdir()) == [path]


@pytest.mark.parametrize("place", [16, 68, 70])
def test_a_book_whose_header_no_longer_says_so_is_known_by_its_rows(path: Path, place: int) -> None:
    content = bytearray(real_book())
    content[place] ^= 0x20
    saved, _rows = mended(put(path, bytes(content)))
    assert saved.cards == CARDS


def test_a_book_that_is_sound_is_told_from_one_that_is_not(path: Path) -> None:
    assert sound(put(path, real_book()))
    assert not sound(put(path, zeroed(25)))
    assert not sound(put(path, b"x" * 200))
    put(path, real_book())
    spoilt(path, "card", "outcome", "1")
    assert not sound(path)
    with pytest.raises(BookProblem, match="newer"):
        sound(put(path, NEWER))
