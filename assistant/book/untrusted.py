"""Reads an exported file that anyone may have made: line by line, nothing taken on trust.

A file that is no book is refused whole, by code. A line that is not as the program writes it is
refused by number and code, and reading goes on. Limits hold memory and time down.
"""

import json
import math
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, BinaryIO, Literal

from assistant.book.exporting import FORMAT
from assistant.book.ids import LENGTH, SIGNS, milliseconds
from assistant.book.schema import COLUMNS
from assistant.book.sealing import Value, compact

LARGEST_FILE = 1_000_000_000  # bytes: some 70,000 finished jobs
LONGEST_LINE = 1_000_000  # bytes: a finished card takes about 5,000
LONGEST_TEXT = 10_000
DEEPEST = 12
NESTS = (dict, list)
LARGEST_NUMBER = 2**62  # SQLite counts to 2**63, and later rows count on from here
MOST_DIGITS = 20  # longer ones are not even read
MARK = b"\xef\xbb\xbf"  # some editors put it before a text in UTF-8

FileCode = Literal["empty", "foreign", "newer", "too_big", "unreadable"]
LineCode = Literal[
    "too_long",
    "no_line",
    "fields",
    "value",
    "damaged",
    "apart",
    "other",
    "forked",
    "held",
    "strange",
]


class NotTaken(Exception):  # noqa: N818  an odd file is no mistake of the program
    """A file that can't be taken at all; `code` says why."""

    def __init__(self, code: FileCode) -> None:
        super().__init__(code)
        self.code: FileCode = code


@dataclass(frozen=True, slots=True)
class Refusal:
    """A line that is left out: its number from 1, why, and the field or the id it is about."""

    line: int
    code: LineCode
    about: str = ""


@dataclass(frozen=True, slots=True)
class Told:
    """A row as a line tells it: well formed, its hash not yet proven."""

    line: int
    table: str
    values: list[Value]
    hash: str
    body: Mapping[str, Any]

    def value(self, column: str) -> Any:
        """The value of a column."""
        return self.values[COLUMNS[self.table].index(column)]


class NoLine(ValueError):  # noqa: N818  named for what the text is
    """JSON that the program never writes: a key twice, a number without bounds."""


def rows_in(source: BinaryIO) -> Iterator[int | Told | Refusal]:
    """How many rows the header tells, then each line: its row, or why it is left out.

    Raises NotTaken.
    """
    lines = numbered(source)
    yield promised(next(lines, (1, b""))[1])
    for number, line in lines:
        if line is None:
            yield Refusal(number, "too_long")
        elif line.strip():
            yield row_in(number, line)


def numbered(source: BinaryIO) -> Iterator[tuple[int, bytes | None]]:
    """Lines by number from 1; none for one that is too long, which is passed over."""
    number = size = 0
    while line := read(source):
        number += 1
        kept: bytes | None = line
        size += len(line)
        while len(line) > LONGEST_LINE and not line.endswith(b"\n"):
            kept, line = None, read(source)
            size += len(line)
            at_most(size)
        at_most(size)
        yield number, kept


def read(source: BinaryIO) -> bytes:
    """The next line, or a long piece of it."""
    try:
        return source.readline(LONGEST_LINE + 1)
    except OSError:
        raise NotTaken("unreadable") from None


def at_most(size: int) -> None:
    """Raises NotTaken for more bytes than a book has."""
    if size > LARGEST_FILE:
        raise NotTaken("too_big")


def promised(line: bytes | None) -> int:
    """The number of rows that a header tells; raises NotTaken for what is no header of ours."""
    if not line:
        raise NotTaken("empty" if line is not None else "foreign")
    try:
        header = parsed(line.removeprefix(MARK))
    except (ValueError, RecursionError):
        raise NotTaken("foreign") from None
    if not isinstance(header, dict) or header.get("drillside") != "book":
        raise NotTaken("foreign")
    version, rows = header.get("format"), header.get("rows")
    if type(version) is int and version > FORMAT:
        raise NotTaken("newer")
    if header.keys() != {"drillside", "format", "rows"} or type(version) is not int:
        raise NotTaken("foreign")
    if version != FORMAT or type(rows) is not int or rows < 0:
        raise NotTaken("foreign")
    return rows


