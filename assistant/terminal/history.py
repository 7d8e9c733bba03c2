"""What became of a card: notes on it, what it corrects and what corrects it, what made it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from assistant.flow.model import Library
from assistant.terminal.screen import filled

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.records import StoredCard


def history_lines(library: Library, book: Book, card: StoredCard) -> Iterator[str]:
    """Notes, corrections with what they changed and why, and the program and flow."""
    words = library.words
    for note in book.notes(card.id):
        yield filled(words["history.note"], date=note.at[:10], text=note.text)
    newer = card
    for older in corrected_by(book, card):
        what = because(library, book, newer, changes(library, older, newer))
        yield filled(words["history.corrects"], id=older.talk, what=what)
        newer = older
    older = card
    for newer in corrections_of(book, card):
        what = because(library, book, newer, changes(library, older, newer))
        yield filled(words["history.corrected"], id=newer.talk, what=what)
        yield from (
            filled(words["history.note"], date=note.at[:10], text=note.text)
            for note in book.notes(newer.id)
        )
    talk = book.talk(card.talk)
    if talk:
        yield filled(words["history.made"], program=talk.program, job=talk.job, shape=talk.shape)


def corrected_by(book: Book, card: StoredCard) -> Iterator[StoredCard]:
    """The cards that a card stands in place of, the nearest first."""
    seen = {card.talk}
    talk = book.talk(card.talk)
    while talk and talk.follows and talk.follows not in seen:
        seen.add(talk.follows)
        older = book.card(talk.follows)
        if older:
            yield older
        talk = book.talk(talk.follows)


def corrections_of(book: Book, card: StoredCard) -> Iterator[StoredCard]:
    """The cards that stand in place of a card itself, in the order they were made."""
    for talk in book.following(card.talk):
        newer = book.card(talk.id)
        if newer:
            yield newer


def because(library: Library, book: Book, card: StoredCard, what: str) -> str:
    """What a card changed of the one before, with the reason that was given for it."""
    from assistant.dialogue.log import fold
    from assistant.sitting.sitting import records_of

    why = fold(records_of(book, card.talk)).reason
    return filled(library.words["history.because"], what=what, why=why) if why else what


def changes(library: Library, old: StoredCard, new: StoredCard) -> str:
    """What was told otherwise, in one line; worked-out facts are left out."""
    told = [
        filled(
            library.words["compare.line"],
            name=label(library, name),
            new=shown(new, name) or library.words["compare.none"],
            old=shown(old, name) or library.words["compare.none"],
        )
        for name in told_otherwise(library, old, new)
    ]
    return "; ".join(told) or library.words["history.nothing"]


def told_otherwise(library: Library, old: StoredCard, new: StoredCard) -> Iterator[str]:
    """Facts that people were asked for and that the two cards show differently."""
    for name in dict.fromkeys((*new.facts, *old.facts)):
        fact = library.facts.get(name.rpartition(".")[2])
        if fact and fact.ask and shown(old, name) != shown(new, name):
            yield name


def label(library: Library, name: str) -> str:
    """What a fact is called, with its half; its own name where no flow has it."""
    use, _, bare = name.rpartition(".")
    fact = library.facts.get(bare)
    told = fact.label if fact else name
    frame = library.words.get(f"uses.{use}", "")
    return filled(frame, name=told) if frame else told


def shown(card: StoredCard, name: str) -> str:
    """A fact as the card shows it, empty where it was not told or is not known."""
    fact = card.facts.get(name)
    if not isinstance(fact, Mapping) or fact.get("value") is None:
        return ""
    return str(fact.get("shown", ""))
