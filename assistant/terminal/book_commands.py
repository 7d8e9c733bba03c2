"""The commands on the book: what each takes, and who does it. Their modules come when they run."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from assistant.terminal import exchange, safety, shelf
from assistant.terminal.desk import Desk


@dataclass(frozen=True, slots=True)
class BookCommand:
    """A command on the book.

    `help` names its help text; `typed` says what else is typed, and how often as argparse has it.
    """

    do: Callable[[Desk], int]
    help: str
    flags: tuple[str, ...] = ()
    options: tuple[str, ...] = ()
    typed: Mapping[str, str | None] = field(default_factory=dict)


def compare(desk: Desk) -> int:
    """Why one card differs from another."""
    from assistant.terminal.comparison import book_compare

    return book_compare(desk)


def note(desk: Desk) -> int:
    """Keep a note with a card."""
    from assistant.terminal.notes import book_note

    return book_note(desk)


def verify(desk: Desk) -> int:
    """Check the book."""
    from assistant.terminal.proof import book_verify

    return book_verify(desk)


def erase(desk: Desk) -> int:
    """Erase a card or a drill."""
    from assistant.terminal.erasing import book_erase

    return book_erase(desk)


ONE_CARD = {"id": "?"}
LIKE = ("--drill", "--crop", "--lot", "--since", "--until", "--last")

COMMANDS: Mapping[str, BookCommand] = {
    "list": BookCommand(shelf.book_list, "list", ("--all",), LIKE),
    "find": BookCommand(shelf.book_find, "list", ("--all",), typed={"words": "+"}),
    "show": BookCommand(shelf.book_show, "show", typed=ONE_CARD),
    "card": BookCommand(shelf.book_card, "card", options=("--page",), typed=ONE_CARD),
    "compare": BookCommand(compare, "compare", typed={"ids": "*"}),
    "note": BookCommand(note, "note", typed={"id": None, "words": "+"}),
    "verify": BookCommand(verify, "verify", typed=ONE_CARD),
    "erase": BookCommand(erase, "erase", ("--yes",), ("--drill",), ONE_CARD),
    "export": BookCommand(
        exchange.book_export, "export", ("--csv",), ("--drill",), typed={"file": "?"}
    ),
    "import": BookCommand(exchange.book_import, "import", typed={"file": None}),
    "where": BookCommand(shelf.book_where, "where"),
    "backup": BookCommand(safety.book_backup, "backup"),
    "mend": BookCommand(safety.book_mend, "mend"),
    "restore": BookCommand(safety.book_restore, "restore", ("--yes",), typed={"file": "?"}),
}
"""Every command on the book by its name."""
