"""Opens the file of the book, or says by code why not. What is not ours stays as it is.

A look at the first bytes and a look through a connection that cannot write come before the
connection that can.
"""

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path
from typing import Literal

from assistant.book.problems import BookProblem, Code, code_of, told_by_code
from assistant.book.schema import APPLICATION_ID, VERSION, added_after, made_in

# The database file format, www.sqlite.org/fileformat.html, section 1.3.
MAGIC = b"SQLite format 3\x00"
HEADER_BYTES = 100
VERSION_AT = slice(60, 64)
APPLICATION_AT = slice(68, 72)

CHECKED_BELOW = 2_000_000  # bytes: a look at every page of a larger book would be felt
Mode = Literal["ro", "rw"]


def open_file(path: Path, patience: float) -> tuple[sqlite3.Connection, bool]:
    """A connection to the book at `path`, made when missing, and whether it only reads.

    `patience` is how many seconds to wait for another program. Raises BookProblem.
    """
    with told_by_code(path):
        make_room(path)
        path = path.resolve()
        new = identify(path)
        if not new:
            look_through(path, patience)
        if not may_write(path):
            return readable(path, patience), True
        return ready(writable(path, patience)), False


def make_room(path: Path) -> None:
    """Makes the folder and an empty file, both for the owner only, unless they are there."""
    if path.exists():
        return
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))
    except OSError as trouble:
        code = code_of(trouble)
        raise BookProblem("full" if code == "full" else "no_folder", path) from trouble


def identify(path: Path) -> bool:
    """Whether the file is empty and so a new book; raises BookProblem when it is not ours."""
    if not path.is_file():
        raise BookProblem("not_a_database", path)
    with path.open("rb") as file:
        header = file.read(HEADER_BYTES)
    if not header:
        return True
    if beside(path, "-journal").exists() and not header.strip(b"\0"):
        return False  # the power went while the book was made: SQLite undoes it
    if not header.startswith(MAGIC):
        raise BookProblem("not_a_database", path)
    if len(header) < HEADER_BYTES:
        raise BookProblem("damaged", path)
    if int.from_bytes(header[APPLICATION_AT], "big") != APPLICATION_ID:
        raise BookProblem("foreign", path)
    version = int.from_bytes(header[VERSION_AT], "big")
    if version > VERSION:
        raise BookProblem("newer", path)
    return False


def connect(path: Path, mode: Mode, patience: float) -> sqlite3.Connection:
    """A connection that starts no transaction of its own and never makes a file."""
    address = f"{path.as_uri()}?mode={mode}"
    return sqlite3.connect(address, uri=True, isolation_level=None, timeout=patience)


def look_through(path: Path, patience: float) -> None:
    """Raises BookProblem `damaged` when SQLite finds the file unsound; writes nothing.

    A book that was being written when the power went is put right by SQLite first, which needs
    a connection that may write.
    """
    mode: Mode = "rw" if beside(path, "-journal").exists() and may_write(path) else "ro"
    with closing(ready(connect(path, mode, patience))) as store:
        try:
            store.execute("BEGIN")  # of what another program makes: all of it, or nothing
            version = version_of(store)
            whole = is_whole(store, path, version)
        except sqlite3.DatabaseError as trouble:
            raise BookProblem(code_of_look(trouble), path) from trouble
    if version > VERSION:  # told by the log, not yet by the file
        raise BookProblem("newer", path)
    if not whole:
        raise BookProblem("damaged", path)


def code_of_look(trouble: sqlite3.Error) -> Code:
    """The code for what SQLite reports of a file that calls itself a book of ours.

    SQLite has no own code for tables whose making it can no longer read.
    """
    result = getattr(trouble, "sqlite_errorcode", sqlite3.SQLITE_ERROR)
    code = code_of(trouble)
    return "damaged" if code == "not_a_database" or result == sqlite3.SQLITE_ERROR else code


def is_whole(store: sqlite3.Connection, path: Path, version: int) -> bool:
    """Whether the book has all that it was made with and, if it is small, every page is sound."""
    found = dict(store.execute("SELECT name, sql FROM sqlite_master"))
    size = path.stat().st_size
    if not found and not size:  # its making was cut short and has just been undone
        return True
    ours = dict.fromkeys(made_in(VERSION)) | made_in(version)
    if not version or {name: found.get(name) for name in made_in(VERSION)} != ours:
        return False
    return size >= CHECKED_BELOW or store.execute("PRAGMA quick_check(1)").fetchone() == ("ok",)


def beside(path: Path, ending: str) -> Path:
    """A file that SQLite keeps beside the book while it is open."""
    return path.with_name(path.name + ending)


def may_write(path: Path) -> bool:
    """Whether the book can be written: its file, and its folder, where SQLite needs another."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK | os.X_OK)


def readable(path: Path, patience: float) -> sqlite3.Connection:
    """A connection that only reads; tables that a later format added are there, and empty."""
    store = ready(connect(path, "ro", patience))
    store.execute("PRAGMA temp_store = MEMORY")
    for statement in added_after(version_of(store)):
        if statement.startswith("CREATE TABLE"):
            store.execute(statement.replace("TABLE", "TEMP TABLE", 1))
    return store


def writable(path: Path, patience: float) -> sqlite3.Connection:
    """A connection that writes, to a book that has its tables and syncs at each commit."""
    with suppress(PermissionError):  # another user's book, open to us
        path.chmod(0o600)
    store = connect(path, "rw", patience)
    store.execute("PRAGMA synchronous = FULL")
    store.execute("PRAGMA fullfsync = ON")  # macOS: through the disk's own cache too
    make_tables(store)
    if not keep_log(store):
        store.execute("PRAGMA synchronous = EXTRA")  # the folder is synced at each commit too
    return store


def make_tables(store: sqlite3.Connection) -> None:
    """Makes the tables that the book lacks in one transaction: all of them, or a newer format's."""
    if version_of(store) >= VERSION:
        return
    store.execute("BEGIN IMMEDIATE")
    try:
        for statement in added_after(version_of(store)):  # another may have been quicker
            store.execute(statement)
        store.execute(f"PRAGMA user_version = {VERSION}")
        store.execute("COMMIT")
    except sqlite3.Error:
        if store.in_transaction:
            store.execute("ROLLBACK")
        raise


def version_of(store: sqlite3.Connection) -> int:
    """The format of the book, written with its tables; 0 when it is yet to be made."""
    version: int = store.execute("PRAGMA user_version").fetchone()[0]
    return version


def keep_log(store: sqlite3.Connection) -> bool:
    """Turns to the write-ahead log: one sync a commit; whether that was possible."""
    try:
        (mode,) = store.execute("PRAGMA journal_mode = WAL").fetchone()
    except sqlite3.OperationalError:  # another program is reading just now, or no shared memory
        return False
    return bool(mode == "wal")


def ready(store: sqlite3.Connection) -> sqlite3.Connection:
    """The connection, trusting nothing that the file brings along."""
    store.execute("PRAGMA trusted_schema = OFF")
    store.execute("PRAGMA cell_size_check = ON")
    # Bytes that are no text must not stop a reader: the row's hash tells that they are wrong.
    store.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
    return store


def one_file_again(store: sqlite3.Connection) -> None:
    """Folds the log back into the file, unless another program has the book open."""
    try:
        store.execute("PRAGMA busy_timeout = 0")
        store.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.Error:  # the last one to close does it
        return
