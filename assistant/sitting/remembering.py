"""What a card of the book lends to a new conversation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from assistant.book.records import StoredCard
from assistant.dialogue.job import Job
from assistant.dialogue.log import CardOffer, Told
from assistant.dialogue.walk import LAST_TIME
from assistant.dialogue.wording import say

MOST = 5


def offers(
    job: Job, cards: Iterable[StoredCard], wanted: Mapping[str, str]
) -> tuple[CardOffer, ...]:
    """At most five cards, newest first, each cut down to what is wanted."""
    return tuple(offer_of(job, card, wanted) for card in list(cards)[:MOST])


def offer_of(job: Job, card: StoredCard, wanted: Mapping[str, str]) -> CardOffer:
    """One card: a line to know it by, and the facts that it lends."""
    facts: Mapping[str, Any] = card.facts
    told = tuple(
        Told(name, settled, origin=LAST_TIME)
        for name, source in wanted.items()
        if (settled := lent(facts, source))
    )
    shown = {
        name: str(facts.get(name, {}).get("shown", job.word("review.not_known")))
        for name in ("row_count", "row_spacing", "distance_per_turn")
    }
    line = say(job, "recall.line", date=card.at[:10], crop=card.crop, lot=card.lot, **shown)
    return CardOffer(card.id, line, told)


def lent(facts: Mapping[str, Any], source: str) -> str:
    """The settled spelling that a card lends; "=x" lends x itself."""
    if source.startswith("="):
        return source[1:]
    return str(facts.get(source, {}).get("settled", ""))
