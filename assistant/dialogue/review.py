"""The review: every value with where it came from, numbered so that it can be changed."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.dialogue.asking import known_of
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import LATER, UNKNOWN, Entry, key
from assistant.dialogue.messages import Review, ReviewLine
from assistant.dialogue.situation import Situation
from assistant.dialogue.standing import known_fact
from assistant.dialogue.wording import say, shown


@dataclass(frozen=True, slots=True)
class Target:
    """What a number of the review stands for: an entry, or a row with its entries."""

    entry: Entry
    series: str = ""
    row: int = 0
    entries: tuple[Entry, ...] = ()


def targets(job: Job, at: Situation) -> tuple[Target, ...]:
    """What can be changed, in the order of the conversation; a row is one target."""
    rows = {
        key(lap[-1]): Target(lap[-1], series.name, row, lap)
        for series in job.graph.series.values()
        for row, lap in enumerate(at.laps.get(series.name, ()), 1)
    }
    found: list[Target] = []
    for entry in at.used:
        if entry.fact not in job.graph.facts or not job.fact(entry.fact).ask:
            continue  # what only a card lends is nobody's answer
        if job.graph.home(entry.fact) is None:
            found.append(Target(entry))
        elif key(entry) in rows:
            found.append(rows[key(entry)])
    return tuple(found)


def review_of(job: Job, state: State) -> Review:
    """The review as a message: answers, results, and limits that stand as they came in one line."""
    at = state.situation
    lines = [
        line_of(job, state, number, target) for number, target in enumerate(targets(job, at), 1)
    ]
    lines.sort(key=lambda line: line.origin != origin_words(job, LATER))
    for name, known in at.known.items():
        if known.inputs and job.graph.facts[name].main:
            value = shown(job, state.log, at, job.fact(name), known)
            where = "worked_out_guess" if known.guess else "worked_out"
            lines.append(ReviewLine(0, label_of(job, name), value, origin_words(job, where)))
    return Review(tuple(lines), limits_line(job, state))


def line_of(job: Job, state: State, number: int, target: Target) -> ReviewLine:
    """One numbered line."""
    if target.series:
        values = ", ".join(entry_shown(job, state, entry) for entry in target.entries)
        return ReviewLine(number, row_label(job, target), values, "")
    entry = target.entry
    plain = "" if entry.settled == UNKNOWN else job.fact(entry.fact).told
    where = origin_words(job, entry.origin or plain)
    name = label_of(job, entry.fact)
    if entry.sure:
        where = f"{where}, {say(job, 'from.sure')}"
    return ReviewLine(number, name, entry_shown(job, state, entry), where)


def row_label(job: Job, target: Target) -> str:
    """What a row is called, by its number."""
    return of_use(job, target.series, row_words(job, target.series, str(target.row)))


def row_words(job: Job, series: str, number: str) -> str:
    """What a row of a series is called: a catch, if the words have no name of its own for it."""
    own = f"rows.{series.rpartition('.')[2]}"
    return say(job, own if own in job.library.words else "review.row", number=number)


def called(job: Job, at: Situation, entry: Entry) -> str:
    """What the review calls an entry: a row by its number, all else by its fact."""
    rows = (each for each in targets(job, at) if each.series and key(each.entry) == key(entry))
    row = next(rows, None)
    return row_label(job, row) if row else job.fact(entry.variant or entry.fact).label


def label_of(job: Job, name: str) -> str:
    """The label of a fact; of a part used twice, with the use that it belongs to."""
    return of_use(job, name, job.fact(name).label)


def of_use(job: Job, name: str, label: str) -> str:
    """A label, marked with the use of the part where a part is used twice."""
    alias, dot, _ = name.rpartition(".")
    return say(job, f"uses.{alias}", name=label) if dot else label


def entry_shown(job: Job, state: State, entry: Entry) -> str:
    """What an entry settled, as it is shown."""
    fact = job.fact(entry.variant or entry.fact)
    return shown(job, state.log, state.situation, fact, known_of(job, entry))


def origin_words(job: Job, origin: str) -> str:
    """Where a value came from, in words; a flow may say it in its own."""
    return job.library.words.get(f"from.{origin}", origin)


def limits_line(job: Job, state: State) -> str:
    """Limits that were read by a result and still stand as they came, with their basis."""
    at = state.situation
    read = {name for known in at.known.values() for name in known.inputs}
    standing: dict[str, list[str]] = {}
    for name, fact in job.graph.facts.items():
        known = known_fact(job, at, name)
        if fact.stands_at and fact.basis and name in read and name not in at.known and known:
            value = shown(job, state.log, at, fact, known)
            standing.setdefault(fact.basis, []).append(f"{fact.label} {value}")
    lines = [f"{', '.join(limits)} ({basis})" for basis, limits in standing.items()]
    return say(job, "review.limits", limits="; ".join(lines)) if lines else ""
