"""Which conversations are about a drill: those with its card, and those that were left."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.wanted import Wanted
from assistant.dialogue.log import Log, Told, fold
from assistant.dialogue.walk import CARD, DRILL
from assistant.sitting.sitting import records_of

EVERY = 1_000_000_000


def lent(log: Log) -> Iterator[Told]:
    """What the cards that were taken in a conversation lend."""
    taken = {entry.settled for entry in log.entries if entry.fact == CARD}
    for offer in log.offers:
        yield from (told for card in offer.cards if card.id in taken for told in card.facts)


def about(book: Book, drill: str) -> set[str]:
    """Ids of the conversations about a drill, capitals aside. Raises BookProblem.

    One without a card is about the drill that was told last in it.
    """
    cards = book.find(Wanted(drill=drill, scripted=True), EVERY)
    found = {card.talk for card in cards}
    for talk in book.without_card():
        with suppress(BookProblem, KeyError, TypeError):  # what can't be read names no drill
            log = fold(records_of(book, talk.id))
            names = {entry.settled for entry in log.entries if entry.fact == DRILL}
            names |= {told.settled for told in lent(log) if told.fact == DRILL}
            if drill.casefold() in {name.casefold() for name in names}:
                found.add(talk.id)
    return found
