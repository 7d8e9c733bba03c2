"""`advance`: one step of the conversation. Pure: it reads no clock, no book and no setting.

What reads an answer is imported with the first answer: the first question shows sooner.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.dialogue.events import (
    Back,
    ChangeTo,
    Event,
    Given,
    GoOn,
    OfferedCards,
    Reply,
    StrikeRow,
    Supplied,
    Typed,
)
from assistant.dialogue.fold import LIMITS, applied, replayed
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import (
    Answered,
    Began,
    CardOffer,
    Entry,
    FlowChanged,
    Log,
    Offered,
    Record,
    Resumed,
    WentBack,
    key,
)
from assistant.dialogue.messages import Fetch, Finish, Message, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.questions import question
from assistant.dialogue.steps import matched
from assistant.dialogue.unknowing import made
from assistant.dialogue.walk import CARD, Walk


def begin(job: Job, system: str = "us") -> tuple[State, Reply]:
    """Open a conversation: the first question."""
    record = Began(system)
    state, said = replayed(job, Log().after(record))
    return state, Reply((*said, *question(job, state)), (record,))


def resume(job: Job, log: Log, away: float = 0, corrects: str = "") -> tuple[State, Reply]:
    """Go on with a stored conversation after `away` seconds: a new sitting, the open question.

    An answer whose place is gone from the flow becomes a fact told early; one that may no longer
    hold after that time is asked again. With `corrects`, the id of a finished conversation, the
    new one is to correct it.
    """
    from assistant.dialogue.returning import come_back

    gone = tuple(each for each in log.entries if place_is_gone(job, each))
    changed = (FlowChanged(gone),) if gone else ()
    state, said, records = come_back(job, log, changed, away, corrects)
    return state, Reply((*said, *question(job, state)), records)


def place_is_gone(job: Job, entry: Entry) -> bool:
    """Whether the flow has no such place any more."""
    place = entry.place.partition("!")[0]
    return place != LIMITS and place not in job.graph.nodes


def advance(job: Job, state: State, event: Event) -> tuple[State, Reply]:
    """The state and the reply after one event."""
    outcome = react(job, state, event)
    if outcome.state is not None:
        said = (*outcome.said, *asked_again(job, outcome.state, outcome.said))
        return outcome.state, Reply(said, outcome.records)
    after, heard, records = applied(job, state, outcome.records)
    messages = (*outcome.said, *heard, *asked_again(job, after))
    return after, Reply(messages, records)


def react(job: Job, state: State, event: Event) -> Outcome:
    """What an event does: records to apply, or a state that only the moment changed."""
    match event:
        case Typed(text):
            return typed(job, state, text)
        case Supplied() | Given():
            return named(job, state, event)
        case OfferedCards(cards):
            return offered(job, state, cards)
        case Back() | ChangeTo() | StrikeRow():
            return changed(job, state, event)
        case GoOn():
            return Outcome((Resumed(),))


def offered(job: Job, state: State, cards: tuple[CardOffer, ...]) -> Outcome:
    """The cards that were fetched: one that a person's words mean is taken, none is told."""
    at = state.situation
    match = tuple(matched(Walk(job, state.log, at)).values())
    records: tuple[Record, ...] = (Offered(at.place, at.visit, cards, match),)
    if any(key(each) == (at.place, at.visit, CARD) for each in state.log.entries):
        records = (WentBack(at.place, at.visit), *records)  # that card was chosen of other cards
    if at.open is None or at.open.kind != "offer":
        return Outcome(records)
    if not cards:
        from assistant.dialogue.choosing import refuse

        return refuse(job, state, "unknown_card", "")
    if len(cards) == 1:
        records = (*records, Answered((made(state, CARD, cards[0].id),)))
    return Outcome(records)


def named(job: Job, state: State, event: Supplied | Given) -> Outcome:
    """Named texts, for the open question or before theirs."""
    from assistant.dialogue.supplying import given, supplied

    if isinstance(event, Supplied):
        return supplied(job, state, event.values)
    return given(job, state, event.values, event.origin)


def changed(job: Job, state: State, event: Back | ChangeTo | StrikeRow) -> Outcome:
    """Another shape for the log."""
    from assistant.dialogue.changing import change_to, go_back, strike

    match event:
        case ChangeTo(fact, text):
            return change_to(job, state, fact, text)
        case StrikeRow(series, row, reason):
            return strike(state, series, row, reason)
    return go_back(job, state)


def typed(job: Job, state: State, text: str) -> Outcome:
    """A typed line: what is half-asked, the words that work everywhere, or the answer."""
    from assistant.dialogue.answering import answer
    from assistant.dialogue.asides import not_refused
    from assistant.dialogue.commands import command
    from assistant.dialogue.in_passing import put_right, put_right_at_a_list, told_elsewhere
    from assistant.dialogue.moments import settle_moment
    from assistant.dialogue.supposing import supposed

    if state.moment:
        outcome = settle_moment(job, state, text)
        if outcome:
            return outcome
    outcome = supposed(job, state, text) or command(job, state, text)
    outcome = outcome or put_right(job, state, text) or put_right_at_a_list(job, state, text)
    outcome = outcome or told_elsewhere(job, state, text)
    return outcome or not_refused(job, state, text, answer(job, state, text))


SELF_CONTAINED = {"not_the_word", "not_done", "still_to_do", "parked"}
"""Refusals that say what to type: a long caution, list or review is not put again after them."""


def asked_again(job: Job, state: State, said: Sequence[Message] = ()) -> Sequence[Message]:
    """The open question, unless the person left or something half-asked was just put."""
    told = any(isinstance(m, Trouble) and m.code in SELF_CONTAINED for m in said)
    told = told or any(isinstance(m, Fetch) for m in said)
    if state.left or state.moment or told:
        return ()
    return question(job, state)


def ended(messages: Sequence[Message]) -> Finish | None:
    """The finish among messages, if the job has ended."""
    return next((m for m in messages if isinstance(m, Finish)), None)
