"""Half-asked things: which of two readings, is that right, do it or leave it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from assistant.answers.by_number import by_number
from assistant.answers.expect import Refusal, Settled, Unusual
from assistant.answers.fitting import is_choice, is_usual
from assistant.answers.slips import judge
from assistant.answers.yes_no import agrees, yes_no
from assistant.dialogue.answering import entry_of, expect_of, proposed
from assistant.dialogue.asides import NEAR, near_taken
from assistant.dialogue.changing import (
    NEW_VALUE,
    UNDER,
    ask_under,
    change_settled,
    new_value,
    under_answered,
)
from assistant.dialogue.commands import command
from assistant.dialogue.foretelling import PREVIEW, finish_change, preview
from assistant.dialogue.in_passing import FITS, taken
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import Answered, Changed, Entry, Record
from assistant.dialogue.messages import Say
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.questions import ends_row, proposals
from assistant.dialogue.review import Target
from assistant.dialogue.trouble import DOUBT, UNUSUAL, refused, unusual
from assistant.dialogue.wording import say


def settle_moment(job: Job, state: State, text: str) -> Outcome | None:
    """Answer what was half-asked, or None if the line is about something else."""
    moment = state.moment
    if moment is None:
        return None
    plain = replace(state, moment=None)
    one = len(moment.options) == 1
    if moment.kind in {DOUBT, UNUSUAL} and not text.strip():
        return Outcome(said=(Say(say(job, "doubt.yes" if one else "doubt.ask")),), state=state)
    if moment.kind == DOUBT and one:
        agreed = take(job, plain, DOUBT, moment.options[0], moment.text) if yes_no(text) else None
        return agreed or left(job, plain, text)
    if moment.kind in {DOUBT, UNUSUAL}:
        chosen = option(moment.options, text, kept_by(job) if moment.kind == UNUSUAL else "")
        return take(job, plain, moment.kind, chosen, moment.text) if chosen else None
    if moment.kind == FITS:
        return taken(job, moment) if yes_no(text) else left(job, plain, text)
    if moment.kind == NEAR:
        return near_taken(plain, moment.options, text)
    if moment.kind == NEW_VALUE:
        return valued(job, plain, moment.options[0], text)
    if moment.kind == PREVIEW:
        return (
            previewed(job, plain, moment.options, text)
            or command(job, plain, text)
            or because(job, plain, moment.options, text)
            or another_value(job, plain, moment.options[0], text)
            or preview(job, plain, moment.options)
        )
    if moment.kind == UNDER:
        settled = under_answered(job, plain, moment, text)
        return settled or command(job, plain, text) or ask_under(job, plain, *moment.options)
    return None


def left(job: Job, state: State, text: str) -> Outcome | None:
    """A no leaves all as it is."""
    said_no = yes_no(text) is False
    return Outcome(said=(Say(say(job, "change.left")),), state=state) if said_no else None


def valued(job: Job, state: State, target: Target, text: str) -> Outcome:
    """The new value of a change; no leaves it, and the words that work everywhere work here too."""
    outcome = new_value(job, state, target, text)
    if outcome.state is None or outcome.state.misread == state.misread:
        return outcome
    if yes_no(text) is False:
        return Outcome(said=(Say(say(job, "change.left")),), state=state)
    return command(job, state, text) or outcome


def kept_by(job: Job) -> str:
    """The word that keeps an unusual value: the one that its option begins with."""
    return job.word("unusual.keep").partition("{")[0].strip().lower()


def option(options: tuple[Any, ...], text: str, keep: str) -> Any:
    """The option that a number stands for; yes and the word to keep by stand for the first."""
    plain = text.strip(" .!").lower()
    at = by_number(plain, len(options))
    if at is not None:
        return options[at]
    if keep and plain and (agrees(plain) or plain == keep):
        return options[0]
    return None


def take(job: Job, state: State, kind: str, chosen: tuple[Any, Settled], text: str) -> Outcome:
    """Take the reading chosen; a reading out of range is asked about in its turn."""
    name, found = chosen
    if not isinstance(name, str):
        return change_settled(job, state, name, found, text)
    judged = judge(expect_of(job, state, name), found)
    if isinstance(judged, Refusal):
        return refused(job, state, found.fact, judged)
    if isinstance(judged, Unusual) and kind == DOUBT:
        return unusual(job, state, name, found, judged, text)
    entry = entry_of(job, state, name, found, text, sure=isinstance(judged, Unusual))
    return Outcome((Answered((*settings_beside(job, state, name), entry)),))


def settings_beside(job: Job, state: State, name: str) -> Iterator[Entry]:
    """The proposed setting that goes with a reading alone: set as proposed."""
    open_, taken = state.situation.open, proposals(job, state)
    for other in open_.facts if open_ and ends_row(job, name) else ():
        if other != name and other in taken:
            yield proposed(job, state, other, taken)


MOST_OF_A_REASON = 200


def because(job: Job, state: State, records: tuple[Any, ...], text: str) -> Outcome | None:
    """Why a finished record is corrected, in the person's words: it does the change too."""
    words = " ".join(text.split())[:MOST_OF_A_REASON]
    if not state.log.corrects or not any(map(str.isalpha, words)):
        return None
    first, *more = records
    return finish_change(job, (replace(first, reason=words), *more))


def another_value(job: Job, state: State, record: Record, text: str) -> Outcome | None:
    """Another value for what is about to be changed: that is foretold in its turn."""
    if not isinstance(record, Changed):
        return None
    wanted = expect_of(job, state, record.entry.fact)
    fits = is_usual(wanted, text) or is_choice(wanted, text)
    return new_value(job, state, Target(record.entry), text) if fits else None


def previewed(job: Job, state: State, records: tuple[Any, ...], text: str) -> Outcome | None:
    """Enter or yes does the change, no leaves all as it is."""
    said = yes_no(text)
    if not text.strip() or said:
        return finish_change(job, records)
    if said is False:
        return Outcome(said=(Say(say(job, "change.left")),), state=state)
    return None
