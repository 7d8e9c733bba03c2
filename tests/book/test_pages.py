"""Rows read from the bare pages of a file are those that SQLite reads."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.book.pages import FoundRow, rows_in, told_size, varint
from assistant.book.schema import COLUMNS, added_after
from assistant.book.sealing import Value
from tests.book.real_book import put, real_book, rows_of

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
LONG = st.builds(lambda text, times: text * times, TEXTS, st.integers(0, 900))
NUMBERS = st.integers(-(2**63), 2**63 - 1)
EVENTS = st.lists(st.tuples(TEXTS, NUMBERS, LONG, NUMBERS, TEXTS), unique_by=lambda row: row[:2])


def all_rows(content: bytes) -> dict[str, set[tuple[Value, ...]]]:
    found: dict[str, set[tuple[Value, ...]]] = {table: set() for table in COLUMNS}
    for row in rows_in(content):
        found[row.table].add((*row.values, row.written))
    return found


def test_every_row_of_a_real_book_is_read_from_its_pages(tmp_path: Path) -> None:
    found = all_rows(real_book())
    for table, rows in rows_of(put(tmp_path / "book.db", real_book())).items():
        assert len(rows) > 10
        assert found[table] >= rows


@given(events=EVENTS, page_size=st.sampled_from([512, 1024, 4096, 65536]))
def test_rows_of_any_length_and_page_size_are_read_as_sqlite_reads_them(
    events: list[tuple[str, int, str, int, str]], page_size: int
) -> None:
    with closing(sqlite3.connect(":memory:")) as store:
        store.execute(f"PRAGMA page_size = {page_size}")
        for statement in added_after(0):
            store.execute(statement)
        for talk, number, body, moment, sealed in events:
            store.execute(
                "INSERT INTO event (talk, number, at, kind, body, moment, hash)"
                " VALUES (?, ?, 'at', '', ?, ?, ?)",
                (talk, number, body, moment, sealed),
            )
        store.commit()
        content = store.serialize()
        told = set(
            store.execute("SELECT talk, number, at, kind, body, moment, hash FROM event").fetchall()
        )
    assert told_size(content) == page_size
    assert all_rows(content)["event"] >= told


@given(st.binary(max_size=9000), st.integers(0, 1 << 20), st.integers(0, 4))
def test_nothing_that_stands_in_a_file_stops_the_reading(
    rubbish: bytes, at: int, pages: int
) -> None:
    sound = real_book()
    place = at % len(sound)
    spoilt = sound[:place] + rubbish + sound[place + len(rubbish) :]
    for content in (spoilt, rubbish, spoilt[: pages * 4096 + 17]):
        assert all(isinstance(row, FoundRow) for row in rows_in(content))


@pytest.mark.parametrize(
    ("header", "size"),
    [(b"\x10\x00", 4096), (b"\x02\x00", 512), (b"\x00\x01", 65536), (b"\x10\x01", 4096)],
)
def test_the_size_of_a_page_is_as_told_where_that_makes_sense(header: bytes, size: int) -> None:
    # www.sqlite.org/fileformat.html, section 1.3.2: 1 stands for 65536
    assert told_size(b"SQLite format 3\x00" + header) == size


@pytest.mark.parametrize(
    ("content", "number", "end"),
    [
        (b"\x7f", 127, 1),
        (b"\x81\x00", 128, 2),
        (b"\xff" * 7 + b"\x7f", 2**56 - 1, 8),
        (b"\x80" * 8 + b"\x05", 5, 9),
        (b"\xff" * 8 + b"\x01\x09", 2**64 - 2**8 + 1, 9),
    ],
)
def test_a_number_takes_one_to_nine_bytes(content: bytes, number: int, end: int) -> None:
    # www.sqlite.org/fileformat.html, section 1.6: seven bits a byte, and all eight of the ninth
    assert varint(content, 0) == (number, end)
