"""Files that anyone may have made: each is taken or refused by a code and a line, never a crash."""

from __future__ import annotations

import gzip
import io
import json
from typing import BinaryIO, cast, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.book import untrusted
from assistant.book.exporting import as_line
from assistant.book.importing import take_in
from assistant.book.nobook import NoBook
from assistant.book.untrusted import FileCode, LineCode, NotTaken
from assistant.book.verifying import verify
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from tests.book.exchanging import (
    AnyBody,
    Row,
    as_file,
    file_of,
    header,
    lines_of,
    resealed,
    rows_of,
    taken,
    union,
)
from tests.book.samples import fill

with NoBook() as made:
    fill(made, 2)
    FILE = file_of(made)
HEADER, *LINES = FILE.splitlines(keepends=True)
TALK, EVENT, CARD, NOTE = (LINES[n] for n in (0, 1, 3, 4))
ROW = json.loads(EVENT)


def spoiled(line: bytes, number: int = 1) -> bytes:
    """The file with one of its lines replaced."""
    return b"".join([HEADER, *LINES[:number], line, *LINES[number + 1 :]])


def with_raw(field: str, raw: bytes) -> bytes:
    """The event with the JSON of one field replaced by these bytes."""
    value = json.dumps(ROW[field], separators=(",", ":")).encode()
    name = f'"{field}":'.encode()
    assert name + value in EVENT
    return EVENT.replace(name + value, name + raw)


# -- refused as a whole -----------------------------------------------------------------------

WHOLE: dict[str, tuple[bytes, FileCode]] = {
    "empty": (b"", "empty"),
    "gzip": (gzip.compress(FILE), "foreign"),
    "binary": (bytes(range(256)) * 40, "foreign"),
    "a database": (b"SQLite format 3\x00" + bytes(4096), "foreign"),
    "UTF-16": (FILE.decode().encode("utf-16"), "foreign"),
    "a text": (b"date,drill\n2031-04-02,green\n", "foreign"),
    "no header": (b"".join(LINES), "foreign"),
    "a list": (b"[]\n", "foreign"),
    "a number": (b"1\n", "foreign"),
    "another program's": (b'{"drillside":"shopping","format":1,"rows":0}\n', "foreign"),
    "a key too many": (b'{"drillside":"book","format":1,"rows":0,"x":1}\n', "foreign"),
    "format true": (b'{"drillside":"book","format":true,"rows":0}\n', "foreign"),
    "format 0": (b'{"drillside":"book","format":0,"rows":0}\n', "foreign"),
    "format a text": (b'{"drillside":"book","format":"1","rows":0}\n', "foreign"),
    "rows below zero": (b'{"drillside":"book","format":1,"rows":-1}\n', "foreign"),
    "rows missing": (b'{"drillside":"book","format":1}\n', "foreign"),
    "format 2": (b'{"drillside":"book","format":2,"rows":0,"more":[]}\n', "newer"),
    "one endless line": (b"{" * 3_000_000, "foreign"),
    "a deep header": (b"[" * 200_000 + b"\n", "foreign"),
    "blank first line": (b"\n" + FILE, "foreign"),
}


@pytest.mark.parametrize(("file", "code"), WHOLE.values(), ids=list(WHOLE))
def test_what_is_no_book_is_refused_whole_and_the_book_stays(file: bytes, code: str) -> None:
    with NoBook() as book:
        fill(book, 1)
        before = file_of(book)
        with pytest.raises(NotTaken) as caught:
            taken(book, file)
        assert caught.value.code == code
        assert file_of(book) == before


# -- taken as they are ------------------------------------------------------------------------

AS_THEY_ARE = {
    "plain": FILE,
    "BOM": b"\xef\xbb\xbf" + FILE,
    "CRLF": FILE.replace(b"\n", b"\r\n"),
    "no last newline": FILE.rstrip(b"\n"),
    "blank lines": FILE.replace(b"\n", b"\n\n"),
    "spaces": FILE.replace(b'":', b'" : ').replace(b"\n", b"  \n"),
    "keys in another order": HEADER
    + b"".join(json.dumps(dict(sorted(json.loads(x).items()))).encode() + b"\n" for x in LINES),
}


@pytest.mark.parametrize("file", AS_THEY_ARE.values(), ids=list(AS_THEY_ARE))
def test_what_editors_and_mail_do_to_a_file_changes_nothing(file: bytes) -> None:
    assert union(file) == FILE


# -- one line refused -------------------------------------------------------------------------

