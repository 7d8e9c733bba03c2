"""Named texts: for the open question, as a script gives them, or told before theirs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from assistant.answers.expect import Doubt, Refusal
from assistant.answers.read import read
from assistant.answers.slips import judge
from assistant.dialogue.answering import entry_of, expect_of, proposed, told_of
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import Answered, Entry, GivenEarly, Told
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.questions import proposals
from assistant.dialogue.trouble import doubtful, refused


def supplied(job: Job, state: State, values: Mapping[str, str]) -> Outcome:
    """Named texts for the open question, each read on its own; a proposal fills the rest."""
    open_ = state.situation.open
    taken = proposals(job, state)
    entries: list[Entry] = []
    for name in open_.facts if open_ else ():
        variant = next((v for v in job.fact(name).variants.values() if v in values), name)
        if variant not in values:
            if name in taken:
                entries.append(proposed(job, state, name, taken))
            continue
        reading = read(expect_of(job, state, variant), values[variant])
        if isinstance(reading, Refusal):
            return refused(job, state, name, reading)
        if isinstance(reading, Doubt):
            return doubtful(job, state, name, reading, values[variant])
        judged = judge(expect_of(job, state, variant), reading)
        if isinstance(judged, Refusal):
            return refused(job, state, reading.fact, judged)
        entries.append(
            entry_of(job, state, name, reading, values[variant], sure=judged is not None)
        )
    return Outcome((Answered(tuple(entries)),))


def given(job: Job, state: State, values: Mapping[str, str], origin: str) -> Outcome:
    """Named texts told early; raises nothing: what can't be read is refused."""
    told: list[Told] = []
    for name, text in values.items():
        reading = read(expect_of(job, state, name), text)
        if isinstance(reading, Refusal):
            return refused(job, state, name, reading)
        if isinstance(reading, Doubt):
            return doubtful(job, state, name, reading, text)
        judged = judge(expect_of(job, state, name), reading)
        if isinstance(judged, Refusal):
            return refused(job, state, reading.fact, judged)
        early = told_of(job, name, reading, text, sure=judged is not None)
        told.append(replace(early, origin=origin or early.origin, given=True))
    return Outcome((GivenEarly(tuple(told)),))
