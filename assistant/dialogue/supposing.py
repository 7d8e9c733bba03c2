"""`what if 20`: what another answer would do. Nothing is kept, and the question comes again."""

from __future__ import annotations

from assistant.answers.passing import supposed_part, without
from assistant.answers.text import listed
from assistant.dialogue.answering import answer
from assistant.dialogue.asides import aside
from assistant.dialogue.changing import UNDER, new_value
from assistant.dialogue.fold import applied
from assistant.dialogue.foretelling import PREVIEW, effects
from assistant.dialogue.in_passing import correction
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import Changed
from assistant.dialogue.messages import Message, Say, Work
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.wording import say

AROUND = ("if_opens", "if_closes", "if_fills")


def supposed(job: Job, state: State, text: str) -> Outcome | None:
    """What a supposed value would do; None where the line supposes none that can be read."""
    said = supposed_part(text, *(listed(job.word(f"mending.{each}")) for each in AROUND))
    told = (as_answer(job, state, said) or as_change(job, state, said)) if said else ()
    if told:
        return aside(state, *told, Say(say(job, "suppose.kept")))
    open_ = state.situation.open
    is_name = open_ is not None and open_.facts and job.fact(open_.facts[0]).kind == "text"
    return aside(state, Say(say(job, "suppose.nothing"))) if said and is_name else None


def as_answer(job: Job, state: State, said: str) -> tuple[Message, ...]:
    """What would be worked out if this answered the open question; nothing if it can not."""
    open_ = state.situation.open
    if open_ is None or open_.kind != "ask":
        return ()
    records = answer(job, state, said).records
    if not records:
        return ()
    heard = applied(job, state, records)[1]
    worked = [each for each in heard if isinstance(each, Say | Work)]
    nothing = Say(say(job, "suppose.nothing"))
    return (Say(say(job, "suppose.answer", heard=said)), *(worked or [nothing]))


def as_change(job: Job, state: State, said: str) -> tuple[Message, ...]:
    """What would move if an earlier answer were this one; nothing if there is no such answer."""
    found = correction(job, state, without(said, listed(job.word("mending.fills"))))
    half_asked = new_value(job, state, *found).state if found else None
    moment = half_asked.moment if half_asked else None
    if moment is None or moment.kind not in {PREVIEW, UNDER}:
        return ()
    # Rows that were made otherwise tell nothing of it.
    record = Changed(*moment.options) if moment.kind == UNDER else moment.options[0]
    return (Say("\n".join(effects(job, state, (record,)))),)
