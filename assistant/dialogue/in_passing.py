"""What a line tells beside the open question: an answer put right, or a value that fits another."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from assistant.answers.choice import known_name
from assistant.answers.evidence import its_name
from assistant.answers.expect import Expect, Refusal, Settled
from assistant.answers.fitting import is_choice, is_usual
from assistant.answers.passing import corrected_part, without_opening
from assistant.answers.read import read
from assistant.answers.text import heard, listed
from assistant.answers.yes_no import yes_no
from assistant.dialogue.answering import answer, told_of
from assistant.dialogue.changing import find, new_value
from assistant.dialogue.expecting import expect
from assistant.dialogue.job import Job, Moment, State
from assistant.dialogue.log import GivenEarly
from assistant.dialogue.messages import Offer, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.review import Target, targets
from assistant.dialogue.situation import Open
from assistant.dialogue.trouble import shown_settled
from assistant.dialogue.wording import say
from assistant.quantities.kinds import KINDS

FITS = "fits"
MENDING = ("opens", "turns", "fills")
DIGIT = re.compile(r"\d")
NOT_FOR_THIS = {
    *("unit_of_another_kind", "unknown_unit", "not_a_number", "two_numbers", "unknown_choice"),
    "bushels",
}
"""Refusals of a line that may have been meant for another question."""
EVIDENCE = re.compile(r"[a-z#%'\"]", re.IGNORECASE)
"""A bare number fits too many questions."""


# -- an answer put right ----------------------------------------------------------------------


def put_right(job: Job, state: State, text: str) -> Outcome | None:
    """`no, 20`, `I meant 7.5`, `wheel is really 79`, `20 not 21`: an earlier answer, changed.

    None where the line answers the open question, or does not sound like a correction.
    """
    open_ = state.situation.open
    if open_ is None or open_.kind != "ask" or answers(job, state, open_, text):
        return None
    said = corrected(job, text)
    if not said:
        return None
    found = correction(job, state, said)
    mends_this = names_asked(job, state, open_, said) or answers(job, state, open_, said)
    if mends_this and (state.misread or found is None):
        return answer(job, state, said)
    return new_value(job, state, *found) if found else None


def corrected(job: Job, text: str) -> str:
    """What a line puts in place of something told, "" where it does not sound like that."""
    return corrected_part(text, *(listed(job.word(f"mending.{n}")) for n in MENDING))


def answers(job: Job, state: State, open_: Open, text: str) -> bool:
    """Whether the whole line can be read for one of the facts that are asked."""
    expects = (expect(job, state.log, state.situation, name) for name in open_.facts)
    return any(e.kind != "text" and isinstance(read(e, text), Settled) for e in expects)


def names_asked(job: Job, state: State, open_: Open, said: str) -> bool:
    """Whether what is put in place names a fact that is asked: "oops 41 on the lever"."""
    asked = (expect(job, state.log, state.situation, name) for name in open_.facts)
    return any(its_name(each, said) and isinstance(read(each, said), Settled) for each in asked)


def answered_by_name(job: Job, state: State, said: str) -> Outcome | None:
    """`change turns to 40` while the turns are asked for the first time: that is their answer."""
    open_, known = state.situation.open, {each.fact for each in state.situation.used}
    if open_ is None or open_.kind != "ask" or known & set(open_.facts):
        return None
    said = " ".join(word for word in said.split() if word != "to")
    return answer(job, state, said) if names_asked(job, state, open_, said) else None


def correction(job: Job, state: State, said: str) -> tuple[Target, str] | None:
    """The answer that a value is for, by its name or as the last one, and the value."""
    return named(job, state, said) or just_told(job, state, said)


def named(job: Job, state: State, said: str) -> tuple[Target, str] | None:
    """The answer that a correction names, and its new value."""
    found = find(job, state, said)
    found = found if found and found[1] and not said.split(maxsplit=1)[0].isdecimal() else None
    if found and not isinstance(read(told_as(job, state, found[0]), found[1]), Refusal):
        return found
    said = found[1] if found else said  # "rows 7 in apart" names rows, and tells their spacing
    for target, wanted in told_so_far(job, state):
        value = read(wanted, said)
        by_name = bool(its_name(wanted, said)) and isinstance(value, Settled)
        by_unit = EVIDENCE.search(said) and is_usual(wanted, said)
        by_word = not (DIGIT.search(said) or at_a_catch(job, state)) and is_choice(wanted, said)
        if by_name or by_unit or by_word:
            return target, said
    return found


def at_a_catch(job: Job, state: State) -> bool:
    """Whether a catch is asked for: there "no, it's down" is about the drill, and no choice."""
    open_ = state.situation.open
    return open_ is not None and any(job.graph.home(fact) for fact in open_.facts)


def told_so_far(job: Job, state: State) -> Iterator[tuple[Target, Expect]]:
    """Every answer given so far, the newest first, with what its fact takes."""
    for target in reversed(targets(job, state.situation)):
        yield target, told_as(job, state, target)


def told_as(job: Job, state: State, target: Target) -> Expect:
    """What the fact of an answer takes."""
    return expect(job, state.log, state.situation, target.entry.fact)


def just_told(job: Job, state: State, said: str) -> tuple[Target, str] | None:
    """The one answer of the last question that an unnamed value fits."""
    found = list(told_so_far(job, state))
    last = [(t, e) for t, e in found if asked_at(t) == asked_at(found[0][0])]
    fit = [(target, said) for target, wanted in last if is_usual(wanted, said)]
    return fit[0] if len(fit) == 1 else None


def asked_at(target: Target) -> tuple[str, int]:
    """The question of an answer, and the how many-eth time it was asked."""
    return target.entry.place, target.entry.visit


def put_right_at_a_list(job: Job, state: State, text: str) -> Outcome | None:
    """`no wait, rows are 7 in apart`: a measure that is told by its own name, and no catch.

    What else is said at a list for the hands is about the hands: a step of it, or how things are.
    """
    open_ = state.situation.open
    if open_ is None or open_.kind != "wait":
        return None
    said = corrected(job, text) or text
    found = find(job, state, said)
    told = [
        (target, wanted)
        for target, wanted in told_so_far(job, state)
        if not target.series and wanted.kind in KINDS and KINDS[wanted.kind].form == "unit"
    ]
    for line in (said, found[1] if found else ""):
        named_so = [(target, wanted) for target, wanted in told if its_name(wanted, line)]
        if changed := in_place(job, state, named_so, line):
            return changed
    return None


# -- a value that fits another question ---------------------------------------------------------


def told_elsewhere(job: Job, state: State, text: str) -> Outcome | None:
    """A value that the open question can't take, offered to the first one that it fits."""
    open_ = state.situation.open
    if open_ is None or open_.kind != "ask" or not EVIDENCE.search(text):
        return None
    if job.fact(open_.facts[0]).kind == "text":
        return words_elsewhere(job, state, open_, text)
    said = without_opening(text, listed(job.word("mending.fills")))
    heard_so = answer(job, state, text).said
    why = next((m for m in heard_so if isinstance(m, Trouble) and m.code in NOT_FOR_THIS), None)
    if why is None:
        return None
    told, partners = [*told_so_far(job, state)], job.graph[open_.place].facts
    named_so = [(target, wanted) for target, wanted in told if its_name(wanted, said)]
    beside = [(target, wanted) for target, wanted in told if target.entry.fact in partners]
    if changed := in_place(job, state, [*named_so, *beside], said):
        return changed
    for name in asked_later(job, state, open_):
        wanted = expect(job, state.log, state.situation, name, listed=False)
        reading = read(wanted, said) if is_usual(wanted, said) else None
        if isinstance(reading, Settled):
            asked = offer(job, state, name, reading, text)
            first, *_ = why.text.split("\n")
            return replace(asked, said=(replace(why, text=first), *asked.said))
    return None


