"""What keeps the book safe, on the screen: backups, putting one back, and a damaged book."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.terminal.commands import amiss
from assistant.terminal.desk import Desk, now
from assistant.terminal.leaving import TROUBLE
from assistant.terminal.reading import on_terminal
from assistant.terminal.screen import filled, tell

if TYPE_CHECKING:
    from assistant.book.backups import Backup
    from assistant.book.book import Book
    from assistant.book.naming import CardName
    from assistant.book.problems import BookProblem
    from assistant.book.restoring import Difference
    from assistant.book.salvage import Saved

MOST_NAMED = 10
LEAVE, SAVE, RESTORE = "leave", "save", "restore"


def say(desk: Desk, name: str, /, **holes: object) -> str:
    """A sentence with its holes filled."""
    return filled(desk.library.words[name], **{hole: str(each) for hole, each in holes.items()})


def place(desk: Desk) -> Path:
    """Where the book lies."""
    from assistant.book.places import book_path

    return book_path(desk.options.book, os.environ)


# -- backups ----------------------------------------------------------------------------------


def back_up_after(desk: Desk, book: Book) -> None:
    """A backup after a finished job. When it does not work, the job is finished all the same."""
    from assistant.book.backups import back_up, due
    from assistant.book.problems import BookProblem

    try:
        if due(book.path, now(), scripted=desk.scripted):
            back_up(book, now())
    except BookProblem as problem:
        tell(not_made(desk, problem), sys.stderr)
    except KeyboardInterrupt:
        tell(say(desk, "backup.stopped"), sys.stderr)


def book_backup(desk: Desk) -> int:
    """Make a backup now, and say where it is."""
    from assistant.book.backups import back_up
    from assistant.book.problems import BookProblem

    if not desk.keeps:
        return amiss(desk, "backup.no_book")
    book = desk.open_book()
    try:
        tell(say(desk, "backup.made", path=back_up(book, now())))
    except BookProblem as problem:
        tell(not_made(desk, problem), sys.stderr)
        return TROUBLE
    return 0


def not_made(desk: Desk, problem: BookProblem) -> str:
    """Why there is no backup."""
    if problem.code == "damaged":
        return say(desk, "backup.not_whole")
    words = desk.library.words
    why = words.get(f"backup.why_{problem.code}", words["backup.why_failed"])
    return say(desk, "backup.not_made", why=why)


# -- putting a backup back --------------------------------------------------------------------


def book_restore(desk: Desk) -> int:
    """Put a backup in the place of the book: the one that was named, else one from the list."""
    if not desk.keeps:
        return amiss(desk, "backup.no_book")
    path = place(desk)
    if desk.options.file:
        return put_back(desk, path, Path(desk.options.file).expanduser())
    from assistant.book.backups import backups_of

    backups = backups_of(path)
    if not backups:
        return amiss(desk, "restore.none")
    if not on_terminal():
        for each in backups:
            tell(f"{backup_line(desk, each)}: {each.path}")
        return 0
    chosen = choice(
        desk, "restore.title", [(backup_line(desk, each), str(each.path)) for each in backups]
    )
    return put_back(desk, path, Path(chosen)) if chosen else unchanged(desk)


def backup_line(desk: Desk, backup: Backup) -> str:
    """When a backup was made, and how many cards it holds."""
    name = "restore.unreadable" if backup.cards is None else "restore.line"
    made = backup.made
    return say(desk, name, day=f"{made:%Y-%m-%d}", time=f"{made:%H:%M}", count=backup.cards)


def put_back(desk: Desk, path: Path, backup: Path) -> int:
    """Tell what would change, ask, and do it."""
    from assistant.book.problems import BookProblem
    from assistant.book.restoring import difference, restore

    try:
        tell("\n".join(difference_lines(desk, difference(path, backup))))
        if not desk.options.yes:
            if not on_terminal():
                return amiss(desk, "restore.needs_yes")
            if not agreed(desk, "restore"):
                return unchanged(desk)
        aside = restore(backup, path, now())
    except BookProblem as problem:
        if problem.path != backup.resolve():
            raise
        tell(say(desk, "restore.no_backup", path=backup), sys.stderr)
        return TROUBLE
    tell(say(desk, "restore.done"))
    if aside:
        tell(say(desk, "restore.aside", path=aside))
    return 0


def difference_lines(desk: Desk, found: Difference) -> Iterator[str]:
    """What the book has that the backup lacks, and the other way round."""
    if not found.compared:
        yield say(desk, "restore.no_compare")
    for name, cards in (("lacks", found.lacks), ("adds", found.adds)):
        if cards:
            yield say(desk, f"restore.{name}", count=len(cards))
            yield from card_lines(desk, cards)
    if found.left:
        yield say(desk, "restore.left", count=found.left)
    if found.compared and not (found.lacks or found.adds or found.left):
        yield say(desk, "restore.same")


def card_lines(desk: Desk, cards: Sequence[CardName]) -> Iterator[str]:
    """Cards by name, a line each; of many the first."""
    for card in cards[:MOST_NAMED]:
        about = (card.day, card.drill, card.crop, card.lot)
        yield say(desk, "restore.card", about=" ".join(filter(None, about)), id=card.number)
    yield from more_line(desk, cards)


def more_line(desk: Desk, named: Sequence[object]) -> Iterator[str]:
    """How many more there are than were named."""
    if len(named) > MOST_NAMED:
        yield say(desk, "restore.more", count=len(named) - MOST_NAMED)


def agreed(desk: Desk, act: str) -> bool:
    """Whether the word for an act was typed, after the question stood there."""
    word = desk.library.words[f"{act}.word"]
    desk.screen.ask(say(desk, f"{act}.ask", word=word))
    reader = desk.reader
    reader.forget_keys()
    try:
        return reader.read().strip(" .!").lower() == word
    except EOFError:
        return False


# -- a damaged book ---------------------------------------------------------------------------


def book_mend(desk: Desk) -> int:
    """Set a damaged book aside and save what is whole in it."""
    from assistant.book.salvage import sound

    path = place(desk)
    if not desk.keeps or not path.exists():
        return amiss(desk, "backup.no_book")
    if sound(path):
        tell(say(desk, "mend.sound"))
        return 0
    save_whole(desk, path)
    return 0


def save_whole(desk: Desk, path: Path) -> None:
    """Save what is whole, and tell what came of it."""
    from assistant.book.backups import backups_of
    from assistant.book.salvage import salvage

    saved = salvage(path, now())
    tell("\n".join(saved_lines(desk, saved)))
    if (saved.lost or saved.talks or saved.cut or saved.notes) and backups_of(path):
        tell(say(desk, "mend.backups"))


def saved_lines(desk: Desk, saved: Saved) -> Iterator[str]:
    """How much was saved, and what is lost by name, as far as known."""
    yield say(desk, "mend.saved", cards=saved.cards, jobs=saved.conversations)
    if saved.lost:
        yield say(desk, "mend.lost", count=len(saved.lost))
        yield from card_lines(desk, saved.lost)
    for name, ids in (("lost_jobs", saved.talks), ("cut", saved.cut)):
        if ids:
            yield say(desk, f"mend.{name}", count=len(ids))
            yield from (f"- {each}" for each in ids[:MOST_NAMED])
            yield from more_line(desk, ids)
    if saved.notes:
        yield say(desk, "mend.notes", count=saved.notes)
    if not (saved.lost or saved.talks or saved.cut or saved.notes):
        yield say(desk, "mend.nothing_lost")
    yield say(desk, "mend.aside", path=saved.aside)


def offered(desk: Desk, problem: BookProblem) -> bool:
    """Ask what to do about a damaged book; whether there is a new one now."""
    lines = [(desk.library.words[f"mend.{name}"], name) for name in (SAVE, RESTORE, LEAVE)]
    match choice(desk, "mend.title", lines, path=problem.path):
        case "save":
            save_whole(desk, problem.path)
            return True
        case "restore":
            return book_restore(desk) == 0
    return False


def choice(desk: Desk, title: str, lines: Iterable[tuple[str, str]], **holes: object) -> str:
    """What was chosen from a numbered list; empty when nothing was."""
    from assistant.terminal.menu import Wish, pick

    wishes = [(line, Wish("", name)) for line, name in lines]
    try:
        return pick(desk.screen, desk.reader, say(desk, title, **holes), wishes).about
    except EOFError:
        return ""


def unchanged(desk: Desk) -> int:
    """It was left as it is, on purpose."""
    tell(say(desk, "restore.unchanged"))
    return 0