def row_in(number: int, line: bytes) -> Told | Refusal:
    """The row of one line."""
    try:
        fields = parsed(line)
    except (ValueError, RecursionError):
        return Refusal(number, "no_line")
    if not isinstance(fields, dict) or not isinstance(fields.get("row"), str):
        return Refusal(number, "no_line")
    table = fields.pop("row")
    columns = (*COLUMNS.get(table, ()), "hash")
    if table not in COLUMNS or fields.keys() != set(columns):
        return Refusal(number, "fields")
    for column in columns:
        if not fits(column, fields[column]):
            return Refusal(number, "value", column)
    values = [as_value(fields[column]) for column in COLUMNS[table]]
    told = Told(number, table, values, fields["hash"], fields.get("body", {}))
    moment = told.value("started" if table == "talk" else "at")
    late = told.value("moment") < milliseconds(moment)  # never earlier than the clock was
    return Refusal(number, "value", "moment") if late else told


def as_value(value: Any) -> Value:
    """A field as its column holds it."""
    if isinstance(value, bool):
        return int(value)
    return compact(value) if isinstance(value, dict) else value


# -- JSON, strictly ---------------------------------------------------------------------------


def parsed(line: bytes) -> Any:
    """The JSON of a line. Raises ValueError, or RecursionError where it nests without end."""
    text = line.decode("utf-8")
    value = json.loads(
        text,
        object_pairs_hook=once,
        parse_int=whole,
        parse_float=finite,
        parse_constant=never,
    )
    if not shallow(value, DEEPEST):
        raise NoLine
    return value


def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object whose keys stand once."""
    told = dict(pairs)
    if len(told) != len(pairs):
        raise NoLine
    return told


def whole(digits: str) -> int:
    """A whole number that every reader can hold."""
    if len(digits) > MOST_DIGITS or abs(int(digits)) > LARGEST_NUMBER:
        raise NoLine
    return int(digits)


def finite(digits: str) -> float:
    """A number that is no infinity in disguise."""
    if math.isinf(number := float(digits)):
        raise NoLine
    return number


def never(_name: str) -> float:
    """NaN and the infinities are no JSON."""
    raise NoLine


def shallow(value: Any, left: int) -> bool:
    """Whether a value nests no deeper than `left`."""
    if not isinstance(value, NESTS):
        return True
    for each in value.values() if isinstance(value, dict) else value:
        if isinstance(each, NESTS) and not (left > 1 and shallow(each, left - 1)):
            return False
    return True


# -- columns ----------------------------------------------------------------------------------


def fits(column: str, value: Any) -> bool:
    """Whether a column can hold a value: exactly its type, and within its limits."""
    return FITS.get(column, is_text)(value)


def is_text(value: Any) -> bool:
    """A text that the file of the book can hold."""
    if type(value) is not str or len(value) > LONGEST_TEXT:
        return False
    return value.isascii() or not any("\ud800" <= sign <= "\udfff" for sign in value)


def is_id(value: Any) -> bool:
    """An id as the program makes them."""
    return type(value) is str and len(value) == LENGTH and set(value) <= set(SIGNS)


def is_moment(value: Any) -> bool:
    """An ISO 8601 moment."""
    try:
        return is_text(value) and milliseconds(value) is not None
    except (ValueError, OverflowError):
        return False


def is_number(value: Any) -> bool:
    """A whole number from 0."""
    return type(value) is int and 0 <= value < LARGEST_NUMBER


FITS: dict[str, Callable[[Any], bool]] = {
    "id": is_id,
    "talk": is_id,
    "card": is_id,
    "follows": lambda value: value is None or is_id(value),
    "started": is_moment,
    "at": is_moment,
    "number": lambda value: is_number(value) and value > 0,
    "moment": is_number,
    "scripted": lambda value: type(value) is bool,
    "body": lambda value: type(value) is dict,
    "hash": lambda value: is_text(value) and bool(re.fullmatch("[0-9a-f]{64}", value)),
}
"""What each column holds; those that are not named hold a text."""
