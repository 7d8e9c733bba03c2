"""Coming back after a pause: where one was, what the drill should stand like, what to ask again."""

from __future__ import annotations

import re

from assistant.dialogue.fold import LIMITS, replayed
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import LENT, Entry, Log, Record, Resumed, WentStale, fold
from assistant.dialogue.messages import Message, ReviewLine, Say
from assistant.dialogue.review import label_of, line_of, targets
from assistant.dialogue.situation import holds
from assistant.dialogue.wording import say

SPAN = re.compile(r"(\d+) (h|days?)")
HOUR, DAY = 3600, 86_400
SETTLED = {"review", "ended", "fetch", "offer", "corrected"}
"""Open kinds at which nothing in the yard is in the making."""


def seconds(span: str) -> float:
    """A length of time such as "2 h" or "3 days", in seconds. Raises ValueError for any other."""
    told = SPAN.fullmatch(span)
    if told is None:
        raise ValueError(span)
    return int(told[1]) * (HOUR if told[2] == "h" else DAY)


def come_back(
    job: Job, log: Log, before: tuple[Record, ...], away: float, corrects: str = ""
) -> tuple[State, tuple[Message, ...], tuple[Record, ...]]:
    """The state of a conversation taken up after `away` seconds, what is said, and the records.

    `before` are records that a changed flow brings.
    """
    back = Resumed(corrects)
    records: tuple[Record, ...] = (*before, back)
    left, said = replayed(job, fold(records, log))
    told = whereabouts(job, left)
    stale = went_stale(job, left, away)
    if not stale:
        return left, (*told, *said), records
    records = (*before, WentStale(stale), back)
    state, said = replayed(job, fold(records, log))
    names = ", ".join(label_of(job, each.fact) for each in stale)
    again = Say(say(job, "resume.stale", names=names))
    return state, (*told, *reminders(job, left), again, *said), records


def whereabouts(job: Job, state: State) -> tuple[Message, ...]:
    """What was done last, and the state that the machine should be in."""
    open_, last = state.situation.open, last_told(job, state)
    if open_ is None or open_.kind in SETTLED:
        return ()
    lines = [say(job, "resume.last", name=last.label, value=last.value)] if last else []
    lines += filter(None, [job.graph[open_.place].state])
    return tuple(Say(line) for line in lines)


def last_told(job: Job, state: State) -> ReviewLine | None:
    """What the person settled last; what a card lent was nobody's answer."""
    own = [each for each in targets(job, state.situation) if each.entry.origin not in LENT]
    return line_of(job, state, 0, own[-1]) if own else None


def reminders(job: Job, state: State) -> tuple[Message, ...]:
    """The short line of each stop caution at the place that was left.

    The whole caution comes before that place; what is asked again first is asked beside it too.
    """
    open_ = state.situation.open
    hazards = job.graph[open_.place].step.exposes if open_ else ()
    due = (job.caution(hazard) for hazard in hazards)
    stops = [each for each in due if each.grade == "stop" and holds(each.only, state.situation)]
    return tuple(Say(each.short) for each in stops)


def went_stale(job: Job, state: State, away: float) -> tuple[Entry, ...]:
    """The answers that may no longer hold after so many seconds.

    A row of a series is what happened, and what a card lent was not asked: these never go stale.
    Nor does anything once the review is reached, or in a correction: the catches are made.
    """
    open_ = state.situation.open
    if open_ is None or open_.kind in SETTLED or state.log.corrects:
        return ()
    return tuple(each for each in state.situation.used if is_stale(job, each, away))


def is_stale(job: Job, entry: Entry, away: float) -> bool:
    """Whether an answer is of a fact that goes stale in less time than the pause took."""
    if entry.fact not in job.graph.facts or entry.place == LIMITS or entry.origin in LENT:
        return False
    after = job.fact(entry.fact).stale_after
    return bool(after) and job.graph.home(entry.fact) is None and away > seconds(after)