def in_place(
    job: Job, state: State, told: Sequence[tuple[Target, Expect]], said: str
) -> Outcome | None:
    """The first of these answers that a value is usual for, changed."""
    fit = (target for target, wanted in told if is_usual(wanted, said))
    return next((new_value(job, state, target, said) for target in fit), None)


def words_elsewhere(job: Job, state: State, open_: Open, text: str) -> Outcome | None:
    """Words at a question for a name that are a choice, or a known name, of another question."""
    asked = expect(job, state.log, state.situation, open_.facts[0])
    said = without_opening(text, listed(job.word("mending.fills")))
    if (
        isinstance(read(asked, text), Refusal)
        or known_name(asked, said)
        or yes_no(said) is not None
    ):
        return None
    if DIGIT.search(said):
        return named_elsewhere(job, state, open_, said, text)
    for target, wanted in told_so_far(job, state):
        if wanted.kind == "text" and is_choice(wanted, said):
            return new_value(job, state, target, said)
    for name in asked_later(job, state, open_):
        wanted = expect(job, state.log, state.situation, name, listed=False)
        if wanted.kind == "choice" and is_choice(wanted, said):
            reading = read(wanted, said)
            return offer(job, state, name, reading, text) if isinstance(reading, Settled) else None
    return None


def named_elsewhere(job: Job, state: State, open_: Open, said: str, text: str) -> Outcome | None:
    """A line that begins with the name of another fact and tells its value: "germ is 92"."""
    for name in asked_later(job, state, open_):
        wanted = expect(job, state.log, state.situation, name, listed=False)
        own = its_name(wanted, said)
        if own and said.lower().startswith(own) and is_usual(wanted, said):
            reading = read(wanted, said)
            return offer(job, state, name, reading, text) if isinstance(reading, Settled) else None
    return None


def asked_later(job: Job, state: State, open_: Open) -> Iterator[str]:
    """The facts of questions that come after this one, in the order of the flow.

    One that has no name is told at its own question alone.
    """
    at = state.situation
    places = list(job.graph.nodes)
    for place in places[places.index(open_.place) :]:
        node = job.graph[place]
        for name in node.facts if node.step.kind == "ask" and not node.step.quiet else ():
            alone = job.graph.home(name) is None and "." not in name
            if alone and job.fact(name).names and name not in {*at.known, *open_.facts}:
                yield name


def offer(job: Job, state: State, name: str, reading: Settled, text: str) -> Outcome:
    """Ask whether a value is meant for another question."""
    fact = job.fact(reading.fact)
    value = shown_settled(job, state, fact, reading.settled)
    told = say(job, "fits.other", heard=heard(text)[:60], name=fact.label, value=value)
    said = Offer(told, (), say(job, "fits.ask"))
    moment = Moment(FITS, ((name, reading),), text=text)
    return Outcome(said=(said,), state=replace(state, moment=moment))


def taken(job: Job, moment: Moment) -> Outcome:
    """The value is kept until its question comes."""
    ((name, reading),) = moment.options
    return Outcome((GivenEarly((told_of(job, name, reading, moment.text),)),))
