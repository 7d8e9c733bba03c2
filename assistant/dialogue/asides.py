"""Plain questions, a unit, an old card: each is answered, leaves no trace, and the question is put again."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.asked import Asked
from assistant.answers.by_number import by_number
from assistant.answers.convert import converted
from assistant.dialogue.job import Job, Moment, State
from assistant.dialogue.messages import Message, Offer, OldCard, Say, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.walk import DRILL
from assistant.dialogue.wording import say

NEAR = "near"


def aside(state: State, *messages: Message) -> Outcome:
    """Say something, change nothing; the open question comes again."""
    return Outcome(said=messages, state=replace(state, moment=None))


def asked_of(job: Job) -> Asked:
    """The declared questions, read when the first one is looked for."""
    clues = {name: each["asked"] for name, each in job.library.questions().items()}
    return Asked(clues, **job.library.asking())


def answered(job: Job, state: State, text: str) -> Outcome | None:
    """The answer to what certainly is a plain question; None if the line may answer ours."""
    asked = asked_of(job)
    if not asked.looks_like_one(text):
        return None
    if name := asked.sure(text):
        return told(job, state, name)
    open_ = state.situation.open
    takes_any_text = open_ is not None and any(job.fact(n).kind == "text" for n in open_.facts)
    if takes_any_text and (text.rstrip().endswith("?") or asked.near(text)):
        return not_sure(job, state, asked.near(text))
    return None


def refused_one(job: Job, state: State, text: str, refused: Outcome) -> Outcome:
    """What else a refused line may be: a plain question, or else it stays refused."""
    if refused.records or not any(isinstance(each, Trouble) for each in refused.said):
        return refused
    asked = asked_of(job)
    if name := asked.sure(text):
        return told(job, state, name)
    return not_sure(job, state, asked.near(text)) if asked.looks_like_one(text) else refused


def told(job: Job, state: State, name: str) -> Outcome:
    """The declared answer."""
    return aside(state, Say(job.library.questions()[name]["answer"]))


def not_sure(job: Job, state: State, near: tuple[str, ...]) -> Outcome:
    """That it is not known, with the few questions that it may have been."""
    if not near:
        return aside(state, Say(say(job, "asked.unknown")))
    choices = tuple(job.library.questions()[name]["about"] for name in near)
    offer = Offer(say(job, "asked.near"), choices, say(job, "asked.ask"))
    return Outcome(said=(offer,), state=replace(state, moment=Moment(NEAR, near)))


def near_taken(job: Job, state: State, near: tuple[str, ...], text: str) -> Outcome | None:
    """One of the few by its number; Enter leaves them; any other line is no answer to this."""
    at = by_number(text.strip(" .!").lower(), len(near))
    if at is not None:
        return told(job, state, near[at])
    return None if text.strip() else aside(state)


def in_other_unit(job: Job, state: State, text: str) -> Outcome | None:
    """A value in another unit, or None if the line does not want one."""
    found = converted(text)
    if found is None:
        return None
    key = "convert.is" if found.shown else "convert.none"
    return aside(state, Say(say(job, key, given=found.given, shown=found.shown)))


def old_card(state: State, sought: str) -> Outcome:
    """The card of an id, else the newest one of this drill, as the shell finds it."""
    return aside(state, OldCard(sought, state.situation.choice(DRILL)))
