"""Puts a new file in the place of a book, so that a kill at any step leaves the old or the new.

What stood there is copied aside first and never deleted.
"""

import os
import shutil
import sqlite3
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

from assistant.book.book import PATIENCE, Book
from assistant.book.opening import beside, connect
from assistant.book.problems import BookProblem, code_of
from assistant.book.searching import Search
from assistant.book.verifying import verify

PART = ".part"
STALE = 3600  # seconds: a half-made file this old belongs to a run that was killed
LOGS = ("-wal", "-journal")
NEAR = ("-shm", *LOGS)
MOMENT = "%Y-%m-%dT%H%M%SZ"  # sorts, and no system minds its signs
CARDS = Search("SELECT count(*) FROM card")


def dated(path: Path, word: str, now: datetime) -> Path:
    """The name of a book with a word and a moment in it: `book.damaged-2031-04-14T053000Z.db`."""
    return path.with_name(f"{path.stem}{word}-{now.astimezone(UTC).strftime(MOMENT)}{path.suffix}")


@contextmanager
def half_made(path: Path) -> Iterator[Path]:
    """An empty file beside `path`, for its owner only; gone at the end unless it was moved."""
    sweep(path)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=PART, dir=path.parent)
    os.close(handle)
    part = Path(name)
    try:
        yield part
    finally:
        for ending in ("", *NEAR):
            beside(part, ending).unlink(missing_ok=True)


def sweep(path: Path) -> None:
    """Clears away what killed runs left half made."""
    for left in path.parent.glob(f".{glob_safe(path.name)}.*{PART}*"):
        with suppress(OSError):  # another run has just cleared it away
            if time.time() - left.stat().st_mtime > STALE:
                left.unlink()


def glob_safe(name: str) -> str:
    """A name whose signs mean themselves in a pattern."""
    return "".join(f"[{sign}]" if sign in "*?[" else sign for sign in name)


def copy_into(store: sqlite3.Connection, part: Path) -> None:
    """Copies an open book into the file `part`, as it is at one moment; others may write on."""
    with closing(connect(part, "rw", PATIENCE)) as copy:
        store.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")


def check(part: Path, cards: int) -> None:
    """Opens a copy and looks at every row. Raises BookProblem when it is not whole.

    `cards` is how many there must be at least.
    """
    with Book.open(part) as copy:
        if verify(copy) or copy.rows(CARDS)[0][0] < cards:
            raise BookProblem("damaged", part)
        # Closing does this too, but takes it lightly when it fails.
        copy.store.execute("PRAGMA journal_mode = DELETE")


def move(part: Path, path: Path) -> None:
    """Gives a finished file its name; on disk when it returns."""
    if any(beside(part, ending).exists() for ending in LOGS):
        raise BookProblem("failed", part)  # what stands in the log would stay behind
    sync(part)
    os.replace(part, path)  # noqa: PTH105  the one step that decides, held still by tests
    sync(path.parent)


def sync(path: Path) -> None:
    """Sees a file or a folder through to the disk; a folder only where the system can."""
    if path.is_dir() and os.name == "nt":
        return
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def set_aside(path: Path, word: str, now: datetime) -> Path:
    """Copies a book, byte for byte, with its logs, to a new name beside it; returns the name."""
    aside = free(path, word, now)
    made: list[Path] = []
    try:
        for ending in ("", *LOGS):
            if beside(path, ending).exists():
                made.append(beside(aside, ending))
                copied(beside(path, ending), made[-1])
    except OSError:
        for half in made:
            half.unlink(missing_ok=True)
        raise
    sync(path.parent)
    return aside


def free(path: Path, word: str, now: datetime) -> Path:
    """A dated name beside a book that no file has yet."""
    name = dated(path, word, now)
    for number in count(2):
        if not any(beside(name, ending).exists() for ending in ("", *LOGS)):
            break
        name = dated(path, f"{word}-{number}", now)
    return name


def copied(source: Path, target: Path) -> None:
    """Copies the bytes of a file for its owner only; never over a file that is there."""
    handle = os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
    with source.open("rb") as old, os.fdopen(handle, "wb") as new:
        shutil.copyfileobj(old, new)
    sync(target)


def fold(path: Path) -> None:
    """Folds a log that lies beside a book into it, by way of a copy that then takes its place.

    The same log over the folded book changes nothing, so a kill on the way does no harm. A log
    that SQLite can't fold stays.
    """
    if not any(beside(path, ending).exists() for ending in LOGS):
        return
    with half_made(path) as part:
        for ending in ("", *LOGS):
            if beside(path, ending).exists():
                shutil.copyfile(beside(path, ending), beside(part, ending))
        try:
            with closing(connect(part, "rw", PATIENCE)) as copy:
                copy.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
                copy.execute("PRAGMA schema_version").fetchone()  # undoes what was half written
        except sqlite3.DatabaseError as trouble:
            if code_of(trouble) in {"damaged", "not_a_database"}:
                return
            raise
        move(part, path)
        forget_logs(path)


def forget_logs(path: Path) -> None:
    """Takes away the logs of a book: they must not be read into the one that comes after it."""
    for ending in NEAR:
        beside(path, ending).unlink(missing_ok=True)
    sync(path.parent)


def take_place(part: Path, path: Path) -> None:
    """Puts a checked new book in the place of one that lies aside with its logs."""
    forget_logs(path)
    move(part, path)
