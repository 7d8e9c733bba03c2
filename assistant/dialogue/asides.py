"""Plain questions, a unit, an old card: each is answered and leaves no trace."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from assistant.answers.asked import Asked, is_name
from assistant.answers.by_number import by_number
from assistant.answers.convert import converted
from assistant.answers.fitting import is_choice
from assistant.answers.yes_no import yes_no
from assistant.dialogue.expecting import expect
from assistant.dialogue.job import Job, Moment, State
from assistant.dialogue.messages import Message, Offer, Say, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.wording import HOLE, filled, say
from assistant.flow.model import Fact

NEAR = "near"
FEWEST = 3
"""How many words a remark has at the least; one word alone is an answer that was not read."""


def aside(state: State, *messages: Message) -> Outcome:
    """Say something, change nothing; the open question comes again."""
    return Outcome(said=messages, state=replace(state, moment=None))


@lru_cache(maxsize=1)
def asked_of(asides: Callable[[], tuple[Mapping[str, Any], Mapping[str, Any]]]) -> Asked:
    """The plain questions of a library, read when the first line may ask one, and kept."""
    return Asked(*asides())


def answered(job: Job, state: State, text: str) -> Outcome | None:
    """The answer to what certainly is a plain question; None if the line may answer ours."""
    asked = asked_of(job.library.asides)
    any_text = any(fact.kind == "text" for fact in facts_open(job, state))
    if not asked.looks_like_one(text) or (any_text and is_name(text)):
        return None
    if names_choice(job, state, text):
        return None
    is_one = asked.sure(text) or asked.must_be_one(text, any_text_fits=any_text)
    return best_answer(job, state, asked, text) if is_one else None


def names_choice(job: Job, state: State, text: str) -> bool:
    """Whether a line is a choice of the open question in full: "How much, or how thick"."""
    open_choices = (fact.name for fact in facts_open(job, state) if fact.kind == "choice")
    expects = (expect(job, state.log, state.situation, name) for name in open_choices)
    return any(is_choice(each, text) for each in expects)


def not_refused(job: Job, state: State, text: str, heard: Outcome) -> Outcome:
    """What a line came to; a refused one may be a plain question instead."""
    if heard.records or not any(isinstance(each, Trouble) for each in heard.said):
        return heard
    asked = asked_of(job.library.asides)
    is_one = asked.words_ask(text) or (is_remark(job, state, text) and asked.sure(text))
    return best_answer(job, state, asked, text) if is_one else heard


def is_remark(job: Job, state: State, text: str) -> bool:
    """Whether a refused line can't have been meant as an answer.

    It has some words, no number and no name of what is asked, and there is no choice to make.
    """
    words = text.lower().split()
    facts = facts_open(job, state)
    named = any(name in words for fact in facts for name in fact.names)
    choice = any(fact.kind == "choice" for fact in facts)
    spoken = len(words) >= FEWEST and not any(map(str.isdigit, text))
    return spoken and not named and not choice


def facts_open(job: Job, state: State) -> list[Fact]:
    """The facts of the open question, with those that an answer to one of them may settle."""
    open_ = state.situation.open
    facts = [job.fact(name) for name in (open_.facts if open_ else ())]
    return facts + [job.fact(name) for fact in facts for name in fact.variants.values()]


def best_answer(job: Job, state: State, asked: Asked, text: str) -> Outcome:
    """The declared answer; where none is sure the few questions near it, or that none is known."""
    if name := asked.sure(text):
        return aside(state, Say(told_now(job, state, asked, name)))
    near = asked.near(text)
    if not near:
        return aside(state, Say(say(job, "aside.unknown")))
    offer = Offer(say(job, "aside.near"), tuple(map(asked.about, near)), say(job, "aside.ask"))
    answers = tuple(told_now(job, state, asked, each) for each in near)
    return Outcome(said=(offer,), state=replace(state, moment=Moment(NEAR, answers)))


def told_now(job: Job, state: State, asked: Asked, name: str) -> str:
    """The answer with the values that it names, or what is said before all of these are known."""
    text, at = asked.answer(name), state.situation
    if not HOLE.search(text):
        return text
    node = job.graph[at.place]
    known = [at.known.get(node.real(hole)) for hole in HOLE.findall(text)]
    if any(each is None or each.value is None for each in known):
        return asked.before(name)
    return filled(job, state.log, at, node, text)


def near_taken(state: State, answers: tuple[str, ...], text: str) -> Outcome | None:
    """One of the few by its number; Enter or no leaves them; None for any other line."""
    at = by_number(text.strip(" .!").lower(), len(answers))
    if at is not None:
        return aside(state, Say(answers[at]))
    return aside(state) if not text.strip() or yes_no(text) is False else None


def in_other_unit(job: Job, state: State, text: str) -> Outcome | None:
    """A value in another unit, or None if the line does not want one."""
    if not (found := converted(text)):
        return None
    key = "convert.is" if found.shown else "convert.none"
    return aside(state, Say(say(job, key, given=found.given, shown=found.shown)))
