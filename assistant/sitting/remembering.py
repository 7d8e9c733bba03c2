"""What the cards of the book, and the jobs that wait in it, lend to a new conversation."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache
from itertools import islice
from typing import Any

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.records import StoredCard
from assistant.dialogue.job import Job, job_of
from assistant.dialogue.log import LAST_GUESS, LAST_TIME, CardOffer, Told
from assistant.dialogue.messages import Fetch, OldCard, Say
from assistant.dialogue.walk import DRILL, SOUGHT
from assistant.dialogue.wording import say
from assistant.flow.model import Fact
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import spell
from assistant.quantities.units import factor
from assistant.sitting.making import card_facts
from assistant.sitting.replaying import UNREADABLE, replay

MOST = 5
BY_ID = "rechecked"
"""The fact that holds the id of a card."""

SOUGHT_BY = (DRILL, "lot", "crop")
"""The facts whose words find a card or a job."""

TYPED_DIGITS, WORKED_DIGITS = 7, 4
"""Digits of a number that a card holds without its spelling: as it was typed, or worked out."""

Stored = Mapping[str, Any]  # a fact as a card holds it


def offers(job: Job, book: Book, fetch: Fetch, *, scripted: bool) -> tuple[CardOffer, ...]:
    """At most five cards that a fetch asks for, newest first, each cut down to what is wanted."""
    if fetch.waiting:
        waiting = (offer_of(job, each, fetch) for each in waiting_jobs(job, book, fetch.match))
        first = next(iter(fetch.wanted))
        return tuple(islice((o for o in waiting if first in {t.fact for t in o.facts}), MOST))
    cards = list(found(book, fetch.match, scripted=scripted))[:MOST]
    return tuple(offer_of(job, card, fetch) for card in cards)


def waiting_jobs(job: Job, book: Book, match: Mapping[str, str]) -> Iterator[StoredCard]:
    """What each job that waits knows so far, as a card would have it; the last talked in first.

    Where some words are sought, those of a drill, a lot or a crop of that name. One that can't be
    worked out today is passed over: `drillside resume` tells what is wrong with it.
    """
    held_in = cache(lambda name: job_of(job.library, name, job.calculations))
    for talk in book.unfinished():
        try:
            held = replay(held_in(talk.job), book, talk)
        except (BookProblem, *UNREADABLE):
            continue
        facts = card_facts(held.job, held.state)
        drill, lot, crop = (str(facts.get(name, {}).get("shown", "")) for name in SOUGHT_BY)
        if match.get(SOUGHT, "").casefold() in {"", *map(str.casefold, (drill, lot, crop))}:
            yield StoredCard(
                id=talk.id,
                talk=talk.id,
                at=talk.started,
                job=talk.job,
                drill=drill,
                crop=crop,
                lot=lot,
                outcome="",
                scripted=False,
                facts=facts,
            )


def found(book: Book, match: Mapping[str, str], *, scripted: bool) -> Iterable[StoredCard]:
    """The card of an id, those that some words mean, those of a drill, else one of each drill."""
    if BY_ID in match:
        card = book.card(match[BY_ID])
        return [card] if card else []
    if SOUGHT in match:
        return sought(book, match[SOUGHT], scripted=scripted)
    if DRILL in match:
        return book.cards(match[DRILL], include_scripted=scripted, limit=MOST)
    drills = book.drills(include_scripted=scripted)[:MOST]
    return [
        card for name in drills for card in book.cards(name, include_scripted=scripted, limit=1)
    ]


def sought(book: Book, words: str, *, scripted: bool) -> list[StoredCard]:
    """The card of an id, or the cards of a drill, a lot or a crop of that name."""
    card = book.card(words)
    if card:
        return [card]
    for by in SOUGHT_BY:
        cards = book.cards(**{by: words}, include_scripted=scripted, limit=MOST)
        if cards:
            return cards
    return []


def old_card(job: Job, book: Book | None, wanted: OldCard) -> Say:
    """The lines of the card of an id, else of the newest card of a drill, else of all."""
    found: list[StoredCard] = []
    if book and wanted.sought:
        found = sought(book, wanted.sought, scripted=False)
    elif book:
        found = book.cards(wanted.drill or None, limit=1)
    return Say("\n".join(map(str, found[0].lines)) if found else say(job, "old_card.none"))


def offer_of(job: Job, card: StoredCard, fetch: Fetch) -> CardOffer:
    """One card: a line to know it by, and the facts that it lends."""
    told = (lent(job, card, name, source) for name, source in fetch.wanted.items())
    shown = {
        name: str(stored(card, name).get("shown", job.word("review.not_known")))
        for name in ("row_count", "row_spacing", "distance_per_turn")
    }
    turned = stored(card, "distance_per_turn").get("value") is not None
    of_rows = "recall.line" if turned else "recall.line_of_rows"
    form = of_rows if DRILL in fetch.match else "recall.line_of_drill"
    line = say(
        job, form, date=card.at[:10], drill=card.drill, crop=card.crop, lot=card.lot, **shown
    )
    return CardOffer(card.id, line, tuple(each for each in told if each))


def lent(job: Job, card: StoredCard, name: str, source: str) -> Told | None:
    """What a card lends for a fact: "=x" is x itself, "#" the card's id, else the first known."""
    if source.startswith("="):
        return Told(name, source[1:], origin=LAST_TIME)
    if source == "#":
        return Told(name, card.talk, origin=LAST_TIME)
    for each in source.split():
        fact = stored(card, each)
        if fact.get("value") is not None:
            kind = str(stored(card, f"{each}_kind").get("value", ""))
            variant = job.fact(name).variants.get(kind, "")
            typed = job.library.facts[each.rpartition(".")[2]].ask
            digits = TYPED_DIGITS if typed else WORKED_DIGITS
            settled = spelling(job.fact(variant or name), fact, digits)
            origin = LAST_GUESS if fact.get("guess") else LAST_TIME
            return Told(name, settled, variant, origin=origin)
    return None


def stored(card: StoredCard, name: str) -> Stored:
    """A fact of a card; nothing where it has none."""
    fact = card.facts.get(name, {})
    return fact if isinstance(fact, Mapping) else {}


def spelling(fact: Fact, held: Stored, digits: int) -> str:
    """The settled spelling of a stored fact; of a result, its number to so many digits."""
    value = held["value"]
    if held.get("settled") or isinstance(value, str):
        return str(held.get("settled") or value)
    unit = "%" if KINDS[fact.kind].form == "percent" else fact.us or fact.metric
    return spell(Fraction(f"{value / factor(unit) if unit else value:.{digits}g}"), unit)
