"""Back, change and strike: the log gets another shape, and the fold does the rest."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from assistant.answers.by_number import by_number
from assistant.answers.expect import Doubt, Refusal, Settled, Unusual
from assistant.answers.read import read
from assistant.answers.slips import judge
from assistant.answers.text import heard
from assistant.answers.yes_no import yes_no
from assistant.dialogue.asides import aside
from assistant.dialogue.asking import LEAVE
from assistant.dialogue.expecting import expect
from assistant.dialogue.fold import LIMITS
from assistant.dialogue.foretelling import PREVIEW, preview
from assistant.dialogue.job import Job, Moment, State
from assistant.dialogue.log import Changed, Entry, Struck, WentBack
from assistant.dialogue.messages import Offer, Say
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.review import Target, called, entry_shown, row_label, row_words, targets
from assistant.dialogue.situation import Situation, never_asked
from assistant.dialogue.standing import told_at
from assistant.dialogue.trouble import doubtful, refused, shown_settled, unusual
from assistant.dialogue.walk import CARD, DONE
from assistant.dialogue.wording import fill, say

UNDER, NEW_VALUE = "under", "new_value"


def go_back(job: Job, state: State) -> Outcome:
    """Return to the last question that a person saw; its old answer is offered."""
    logged = {(e.place, e.visit) for e in state.log.entries}
    for entry in reversed(state.situation.used):
        answered = entry.fact in job.graph.facts or entry.fact in {CARD, LEAVE}
        if answered and (entry.place, entry.visit) in logged and seen(job, entry):
            return Outcome((WentBack(entry.place, entry.visit),))
    return Outcome(said=(Say(say(job, "back.first")),), state=replace(state, moment=None))


def seen(job: Job, entry: Entry) -> bool:
    """Whether an answer was given at a question that a person saw."""
    return entry.place != LIMITS and not job.graph[entry.place].step.quiet


# -- change -----------------------------------------------------------------------------------


def begin_change(job: Job, state: State, rest: str) -> Outcome:
    """`change 4`, `change tolerance 3 %`, `change spacing to 7.5`."""
    found = find(job, state, rest)
    if found is None:
        text = not_found(job, state, rest)
        return Outcome(said=(Say(text),), state=replace(state, moment=None))
    target, value = found
    value = value.removeprefix("to ").strip()
    if not value:
        return ask_value(job, state, target)
    return new_value(job, state, target, value)


def not_found(job: Job, state: State, rest: str) -> str:
    """Why nothing can be changed there: no name, a result with its answers, or an unknown name."""
    if not rest:
        return say(job, "change.what")
    for name, known in state.situation.known.items():
        if known.inputs and name in job.graph.facts and rest.lower() in names_of(job, name):
            sources = ", ".join(job.fact(each).label for each in answers_of(job, state, name))
            return fill(job.word("change.result"), {"name": job.fact(name).label, "from": sources})
    return say(job, "change.none", heard=heard(rest))


def answers_of(job: Job, state: State, name: str) -> Iterable[str]:
    """The answers that a result comes from, through the results between."""
    known = state.situation.known
    seen, waiting = dict[str, None](), [name]
    while waiting:
        each = waiting.pop(0)
        inputs = known[each].inputs if each in known else ()
        if inputs:
            waiting += [i for i in inputs if i not in seen]
        elif each in known and known[each].settled and each in job.graph.facts:
            seen[each] = None
    return seen


def find(job: Job, state: State, rest: str) -> tuple[Target, str] | None:
    """The target that a number or a name stands for, and the rest of the line."""
    word, _, value = rest.partition(" ")
    listed = targets(job, state.situation)
    if word.isdecimal():
        at = by_number(word, len(listed))
        return None if at is None else (listed[at], value)
    first, _, more = value.partition(" ")
    rows = {row_words(job, series, first).lower() for series in job.graph.series}
    if first.isdecimal() and rest.lower().startswith(tuple(rows)):
        row = row_called(job, listed, rest)
        if row or more[:1].isdecimal():  # "catch 3 600" is never 3,600
            return row
    best: tuple[int, Target] | None = None
    for target in [*listed, *limit_targets(job, state), *overridable(job, state)]:
        for name in names_of(job, target.entry.fact):
            whole = rest.lower() == name or rest.lower().startswith(f"{name} ")
            if whole and (best is None or len(name) >= best[0]):
                best = (len(name), target)
    return (best[1], rest[best[0] :].strip()) if best else None


def row_called(job: Job, listed: Iterable[Target], rest: str) -> tuple[Target, str] | None:
    """The row that a line begins with, as the review calls it, and what stands after it.

    A unit after the number makes that a value: "catch 1 lb".
    """
    for row in listed:
        label = row_label(job, row).lower() if row.series else ""
        value = rest[len(label) :].strip()
        word = value.partition(" ")[0].lower()
        known = not word or word[0].isdecimal() or word in {"to", *job.library.commands["drop"]}
        if label and known and f"{rest.lower()} ".startswith(f"{label} "):
            return row, value
    return None


def names_of(job: Job, fact: str) -> set[str]:
    """What people call a fact: its name, its label, and the words that name it."""
    spec = job.fact(fact)
    return {fact, fact.replace("_", " "), spec.label.lower(), *spec.names}


def limit_targets(job: Job, state: State) -> Iterable[Target]:
    """Limits can be changed by name."""
    sitting = state.log.sitting
    for name, fact in job.graph.facts.items():
        if fact.stands_at and fact.basis:
            yield Target(Entry(LIMITS, 1, name, fact.stands_at, sitting=sitting))


def overridable(job: Job, state: State) -> Iterable[Target]:
    """A result that also has a question can be overridden at its step; what is not known, told.

    Of several steps for one fact the one that was passed last comes last, as it was passed last.
    """
    at = state.situation
    passed = {place: number for number, (place, _) in enumerate(at.trail)}
    nodes = job.graph.nodes
    for place in sorted(nodes, key=lambda place: passed.get(place, -1)):
        node, visit = nodes[place], at.visits.get(place, 1)
        for name in node.facts if node.step.kind == "ask" else ():
            known = at.known.get(name)
            if known and (known.inputs or never_asked(known)) and job.graph.home(name) is None:
                yield Target(Entry(place, visit, name, ""))


def ask_value(job: Job, state: State, target: Target) -> Outcome:
    """Ask for the new value, or for what should become of a row."""
    name = called(job, state.situation, target.entry)
    old = entry_shown(job, state, target.entry) if target.entry.settled else ""
    asked = "change.row" if target.series else "change.value"
    offer = Offer("", (), say(job, asked, name=name, old=old))
    moment = Moment(NEW_VALUE, (target,))
    return Outcome(said=(offer,), state=replace(state, moment=moment))


def new_value(job: Job, state: State, target: Target, text: str) -> Outcome:
    """Read the new value of a target; `drop` and a reason strikes a row."""
    word, _, reason = text.strip().partition(" ")
    if target.series and word.lower() in job.library.commands["drop"]:
        return preview(job, state, (Struck(target.entries, reason or word),))
    name = target.entry.fact
    wanted = expect(job, state.log, state.situation, name)
    reading = read(wanted, text)
    if isinstance(reading, Refusal):
        return keep_asking(job, refused(job, state, name, reading), target)
    if isinstance(reading, Doubt):
        doubt = doubtful(job, state, name, reading, text)
        return retarget(doubt, target)
    judged = judge(wanted, reading)
    if isinstance(judged, Refusal):
        return keep_asking(job, refused(job, state, reading.fact, judged), target)
    if isinstance(judged, Unusual):
        return retarget(unusual(job, state, name, reading, judged, text), target)
    return change_settled(job, state, target, reading, text)


def keep_asking(job: Job, outcome: Outcome, target: Target) -> Outcome:
    """A refused new value: the change stays half-asked, its question comes again."""
    if outcome.state is None or outcome.state.moment:
        return retarget(outcome, target)
    again = ask_value(job, outcome.state, target)
    return replace(again, said=(*outcome.said, *again.said))


def retarget(outcome: Outcome, target: Target) -> Outcome:
    """The options of a doubt are for the target of the change, not for the open question."""
    if outcome.state is None or outcome.state.moment is None:
        return outcome
    moment = outcome.state.moment
    options = tuple((target, found) for _, found in moment.options)
    return replace(outcome, state=replace(outcome.state, moment=replace(moment, options=options)))


def change_settled(job: Job, state: State, target: Target, found: Settled, text: str) -> Outcome:
    """The value is clear; ask about rows made under the old one, then foretell."""
    old = target.entry
    entry = replace(
        old,
        settled=found.settled,
        variant=found.fact if found.fact != old.fact else "",
        typed=text,
        origin=told_anew(job, old, found.fact),
        sitting=state.log.sitting,
    )
    if replace(entry, typed=old.typed, sitting=old.sitting) == old:
        value = entry_shown(job, state, old)
        return aside(
            state, Say(say(job, "change.same", name=called(job, state.situation, old), value=value))
        )
    rows = gathered_under(job, state, old.fact)
    if rows and decides_members(job, state.situation, old.fact):
        return preview(job, state, (Changed(entry, rows),))
    if rows:
        return ask_under(job, state, entry, rows)
    return preview(job, state, (Changed(entry),))


def told_anew(job: Job, old: Entry, fact: str) -> str:
    """Where a new value comes from; what a quiet step says is of what it took by itself."""
    quiet = old.place in job.graph.nodes and job.graph[old.place].step.quiet
    return job.fact(fact).told if quiet else told_at(job, old.place, fact)


def ask_under(job: Job, state: State, entry: Entry, rows: tuple[Entry, ...]) -> Outcome:
    """Ask whether the rows were made like that too."""
    choices = (say(job, "under.same"), say(job, "under.fresh"))
    fact = job.fact(entry.variant or entry.fact)
    new = shown_settled(job, state, fact, entry.settled)
    were_they = say(job, "under.were_they", name=fact.label, new=new)
    offer = Offer(were_they, choices, say(job, "under.ask"))
    moment = Moment(UNDER, (entry, rows))
    return Outcome(said=(offer,), state=replace(state, moment=moment))


def gathered_under(job: Job, state: State, name: str) -> tuple[Entry, ...]:
    """The entries of all rows that were gathered under a fact, with what was said of them.

    A caution stays passed and a list done: they are of the drill, not of the rows.
    """
    at, entries = state.situation, state.log.entries
    under = [e.name for e in job.graph.series.values() if name in e.under and at.rows.get(e.name)]
    rows = [entry for series in under for lap in at.laps[series] for entry in lap]
    nodes = [n for n in job.graph.nodes.values() if n.series in under and n.step.kind != "use"]
    parts = tuple(f"{node.part}/" for node in nodes if node.part)
    kept = {DONE, *job.library.cautions}
    said = (e for e in entries if e in rows or e.place.startswith(parts))
    return tuple(e for e in said if e.fact not in kept)


def decides_members(job: Job, at: Situation, name: str) -> bool:
    """Whether a choice decides which members a row has: then no row can stay as it was made."""
    series = job.graph.series.values()
    deciding = {choice for each in series for under in each.only.values() for choice in under}
    from_it = {each for each in deciding if each in at.known and name in at.known[each].inputs}
    return name in deciding or bool(from_it)


def under_answered(job: Job, state: State, moment: Moment, text: str) -> Outcome | None:
    """Same keeps the rows, fresh strikes them."""
    entry, rows = moment.options
    plain = text.strip(" .!").lower()
    same = plain == "1" or yes_no(plain) is True
    fresh = plain == "2" or yes_no(plain) is False
    if not same and not fresh:
        return None
    return preview(job, state, (Changed(entry, fresh=() if same else rows),))


# -- at once, for scripts and tests -----------------------------------------------------------


def change_to(job: Job, state: State, fact: str, text: str) -> Outcome:
    """Change a fact without a preview; what can't be read is refused."""
    outcome = begin_change(job, state, f"{fact} {text}")
    if outcome.state and outcome.state.moment and outcome.state.moment.kind == PREVIEW:
        return Outcome(outcome.state.moment.options)
    return outcome


def strike(state: State, series: str, row: int, reason: str) -> Outcome:
    """Drop a row, counted from 1."""
    laps = state.situation.laps[series]
    return Outcome((Struck(laps[row - 1], reason),))
