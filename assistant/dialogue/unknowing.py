"""Where not knowing leads: somewhere, from every question."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from assistant.dialogue.job import Job, State
from assistant.dialogue.log import GUESS, LATER, UNKNOWN, Answered, Changed, Entry
from assistant.dialogue.messages import Message, Say, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.questions import proposals
from assistant.dialogue.situation import Open
from assistant.dialogue.walk import NO_CARD
from assistant.dialogue.wording import say


def do_not_know(job: Job, state: State, origin: str = "") -> Outcome:
    """Follow the policy of the first fact that is due."""
    open_ = state.situation.open
    if open_ is None:
        return stay(state)
    if open_.kind in {"caution", "guard"}:
        return stay(state, Say(job.caution(open_.hazard).not_sure))
    if open_.kind == "offer":
        return Outcome((Answered((made(state, "card", NO_CARD),)),))
    if open_.kind == "review" and parked(state):
        return without_parked(job, state)
    if not open_.facts:
        return stay(state, Say(say(job, "unknown.machine")))
    return unknown_fact(job, state, asked_first(job, state, open_), origin)


def asked_first(job: Job, state: State, open_: Open) -> str:
    """The first fact that is asked and not only proposed."""
    taken = proposals(job, state)
    return next((name for name in open_.facts if name not in taken), open_.facts[0])


def unknown_fact(job: Job, state: State, name: str, origin: str = "") -> Outcome:
    """A way to find out, a marked guess, going without, or a stop."""
    policy = job.fact(name).unknown
    if policy is None or policy.way == "stop":
        return stay(state, Say(policy.says if policy and policy.says else say(job, "unknown.stop")))
    said: tuple[Message, ...] = (Say(policy.says),) if policy.says else ()
    if policy.way == "guess":
        entry = made(state, name, policy.value, origin or GUESS)
        return Outcome((Answered((entry,)),), said)
    return Outcome((Answered((made(state, name, UNKNOWN, origin),)),), said)


def park(job: Job, state: State) -> Outcome:
    """Leave a question for later where the job can go on without it, marked so in the review."""
    open_ = state.situation.open
    asked = asked_first(job, state, open_) if open_ and open_.facts else ""
    policy = job.fact(asked).unknown if asked else None
    if policy and policy.way in {"guess", "go_without"}:
        said = Say(say(job, "later.parked"))
        outcome = do_not_know(job, state, LATER)
        return replace(outcome, said=(said, *outcome.said))
    return stay(state, Say(say(job, "later.needed")))


def parked(state: State) -> tuple[Entry, ...]:
    """What was left for later and is still open; a correction leaves as it is what it finds so."""
    since = state.log.corrected_from
    return tuple(e for e in state.situation.used if e.origin == LATER and e.sitting >= since)


def still_parked(job: Job, state: State) -> Outcome:
    """Nothing becomes final while a question is left for later."""
    text = say(job, "later.open", names=names_of(job, parked(state)))
    return Outcome(said=(Trouble("parked", text),), state=replace(state, moment=None))


def without_parked(job: Job, state: State) -> Outcome:
    """What was left for later is not known after all: a marked guess stays, or it goes without."""
    left = parked(state)
    now = [replace(e, origin="" if e.settled == UNKNOWN else GUESS) for e in left]
    said = Say(say(job, "later.without", names=names_of(job, left)))
    return Outcome(tuple(Changed(entry) for entry in now), (said,))


def names_of(job: Job, entries: Iterable[Entry]) -> str:
    """The facts of entries by their labels."""
    return ", ".join(job.fact(each.fact).label for each in entries)


def stay(state: State, *messages: Message) -> Outcome:
    """Say something; the question stays open."""
    return Outcome(said=messages, state=replace(state, moment=None))


def made(state: State, fact: str, settled: str, origin: str = "", place: str = "") -> Entry:
    """An entry at the open question."""
    log, here = state.log, state.situation.open or state.situation
    return Entry(place or here.place, here.visit, fact, settled, origin=origin, sitting=log.sitting)
