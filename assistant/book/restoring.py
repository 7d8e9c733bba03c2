"""Puts a backup in the place of the book, and tells before what that would change."""

from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from assistant.book.book import PATIENCE, Book
from assistant.book.naming import CardName, names_of
from assistant.book.opening import beside, connect, identify, look_through
from assistant.book.problems import BookProblem, told_by_code
from assistant.book.replacing import check, copy_into, fold, half_made, set_aside, take_place
from assistant.book.searching import Search

WORD = ".before-restore"
REPLACEABLE = {"damaged", "not_a_database"}
TALKS = Search("SELECT id FROM talk")


@dataclass(frozen=True, slots=True)
class Difference:
    """What the book has that a backup lacks, and the other way round; cards by name.

    `compared` is whether the book could be read at all. `left` is how many conversations without
    a card the backup lacks.
    """

    compared: bool
    lacks: list[CardName]
    adds: list[CardName]
    left: int


def difference(path: Path, backup: Path) -> Difference:
    """How a backup differs from the book at `path`. Raises BookProblem for the backup."""
    there = copied_contents(backup)
    here = contents(path) if path.exists() else ({}, set())
    names, talks = here or ({}, set())
    lacks = {card: name for card, name in names.items() if card not in there[0]}
    left = talks - there[1] - {name.number for name in lacks.values()}
    adds = [name for card, name in there[0].items() if card not in names]
    return Difference(here is not None, list(lacks.values()), adds, len(left))


def contents(path: Path) -> tuple[dict[str, CardName], set[str]] | None:
    """The cards and conversations of the book at `path`; none when it is damaged."""
    try:
        with Book.open(path) as book:
            return names_of(book), {talk for (talk,) in book.rows(TALKS)}
    except BookProblem as problem:
        if problem.code not in REPLACEABLE:
            raise
    return None


def copied_contents(backup: Path) -> tuple[dict[str, CardName], set[str]]:
    """The cards and conversations of a backup, which is only read."""
    backup = backup.resolve()
    with told_by_code(backup):
        if not backup.is_file() or identify(backup):
            raise BookProblem("not_a_database", backup)
        look_through(backup, PATIENCE)
        with closing(connect(backup, "ro", PATIENCE)) as store:
            copy = Book(store, backup, read_only=True)
            return names_of(copy), {talk for (talk,) in copy.rows(TALKS)}


def restore(backup: Path, path: Path, now: datetime) -> Path | None:
    """Puts a copy of `backup` in the place of the book at `path`.

    Returns where the book lies that was there, none when there was none. Raises BookProblem and
    leaves the book as it was: for a backup that is not whole, for a book that another program has
    open, and for a file that is another program's.
    """
    backup, path = backup.resolve(), path.resolve()
    cards = len(copied_contents(backup)[0])
    with told_by_code(path):
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with half_made(path) as part:
            with told_by_code(backup), closing(connect(backup, "ro", PATIENCE)) as store:
                copy_into(store, part)
            check(part, cards)
            at_rest(path)
            aside = set_aside(path, WORD, now) if path.exists() else None
            fold(path)
            take_place(part, path)
    return aside


def at_rest(path: Path) -> None:
    """Folds the book's log into it. Raises BookProblem when the book may not be replaced."""
    if not path.exists():
        return
    try:
        with Book.open(path) as book:
            read_only = book.read_only
    except BookProblem as problem:
        if problem.code not in REPLACEABLE:
            raise
        return
    if read_only:
        raise BookProblem("read_only", path)
    if beside(path, "-wal").exists():  # the last one to close would have folded it
        raise BookProblem("locked", path)