DEEP = b'{"a":' * 200 + b"1" + b"}" * 200
LINE: dict[str, tuple[bytes, LineCode]] = {
    "too long": (b'{"row":"event","x":"' + b"x" * 1_000_000 + b'"}\n', "too_long"),
    "cut off": (EVENT[:60] + b"\n", "no_line"),
    "not UTF-8": (EVENT.replace(b"answered", b"answ\xff\xfe"), "no_line"),
    "NUL bytes": (b"\0\0\0\0\n", "no_line"),
    "a list": (b"[1,2]\n", "no_line"),
    "nothing in it": (b"{}\n", "no_line"),
    "a header again": (HEADER, "no_line"),
    "a key twice": (EVENT.replace(b'{"row"', b'{"row":"event","row"'), "no_line"),
    "a key twice within": (with_raw("body", b'{"crop":"a","crop":"b"}'), "no_line"),
    "NaN": (with_raw("body", b'{"crop":NaN}'), "no_line"),
    "Infinity": (with_raw("body", b'{"crop":-Infinity}'), "no_line"),
    "1e999": (with_raw("body", b'{"crop":1e999}'), "no_line"),
    "a very long number": (with_raw("moment", b"9" * 100_000), "no_line"),
    "a very long negative": (with_raw("body", b'{"crop":-' + b"9" * 30 + b"}"), "no_line"),
    "2**64": (with_raw("moment", b"18446744073709551616"), "no_line"),
    "deep": (with_raw("body", DEEP), "no_line"),
    "deeper": (with_raw("body", b"[" * 300_000), "no_line"),
    "two objects": (EVENT.strip() + EVENT, "no_line"),
    "single quotes": (EVENT.replace(b'"', b"'"), "no_line"),
    "row a number": (EVENT.replace(b'"row":"event"', b'"row":1'), "no_line"),
    "no such table": (EVENT.replace(b'"row":"event"', b'"row":"holder"'), "fields"),
    "a table of SQLite": (EVENT.replace(b'"row":"event"', b'"row":"sqlite_master"'), "fields"),
    "a key too many": (EVENT.replace(b'"number"', b'"x":1,"number"'), "fields"),
    "a key too few": (EVENT.replace(b'"number":1,', b""), "fields"),
    "number true": (with_raw("number", b"true"), "value"),
    "number 1.0": (with_raw("number", b"1.0"), "value"),
    "number 0": (with_raw("number", b"0"), "value"),
    "number a text": (with_raw("number", b'"1"'), "value"),
    "number null": (with_raw("number", b"null"), "value"),
    "moment below zero": (with_raw("moment", b"-1"), "value"),
    "moment 2**62": (with_raw("moment", b"4611686018427387904"), "value"),
    "moment before its time": (with_raw("moment", b"5"), "value"),
    "a body that is a text": (with_raw("body", b'"{}"'), "value"),
    "a body that is a list": (with_raw("body", b"[]"), "value"),
    "at no moment": (with_raw("at", b'"yesterday"'), "value"),
    "at a long moment": (with_raw("at", b'"' + b"2" * 20_000 + b'"'), "value"),
    "at NUL": (with_raw("at", b'"2031-04-02\\u0000"'), "value"),
    "year 0": (with_raw("at", b'"0000-01-01T00:00:00"'), "value"),
    "kind a surrogate": (with_raw("kind", b'"\\udc9b"'), "value"),
    "kind very long": (with_raw("kind", b'"' + b"k" * 20_000 + b'"'), "value"),
    "talk with other letters": (with_raw("talk", b'"' + b"u" * 20 + b'"'), "value"),
    "talk in capitals": (with_raw("talk", json.dumps(ROW["talk"].upper()).encode()), "value"),
    "talk too short": (with_raw("talk", b'"0123"'), "value"),
    "talk with a path": (with_raw("talk", b'"../../../../etc/pass"'), "value"),
    "talk null": (with_raw("talk", b"null"), "value"),
    "hash in capitals": (with_raw("hash", b'"' + b"A" * 64 + b'"'), "value"),
    "hash too short": (with_raw("hash", b'"abc"'), "value"),
    "hash with a newline": (with_raw("hash", b'"' + b"a" * 63 + b'\\n"'), "value"),
    "another hash": (with_raw("hash", b'"' + b"a" * 64 + b'"'), "damaged"),
    "another answer": (with_raw("body", b'{"crop":"rye"}'), "damaged"),
    "SQL in a text": (with_raw("kind", b'"\'); DROP TABLE card; --"'), "damaged"),
    "of no conversation": (with_raw("talk", b'"01234567890123456789"'), "apart"),
}


