"""Backups of the book: made after each finished job, checked, thinned out, and listed.

They lie in a folder beside the book, each named after the book and the moment it was made.
"""

import re
from collections.abc import Callable, Iterable
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from assistant.book.book import PATIENCE, Book
from assistant.book.opening import connect, identify, ready
from assistant.book.problems import BookProblem, told_by_code
from assistant.book.replacing import CARDS, MOMENT, check, copy_into, dated, half_made, move

FOLDER = "backups"
MINUTE, DAY = timedelta(minutes=1), timedelta(days=1)
LARGE = 20_000_000  # bytes

Span = Callable[[datetime], tuple[int, ...]]
KEPT: tuple[tuple[int, Span], ...] = (
    (7, lambda moment: (moment.toordinal(),)),
    (4, lambda moment: moment.isocalendar()[:2]),
    (12, lambda moment: (moment.year, moment.month)),
)


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup: where it lies, when it was made, and its cards; none when it can't be read."""

    path: Path
    made: datetime
    cards: int | None


def folder_of(path: Path) -> Path:
    """Where the backups of the book at `path` lie."""
    return path.resolve().parent / FOLDER


def back_up(book: Book, now: datetime) -> Path:
    """Makes a backup, checks it, and takes away those that are not kept; returns where it is.

    Nothing has its name before it is whole. Raises BookProblem: `damaged` when what was copied is
    not as it was written.
    """
    home = book.path.resolve()
    with told_by_code(book.path):
        folder = folder_of(home)
        folder.mkdir(mode=0o700, exist_ok=True)
        backup = dated(folder / home.name, "", now)
        with half_made(backup) as part:
            cards = book.rows(CARDS)[0][0]
            copy_into(book.store, part)
            check(part, cards)
            move(part, backup)
        thin_out(home)
    return backup


def kept(moments: Iterable[datetime]) -> set[datetime]:
    """Which backups stay: the newest of each of the last 7 days, 4 weeks and 12 months.

    Only days, weeks and months that have a backup count, so a winter without a job costs none.
    Thinning out after each backup keeps just what thinning out once at the end would keep.
    """
    newest_first = sorted(moments, reverse=True)
    stay: set[datetime] = set()
    for most, span in KEPT:
        newest: dict[tuple[int, ...], datetime] = {}
        for moment in newest_first:
            newest.setdefault(span(moment), moment)
        stay |= set(list(newest.values())[:most])
    return stay


def thin_out(path: Path) -> None:
    """Takes away the backups of the book at `path` that are not kept."""
    made = made_when(path)
    stay = kept(made.values())
    for backup, moment in made.items():
        if moment not in stay:
            backup.unlink(missing_ok=True)


def made_when(path: Path) -> dict[Path, datetime]:
    """The backups of the book at `path`, newest first, and when each was made."""
    home = path.resolve()
    pattern = re.compile(
        rf"{re.escape(home.stem)}-(\d{{4}}-\d\d-\d\dT\d{{6}}Z){re.escape(home.suffix)}"
    )
    made: dict[Path, datetime] = {}
    for file in sorted(folder_of(home).glob("*"), reverse=True):
        named = pattern.fullmatch(file.name)
        moment = moment_of(named[1]) if named else None
        if moment:
            made[file] = moment
    return made


def moment_of(text: str) -> datetime | None:
    """The moment in a name; none for one that no clock shows."""
    try:
        return datetime.strptime(text, MOMENT).replace(tzinfo=UTC)
    except ValueError:
        return None


def due(path: Path, now: datetime, *, scripted: bool) -> bool:
    """Whether a finished job calls for a backup: always, but for two cases.

    Scripts may finish many a minute; and a book of some thousand cards takes seconds to check.
    """
    with told_by_code(path):
        large = path.stat().st_size > LARGE
    apart = DAY if large else MINUTE if scripted else timedelta()
    return not any(timedelta() <= now - moment < apart for moment in made_when(path).values())


def backups_of(path: Path) -> list[Backup]:
    """The backups of the book at `path`, newest first."""
    return [Backup(each, moment, cards_in(each)) for each, moment in made_when(path).items()]


def cards_in(backup: Path) -> int | None:
    """How many cards a backup holds; none when it can't be read."""
    try:
        with told_by_code(backup):
            identify(backup)
            with closing(ready(connect(backup, "ro", PATIENCE))) as store:
                (count,) = store.execute(CARDS.sql).fetchone()
    except BookProblem:
        return None
    return int(count)
