"""What a change would move: told before it is done, with yes or no to it."""

from __future__ import annotations

from dataclasses import replace

from assistant.dialogue.fold import replayed
from assistant.dialogue.job import Job, Moment, State
from assistant.dialogue.log import UNKNOWN, Changed, Record, Struck, fold, key
from assistant.dialogue.messages import Offer, Say
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.questions import moved_to, proposals
from assistant.dialogue.review import called, entry_shown, label_of
from assistant.dialogue.standing import known_fact
from assistant.dialogue.trouble import shown_settled
from assistant.dialogue.wording import fill, say, shown

PREVIEW = "preview"


def preview(job: Job, state: State, records: tuple[Record, ...]) -> Outcome:
    """What a change does, then yes or no to it."""
    ask = say(job, "change.do_it_because" if state.log.corrects else "change.do_it")
    offer = Offer("\n".join(effects(job, state, records)), (), ask)
    return Outcome(said=(offer,), state=replace(state, moment=Moment(PREVIEW, records)))


def effects(job: Job, state: State, records: tuple[Record, ...]) -> list[str]:
    """The change, values that move, the question that opens, how many answers wait."""
    after, _ = replayed(job, fold(records, state.log))
    lines = [
        *dropped(job, records[0]),
        *moved(job, state, after, told=records[0]),
        *opened(job, state, after),
        *waiting(job, after),
    ]
    return [headline(job, state, records), *(lines or [say(job, "change.nothing_else")])]


def headline(job: Job, state: State, records: tuple[Record, ...]) -> str:
    """What the change itself is."""
    record = records[0]
    if isinstance(record, Struck):
        name = called(job, state.situation, record.entries[-1])
        return say(job, "change.drops", name=name, reason=record.reason)
    entry = record.entry  # type: ignore[union-attr]  # a preview is of a change or a strike
    fact = job.fact(entry.variant or entry.fact)
    name, new = called(job, state.situation, entry), shown_settled(job, state, fact, entry.settled)
    was = next((e for e in state.situation.used if key(e) == key(entry)), entry)
    if was.variant == entry.variant and was.settled not in {UNKNOWN, entry.settled}:
        return say(job, "change.moves", name=name, old=entry_shown(job, state, was), new=new)
    return say(job, "change.to", name=name, new=new)


def dropped(job: Job, told: Record) -> list[str]:
    """How many rows go that were made otherwise."""
    fresh = told.fresh if isinstance(told, Changed) else ()
    lasts = {fact for series in job.graph.series.values() for fact in series.last}
    gone = sum(entry.fact in lasts for entry in fresh)
    return [say(job, "change.rows", count=str(gone))] if gone else []


def moved(job: Job, state: State, after: State, told: Record) -> list[str]:
    """Main results that are another value afterwards, old and new, but for the one just told."""
    named = told.entry.fact if isinstance(told, Changed) else ""
    found = []
    for name, fact in job.graph.facts.items():
        old, new = known_fact(job, state.situation, name), after.situation.known.get(name)
        if not fact.main or name == named or old is None or new is None or old.value == new.value:
            continue
        was = shown(job, state.log, state.situation, fact, old)
        now = shown(job, after.log, after.situation, fact, new)
        if was != now:
            found.append(
                fill(
                    job.word("change.moves"), {"name": label_of(job, name), "old": was, "new": now}
                )
            )
    return found


def opened(job: Job, state: State, after: State) -> list[str]:
    """The question that opens, where it is not the one that is open now."""
    new, old = after.situation.open, state.situation.open
    if new is None or (old and (new.place, new.facts) == (old.place, old.facts)):
        return []
    if new.kind == "corrected":
        return [moved_to(job, after, proposals(job, after))]
    if new.kind != "ask":
        return []
    names = ", ".join(job.fact(name).label for name in new.facts)
    return [say(job, "change.opens", names=names)]


def waiting(job: Job, after: State) -> list[str]:
    """How many answers wait until their question is reached."""
    used = {(e.place, e.visit, e.fact) for e in after.situation.used}
    count = sum(
        e.fact in job.graph.facts and (e.place, e.visit, e.fact) not in used
        for e in after.log.entries
    )
    return [say(job, "change.wait", count=str(count))] if count else []


def finish_change(job: Job, records: tuple[Record, ...]) -> Outcome:
    """Do what was foretold."""
    return Outcome(records, (Say(say(job, "change.done")),))
