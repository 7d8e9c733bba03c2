"""What people know a card by."""

from dataclasses import dataclass

from assistant.book.book import Book
from assistant.book.searching import Search


@dataclass(frozen=True, slots=True)
class CardName:
    """The number on a card (its conversation's id), its day, and what it is about.

    Of a card that is lost, what is not known is empty.
    """

    number: str
    day: str = ""
    drill: str = ""
    crop: str = ""
    lot: str = ""


NAMES = Search("SELECT id, talk, at, drill, crop, lot FROM card ORDER BY moment DESC, id DESC")


def names_of(book: Book) -> dict[str, CardName]:
    """The names of all cards of a book by their ids, newest first."""
    return {
        card_id: CardName(talk, at[:10], *about) for card_id, talk, at, *about in book.rows(NAMES)
    }
