"""A card proves itself: its conversation is worked out again, and every fact of it compared.

What differs is damage, or a fault of the program, unless something is known to have changed since:
a formula, a question, or the words.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import zip_longest
from math import isclose
from typing import Any, Literal

from assistant import __version__
from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.book.records import StoredCard
from assistant.card.text import card_text
from assistant.dialogue.job import Job
from assistant.flow.graph import words_of
from assistant.sitting.making import card_facts, makers, revision_of
from assistant.sitting.replaying import UNREADABLE, Replay, replay

Verdict = Literal["same", "rounding", "changed", "moved_on", "not_again", "damaged"]
WORST: tuple[Verdict, ...] = ("damaged", "not_again", "moved_on", "changed", "rounding", "same")
NINE_DIGITS = 1e-9
"""Another computer may sum in another order; what differs by less than this is no other result."""
NOTHING = 1e-15
"""What is left of a difference that should be zero, in SI."""
TOLD = {"shown", "from"}
"""What is made of words, not of numbers."""
MADE = {"by", "revision"}
LINE, OUTCOME = "line", "outcome"


@dataclass(frozen=True, slots=True)
class Difference:
    """Something that the card holds otherwise than it is worked out now.

    `fact` is its name, or `line` with its number in `key`, or `outcome`. The revisions are those of
    a formula that has moved on, `formula` its name.
    """

    verdict: Verdict
    fact: str
    key: str
    held: str
    now: str
    formula: str = ""
    then_revision: int = 0
    now_revision: int = 0


@dataclass(frozen=True, slots=True)
class Proof:
    """What became of a card that was worked out again."""

    verdict: Verdict
    differences: tuple[Difference, ...] = ()


def prove(job: Job, book: Book, card: StoredCard) -> Proof:
    """Work a card out again and compare. Raises BookProblem when the book can't be searched."""
    talk = book.talk(card.talk)
    if talk is None:
        return Proof("damaged")
    try:
        again = replay(job, book, talk)
    except BookProblem:
        return Proof("damaged")
    except UNREADABLE:
        return Proof("damaged" if talk.program == __version__ else "not_again")
    if again.finish is None:
        return Proof("damaged" if stands_still(card, again) else "not_again")
    found = tuple(differences(card, again))
    return Proof(worst(each.verdict for each in found), found)


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The gravest of some verdicts."""
    found = {*verdicts, "same"}
    return next(verdict for verdict in WORST if verdict in found)


def stands_still(card: StoredCard, again: Replay) -> bool:
    """Whether neither a question nor a formula of the card has changed since."""
    return again.same_questions and not moved_on(card)


def moved_on(card: StoredCard) -> dict[str, tuple[int, int]]:
    """The calculations of a card that have another revision today: then and now, by their name."""
    held: dict[str, set[int]] = {}
    for fact in card.facts.values():
        if isinstance(fact, Mapping) and isinstance(fact.get("revision"), int):
            held.setdefault(str(fact.get("by")), set()).add(fact["revision"])
    return {
        name: (min(then), revision_of(name))
        for name, then in held.items()
        if len(then) == 1 and then != {revision_of(name)}  # two at once were never true
    }


def differences(card: StoredCard, again: Replay) -> Iterator[Difference]:
    """Everything that the card holds otherwise: facts, lines, outcome, what it is searched by."""
    held, now = card.facts, as_held(card_facts(again.job, again.state))
    news = News(card, again)
    for name in [*held, *(name for name in now if name not in held)]:
        yield from fact_differences(name, held.get(name), now.get(name), news)
    for name in ("drill", "crop", "lot"):
        was, shown = getattr(card, name), str(now.get(name, {}).get("shown", ""))
        if was != shown:
            yield Difference(news.told, name, "shown", was, shown)
    outcome = again.finish.outcome if again.finish else ""
    if outcome != card.outcome:
        yield Difference(news.any_fact, OUTCOME, "", card.outcome, outcome)
    for number, (was, is_now) in enumerate(zip_longest(card.lines, lines_of(card, again)), 1):
        if was != is_now:
            yield Difference(news.told, LINE, str(number), str(was or ""), str(is_now or ""))


def as_held(facts: Mapping[str, Any]) -> dict[str, Any]:
    """Facts as the book gives them back."""
    found: dict[str, Any] = json.loads(json.dumps(facts))
    return found


def lines_of(card: StoredCard, again: Replay) -> list[str]:
    """The lines of the card as they are made now."""
    text = card_text(
        again.job,
        again.state,
        outcome=card.outcome,
        date=card.at[:10],
        number=card.talk,
        follows=again.talk.follows or "",
    )
    return text.split("\n")


class News:
    """What has changed since a card was made, so that a difference is explained."""

    def __init__(self, card: StoredCard, again: Replay) -> None:
        self.moved = moved_on(card)
        self.same_questions = again.same_questions
        known = again.state.situation.known
        self.inputs = {name: each.inputs for name, each in known.items()}
        self.made = {n: node.step.what[0] for n, node in makers(again.job, again.state).items()}
        same_words = again.talk.words == words_of(again.job.library)
        same_words = same_words and again.talk.program == __version__
        self.any_fact: Verdict = "moved_on" if self.moved else self._else_damaged()
        self.told: Verdict = self.any_fact if same_words or self.moved else "changed"

    def _else_damaged(self) -> Verdict:
        return "damaged" if self.same_questions else "changed"

    def formula(self, name: str) -> str:
        """The formula that has moved on, of those that a fact rests on; empty where none has."""
        seen, ahead = set[str](), [name]
        while ahead:
            each = ahead.pop()
            if self.made.get(each, "") in self.moved:
                return self.made[each]
            seen.add(each)
            ahead += set(self.inputs.get(each, ())) - seen
        return ""

    def verdict(self, name: str, key: str) -> Verdict:
        """What a difference in a fact comes from, whatever its size."""
        if self.formula(name):
            return "moved_on"
        if key in TOLD:
            return self.told
        return self._else_damaged() if self.inputs.get(name) else "damaged"


def fact_differences(name: str, held: Any, now: Any, news: News) -> Iterator[Difference]:
    """What one fact says otherwise."""
    if not isinstance(held, Mapping) or not isinstance(now, Mapping):
        yield Difference(news.any_fact, name, "", shown_of(held), shown_of(now))
        return
    old_card = "by" not in held  # made before cards named their formulas
    for key in [*held, *(key for key in now if key not in held)]:
        was, is_now = held.get(key), now.get(key)
        if was == is_now or (old_card and key in MADE):
            continue
        verdict = news.verdict(name, key)
        if verdict == "damaged" and news.inputs.get(name) and close(was, is_now):
            verdict = "rounding"
        formula = news.formula(name)
        revisions = news.moved.get(formula, (0, 0))
        yield Difference(verdict, name, key, plain(was), plain(is_now), formula, *revisions)


def close(one: Any, other: Any) -> bool:
    """Whether two values are the same number to nine digits, or lists of such numbers."""
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(close, one, other))
    numbers = isinstance(one, float) and isinstance(other, float)
    return numbers and isclose(one, other, rel_tol=NINE_DIGITS, abs_tol=NOTHING)


def shown_of(fact: Any) -> str:
    """How a fact is shown, empty for one that is not there."""
    return str(fact.get("shown", "")) if isinstance(fact, Mapping) else plain(fact)


def plain(value: Any) -> str:
    """A value of a card as text, empty for none."""
    return "" if value is None else str(value)
