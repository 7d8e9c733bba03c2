"""What can be wrong with a book, by code. The caller has the sentence for each."""

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Literal

Code = Literal[
    "damaged",
    "foreign",
    "not_a_database",
    "newer",
    "read_only",
    "locked",
    "taken_over",
    "gone",
    "full",
    "no_folder",
    "failed",
]

PRIMARY = 0xFF  # SQLite keeps its primary result code in the lowest byte
SQLITE: dict[int, Code] = {
    sqlite3.SQLITE_BUSY: "locked",
    sqlite3.SQLITE_LOCKED: "locked",
    sqlite3.SQLITE_PROTOCOL: "locked",  # a crowd at the log
    sqlite3.SQLITE_READONLY: "read_only",
    sqlite3.SQLITE_CORRUPT: "damaged",
    sqlite3.SQLITE_NOTADB: "not_a_database",
    sqlite3.SQLITE_FULL: "full",
}
NO_ROOM = {errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC)}


class BookProblem(Exception):  # noqa: N818  a full disk is no mistake of anyone's
    """Something about the book at `path` stands in the way; `code` says what."""

    def __init__(self, code: Code, path: Path) -> None:
        super().__init__(code, path)
        self.code: Code = code
        self.path = path


def code_of(trouble: sqlite3.Error | OSError) -> Code:
    """The code for what SQLite or the system reports; `failed` for what has no own code."""
    if isinstance(trouble, OSError):
        return "full" if trouble.errno in NO_ROOM else "failed"
    result: int = getattr(trouble, "sqlite_errorcode", sqlite3.SQLITE_ERROR)
    if result == sqlite3.SQLITE_IOERR_SHMSIZE:  # no room left for the index of the log
        return "full"
    return SQLITE.get(result & PRIMARY, "failed")


@contextmanager
def told_by_code(path: Path) -> Iterator[None]:
    """Turns trouble with the file at `path` into a BookProblem."""
    try:
        yield
    except (sqlite3.Error, OSError) as trouble:
        raise BookProblem(code_of(trouble), path) from trouble
    except UnicodeDecodeError as trouble:  # SQLite quotes what it can't read
        raise BookProblem("damaged", path) from trouble
