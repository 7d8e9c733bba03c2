"""Rows read straight from the pages of a book's file, where SQLite gives up.

A page that can't be read costs its own rows and no others, whatever lay above it in the tree.
Nothing here judges a row: its hash does that. The format is published:
www.sqlite.org/fileformat.html.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from assistant.book.opening import MAGIC
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.sealing import Value

USUAL_SIZE = 4096  # bytes of a page, unless the file tells another size
SIZES = {1 << power for power in range(9, 17)}
LARGEST = 1 << 16

# Section 1.6. The tables have no rowid, so their rows lie in the pages of an index.
INTERIOR, LEAF = 0x02, 0x0A
FIRST_CELL = {INTERIOR: 12, LEAF: 8}
FIRST_PAGE_HEADER = 100

# Section 2.1, the serial types of a record.
INTEGERS = {1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8}
CONSTANTS: dict[int, Value] = {0: None, 8: 0, 9: 1}
FIRST_TEXT = 13

# A table without rowid keeps the columns of its key first (section 2.4), the others as declared.
STORED = {
    table: [*KEYS[table], *(name for name in columns if name not in KEYS[table])]
    for table, columns in COLUMNS.items()
}


@dataclass(frozen=True, slots=True)
class FoundRow:
    """A row as it stands in the file: its columns in the order of the schema, and its hash."""

    table: str
    values: tuple[Value, ...]
    written: str

    @property
    def key(self) -> tuple[Value, ...]:
        """What tells it from the other rows of its table."""
        return tuple(self.values[COLUMNS[self.table].index(name)] for name in KEYS[self.table])


def rows_in(content: bytes) -> Iterator[FoundRow]:
    """Every row of the book's tables that can be read in a file's content, damaged ones too."""
    for size in {told_size(content), USUAL_SIZE}:
        for number in range(1, -(-len(content) // size) + 1):
            for record in Page(content, size, number).records():
                yield from as_rows(record)


def told_size(content: bytes) -> int:
    """The bytes of a page, as the file tells it; the usual size when it tells nothing sensible."""
    told = int.from_bytes(content[16:18], "big")
    size = LARGEST if told == 1 else told
    return size if content.startswith(MAGIC) and size in SIZES else USUAL_SIZE


def as_rows(record: Sequence[Value]) -> Iterator[FoundRow]:
    """The rows that a record may be, told by how many columns it has; the last is the hash."""
    *values, written = record or [None]
    for table, stored in STORED.items():
        if len(values) == len(stored) and isinstance(written, str):
            named = dict(zip(stored, values, strict=True))
            yield FoundRow(table, tuple(named[name] for name in COLUMNS[table]), written)


@dataclass(frozen=True, slots=True)
class Page:
    """One page of a file; pages are numbered from 1."""

    content: bytes
    size: int
    number: int

    def records(self) -> Iterator[list[Value]]:
        """The records in the page's cells; a cell that can't be read is passed over."""
        page = page_of(self.content, self.size, self.number)
        start = FIRST_PAGE_HEADER if self.number == 1 else 0
        kind = page[start]
        if kind not in FIRST_CELL:
            return
        first = start + FIRST_CELL[kind]
        for pointer in range(first, first + 2 * whole(page, start + 3, 2), 2):
            try:
                at = whole(page, pointer, 2) + (4 if kind == INTERIOR else 0)
                record = values_of(self._payload(page, at))
            except (IndexError, OverflowError):  # it tells of more than there is
                continue
            yield record

    def _payload(self, page: bytes, at: int) -> bytes:
        """The bytes of a cell, gathered from the pages that it runs over into (section 1.6)."""
        length, at = varint(page, at)
        if length > len(self.content):
            raise IndexError(length)
        here = bytes_here(length, self.size)
        parts = [piece(page, at, here)]
        if here == length:
            return parts[0]
        left, following = length - here, whole(page, at + here, 4)
        while left:
            over = page_of(self.content, self.size, following)
            parts.append(piece(over, 4, min(left, self.size - 4)))
            left, following = left - len(parts[-1]), whole(over, 0, 4)
        return b"".join(parts)


def page_of(content: bytes, size: int, number: int) -> bytes:
    """A page, filled up with zeros where the file was cut. Raises IndexError when there is none."""
    page = content[(number - 1) * size : number * size] if number else b""
    if not page:
        raise IndexError(number)
    return page.ljust(size, b"\0")


def bytes_here(length: int, size: int) -> int:
    """How many bytes of a payload stand in its own page."""
    most, least = (size - 12) * 64 // 255 - 23, (size - 12) * 32 // 255 - 23
    if length <= most:
        return length
    here = least + (length - least) % (size - 4)
    return here if here <= most else least


def values_of(payload: bytes) -> list[Value]:
    """The columns of a record; raises IndexError when it is no record of ours."""
    end, at = varint(payload, 0)
    kinds = []
    while at < end:
        kind, at = varint(payload, at)
        kinds.append(kind)
    values: list[Value] = []
    for kind in kinds:
        value, at = value_of(payload, kind, at)
        values.append(value)
    return values


def value_of(payload: bytes, kind: int, at: int) -> tuple[Value, int]:
    """One column, and where the next begins. The book holds whole numbers and texts only."""
    if kind in CONSTANTS:
        return CONSTANTS[kind], at
    if kind in INTEGERS:
        raw = piece(payload, at, INTEGERS[kind])
        return int.from_bytes(raw, "big", signed=True), at + len(raw)
    if kind < FIRST_TEXT or kind % 2 == 0:
        raise IndexError(kind)
    raw = piece(payload, at, (kind - FIRST_TEXT) // 2)
    return raw.decode("utf-8", "surrogateescape"), at + len(raw)


def varint(content: bytes, at: int) -> tuple[int, int]:
    """A number of one to nine bytes (section 1.6), and where it ends."""
    value = 0
    for place in range(at, at + 8):
        value = value << 7 | content[place] & 0x7F
        if content[place] < 0x80:  # noqa: PLR2004  the high bit says that more follows
            return value, place + 1
    return value << 8 | content[at + 8], at + 9


def whole(content: bytes, at: int, length: int) -> int:
    """A whole number of so many bytes."""
    return int.from_bytes(piece(content, at, length), "big")


def piece(content: bytes, at: int, length: int) -> bytes:
    """So many bytes; raises IndexError when there are fewer."""
    found = content[at : at + length]
    if len(found) < length:
        raise IndexError(at)
    return found
