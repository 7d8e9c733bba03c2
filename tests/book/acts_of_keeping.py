"""What keeps a book safe, for the tests that let every step of it fail."""

import shutil
from pathlib import Path

from assistant.book.backups import back_up, backups_of
from assistant.book.book import Book
from assistant.book.opening import beside
from assistant.book.salvage import salvage, sound
from assistant.book.verifying import verify
from tests.book.faults import Act
from tests.book.samples import DAWN, a_talk, fill, made_id

CARDS = 3
BACKUP = """
from assistant.book.backups import back_up
from assistant.book.book import Book
from tests.book.samples import DAWN

def act(folder, say):
    with Book.open(folder / "book.db") as book:
        back_up(book, DAWN)
        say("kept backup")
"""
RESTORE = """
from assistant.book.backups import backups_of
from assistant.book.restoring import restore
from tests.book.samples import DAWN

def act(folder, say):
    path = folder / "book.db"
    restore(backups_of(path)[0].path, path, DAWN)
    say("kept restored")
"""
SALVAGE = """
from assistant.book.salvage import salvage
from tests.book.samples import DAWN

def act(folder, say):
    salvage(folder / "book.db", DAWN)
    say("kept saved")
"""
ERASE = """
from assistant.book.book import Book
from assistant.book.erasing import erase
from tests.book.samples import made_id

def act(folder, say):
    with Book.open(folder / "book.db") as book:
        erase(book, {made_id(20)})
        say("kept erased")
"""


def cards_in(path: Path) -> int:
    """How many cards a sound book holds."""
    with Book.open(path) as book:
        assert verify(book) == []
        return len(book.cards())


def filled(folder: Path) -> None:
    """A book with some cards."""
    with Book.open(folder / "book.db") as book:
        fill(book, CARDS)


def backup_is_whole_or_not_there(folder: Path, said: list[str]) -> None:
    """The book is as it was; no backup has its name before it is whole."""
    assert cards_in(folder / "book.db") == CARDS
    backups = [each.cards for each in backups_of(folder / "book.db")]
    assert backups == [CARDS] or (backups == [] and said != ["kept backup"])


def went_on(folder: Path) -> None:
    """A book with a backup, and one job more since."""
    filled(folder)
    with Book.open(folder / "book.db") as book:
        back_up(book, DAWN)
        book.start(a_talk(500))


def damaged(folder: Path) -> None:
    """The same, its book cut short."""
    went_on(folder)
    path = folder / "book.db"
    path.write_bytes(path.read_bytes()[:50])


def talks_in(path: Path) -> int:
    """How many conversations a sound book holds."""
    with Book.open(path) as book:
        assert verify(book) == []
        return sum(book.talk(made_id(number)) is not None for number in (0, 20, 40, 500))


def old_or_restored(folder: Path, said: list[str]) -> None:
    """The book is the old one or the backup; once it is the backup, the old one lies aside."""
    talks = talks_in(folder / "book.db")
    assert talks == CARDS or (talks == CARDS + 1 and said != ["kept restored"])
    if talks == CARDS:
        (aside,) = folder.glob("book.before-restore-*.db")
        assert talks_in(aside) == CARDS + 1


def damaged_or_restored(folder: Path, said: list[str]) -> None:
    """The same where the old one is damaged."""
    path = folder / "book.db"
    if sound(path):
        assert talks_in(path) == CARDS
        (aside,) = folder.glob("book.before-restore-*.db")
        assert aside.stat().st_size == 50
    else:
        assert path.stat().st_size == 50
        assert said != ["kept restored"]


def damaged_with_a_log(folder: Path) -> None:
    """A book whose last conversation stands only in the log, with a page of an index lost."""
    filled(folder)
    path, left = folder / "book.db", folder / "left"
    with Book.open(path) as book:
        book.start(a_talk(500))
        left.mkdir()
        for ending in ("", "-wal"):
            shutil.copyfile(beside(path, ending), beside(left / path.name, ending))
    content = bytearray((left / path.name).read_bytes())
    root = content.rindex(b"Old green") // 4096
    content[root * 4096 : (root + 1) * 4096] = bytes(4096)
    path.write_bytes(content)
    shutil.copyfile(beside(left / path.name, "-wal"), beside(path, "-wal"))
    shutil.rmtree(left)


def damaged_or_saved(folder: Path, said: list[str]) -> None:
    """The book is saved, or still damaged and then saved by the next try, with all of its log."""
    path = folder / "book.db"
    if not sound(path):
        assert said != ["kept saved"]
        salvage(path, DAWN)
    assert talks_in(path) == CARDS + 1
    assert list(folder.glob("book.damaged-*.db"))


def old_or_erased(folder: Path, said: list[str]) -> None:
    """The book is the old one or the one without a card, and nothing else holds its rows."""
    cards = cards_in(folder / "book.db")
    assert cards == CARDS - 1 or (cards == CARDS and said != ["kept erased"])
    left = [each.name for each in folder.iterdir() if ".part" not in each.name]
    assert left == ["book.db"]


ACTS = (
    Act("a backup", BACKUP, filled, backup_is_whole_or_not_there),
    Act("a restore", RESTORE, went_on, old_or_restored),
    Act("a restore over damage", RESTORE, damaged, damaged_or_restored),
    Act("a salvage", SALVAGE, damaged_with_a_log, damaged_or_saved),
    Act("an erasure", ERASE, filled, old_or_erased),
)
