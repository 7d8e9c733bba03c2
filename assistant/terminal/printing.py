"""The page to print: one card written to a file, or to standard output."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.sitting.plain_text import harmless
from assistant.terminal.leaving import TROUBLE, USAGE
from assistant.terminal.screen import filled, tell

if TYPE_CHECKING:
    from assistant.book.records import StoredCard
    from assistant.terminal.desk import Desk

STANDARD_OUTPUT = "-"


def print_page(desk: Desk, card: StoredCard, target: str) -> int:
    """Write the page of a card; a file that is there already stays as it is."""
    from assistant.card.page import page_text

    talk = desk.open_book().talk(card.talk)
    page = page_text(desk.library, card, follows=(talk.follows if talk else None) or "")
    sheet = in_plain_signs(page)
    if target == STANDARD_OUTPUT:
        sys.stdout.write(sheet)
        sys.stdout.flush()
        return 0
    words = desk.library.words
    try:
        with Path(target).open("x", encoding="ascii") as file:
            file.write(sheet)
    except FileExistsError:
        tell(filled(words["page.there"], path=target), sys.stderr)
        return USAGE
    except (OSError, ValueError) as trouble:
        why = getattr(trouble, "strerror", None) or str(trouble)
        tell(filled(words["page.unwritten"], path=target, why=why), sys.stderr)
        return TROUBLE
    tell(filled(words["page.written"], path=target))
    return 0


def in_plain_signs(page: str) -> str:
    """A page without control characters, its signs beyond ASCII as HTML names them by number.

    So the page is the same whatever a terminal or a pipe takes its bytes for.
    """
    return harmless(page).encode("ascii", "xmlcharrefreplace").decode("ascii")