@pytest.mark.parametrize(("line", "code"), LINE.values(), ids=list(LINE))
def test_one_odd_line_is_named_and_the_other_conversation_comes(line: bytes, code: str) -> None:
    with NoBook() as book:
        report = taken(book, spoiled(line))
        first = report.refusals[0]
        assert (first.line, first.code) == (3, code)
        assert lines_of(book) >= {each.decode() for each in LINES[5:]} | {TALK.decode()}
        assert lines_of(book) < {each.decode() for each in LINES}
        assert verify(book) == []


@pytest.mark.parametrize(
    ("number", "field", "value"),
    [
        (0, "follows", "nobody"),
        (0, "follows", 3),
        (0, "scripted", 0),
        (0, "scripted", "false"),
        (0, "started", "soon"),
        (0, "id", ""),
        (3, "drill", None),
        (3, "drill", ["green"]),
        (3, "scripted", 2),
        (3, "lot", "x" * 10_001),
        (4, "text", 7),
        (4, "card", "short"),
        (4, "text", "\ud800"),  # half a sign: the first of those that UTF-8 has no bytes for
        (4, "moment", 0),  # before the clock stood so
    ],
)
def test_a_field_that_can_not_hold_its_value_is_named(
    number: int, field: str, value: object
) -> None:
    rows: list[Row] = rows_of(FILE)
    rows[number] = {**rows[number], field: value}
    with NoBook() as book:
        refusal = taken(book, as_file(rows)).refusals[0]
        assert (refusal.line, refusal.code, refusal.about) == (number + 2, "value", field)


@pytest.mark.parametrize(
    ("deep", "fits"), [(untrusted.DEEPEST, True), (untrusted.DEEPEST + 1, False)]
)
def test_a_value_may_nest_just_so_deep(deep: int, fits: bool) -> None:
    value: object = "x"
    for _ in range(deep):
        value = [value]
    assert untrusted.shallow(value, untrusted.DEEPEST) is fits


def test_a_line_of_a_file_holds_no_sign_that_drives_a_terminal() -> None:
    assert as_line({"text": "a\x7f\x1b[2J\x9b"}) == '{"text":"a\\u007f\\u001b[2J\\u009b"}\n'


def test_a_forger_can_make_rows_but_no_moment_that_stops_the_book() -> None:
    rows = rows_of(FILE)
    rows[4]["moment"] = untrusted.LARGEST_NUMBER - 1
    with NoBook() as book:
        assert taken(book, as_file(resealed(rows))).left_out == 0
        book.append(rows[0]["id"], [("answered", {"crop": "rye"})], "2031-04-02T06:00:00Z")
        assert verify(book) == []


@settings(max_examples=300)
@given(st.data())
def test_whatever_happens_to_the_bytes_nothing_wrong_gets_in(data: st.DataObject) -> None:
    spoilt = bytearray(FILE)
    for _ in range(data.draw(st.integers(1, 4))):
        place = data.draw(st.integers(0, len(spoilt)))
        length = data.draw(st.integers(0, 40))
        spoilt[place : place + length] = data.draw(st.binary(max_size=40))
    with NoBook() as book:
        try:
            taken(book, bytes(spoilt))
        except NotTaken:
            assert lines_of(book) == set()
        assert lines_of(book) <= {line.decode() for line in LINES}
        assert verify(book) == []


@given(st.binary())
def test_random_bytes_are_not_taken(random: bytes) -> None:
    with NoBook() as book, pytest.raises(NotTaken):
        taken(book, random)


def test_a_long_line_is_passed_over_without_holding_it() -> None:
    class Endless(io.RawIOBase):
        """A header, then a line without end."""

        left = 0
        longest = 0

        def readable(self) -> bool:
            return True

        def readline(self, size: int | None = -1, /) -> bytes:
            assert size is not None
            assert 0 < size <= untrusted.LONGEST_LINE + 1
            self.left += 1
            return header(1) + b"\n" if self.left == 1 else b"x" * size

    with NoBook() as book, pytest.raises(NotTaken, match="too_big"):
        take_in(book, cast("BinaryIO", Endless()), AnyBody())


def test_every_code_has_a_sentence() -> None:
    words = load(flows_folder()).words
    assert all(f"exchange.{code}" in words for code in get_args(FileCode))
    assert all(f"exchange.line.{code}" in words for code in get_args(LineCode))
