"""Answers that could not be taken as they are: refused, with two readings, or out of the usual."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.expect import Doubt, Refusal, Settled, Unusual
from assistant.answers.fitting import likely_unit
from assistant.answers.read import read
from assistant.dialogue.asking import known_of
from assistant.dialogue.examples import example_of
from assistant.dialogue.expecting import expect, most, usual_span
from assistant.dialogue.job import Job, Moment, State
from assistant.dialogue.log import Entry
from assistant.dialogue.messages import Offer, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.wording import say, shown, shown_value
from assistant.flow.model import Fact
from assistant.quantities.settled import members

DOUBT, UNUSUAL = "doubt", "unusual"
OUT_OF_RANGE = {"too_small", "too_big"}
SECOND = 2
"""The misreading that gets help beside the example; further ones get the ways out."""


def refused(job: Job, state: State, name: str, refusal: Refusal) -> Outcome:
    """A clear sentence, an example that works; more help at the second and third misreading."""
    fact = job.fact(name)
    misread = state.misread + 1
    code = refusal.code if f"refused.{refusal.code}" in job.library.words else "not_understood"
    about = {key: str(value) for key, value in refusal.about}
    sentence = say(
        job, f"refused.{code}", **{**about, **spans(job, state, fact)}, **heard(fact, refusal)
    )
    if code in OUT_OF_RANGE and "likely" in about and not fact.variants and misread < SECOND:
        likely = shown_settled(job, state, fact, about["likely"])
        more = [say(job, "refused.likely", likely=likely)]
    else:
        more = more_help(job, state, fact, misread)
    after = replace(state, misread=misread, moment=None)
    meant = likely_meant(job, state, name, refusal)
    if meant:
        meant_for = job.fact(meant[1].fact)
        value = shown_settled(job, state, meant_for, meant[1].settled)
        asked = Offer("", (), say(job, "doubt.one", name=meant_for.label, value=value))
        moment = Moment(DOUBT, (meant,), text=refusal.heard)
        read_so = say(job, "doubt.heard", heard=refusal.heard[:60])
        said = (Trouble(refusal.code, read_so, name), asked)
        return Outcome(said=said, state=replace(after, moment=moment))
    return Outcome(said=(Trouble(refusal.code, "\n".join([sentence, *more]), name),), state=after)


def likely_meant(job: Job, state: State, name: str, refusal: Refusal) -> tuple[str, Settled] | None:
    """What a refused text most likely means: the choice, or the value whose unit is misspelled."""
    if job.fact(name).kind == "choice":
        choice = dict(refusal.about).get("likely")
        return (name, Settled(name, choice, choice)) if choice else None
    open_ = state.situation.open
    for each in dict.fromkeys((name, *(open_.facts if open_ else ()))):
        found = likely_unit(expect(job, state.log, state.situation, each), refusal)
        if found:
            return each, found
    return None


def more_help(job: Job, state: State, fact: Fact, misread: int) -> list[str]:
    """What follows the sentence: an example; the example read and how to measure; the ways out."""
    example = example_of(job, state, fact)
    shown_plain = [say(job, "help.example", example=example)] if example else []
    if misread == SECOND:
        return [*(worked_example(job, state, fact) or shown_plain), *filter(None, [fact.help])]
    return [*shown_plain, *([say(job, "refused.third")] if misread > SECOND else [])]


def worked_example(job: Job, state: State, fact: Fact) -> list[str]:
    """The fact's example as the reader itself takes it, now; empty if that needs a question."""
    example = example_of(job, state, fact)
    found = read(expect(job, state.log, state.situation, fact.name), example)
    if not isinstance(found, Settled):
        return []
    taken = job.fact(found.fact)
    value = shown_settled(job, state, taken, found.settled)
    return [say(job, "refused.second", example=example, name=taken.label, value=value)]


def heard(fact: Fact, refusal: Refusal) -> dict[str, str]:
    """What was read, cut short, and the fact's name."""
    return {"heard": refusal.heard[:60], "name": fact.label}


def spans(job: Job, state: State, fact: Fact) -> dict[str, str]:
    """The possible range as it is shown, for the sentences that name it; of a one-of, its first."""
    each = (fact, *map(job.fact, fact.variants.values()))
    ranged = next((one for one in each if one.possible), None)
    if ranged is None or ranged.possible is None:
        return {"least": "", "most": ""}
    upper = most(job, state.situation, ranged)
    return {
        "least": shown_settled(job, state, ranged, ranged.possible.least),
        "most": shown_value(state.log, state.situation, ranged, float(upper)) if upper else "",
    }


def shown_settled(job: Job, state: State, fact: Fact, settled: str) -> str:
    """A settled spelling as it is shown."""
    known = known_of(job, Entry("", 0, fact.name, settled))
    return shown(job, state.log, state.situation, fact, known)


def doubtful(job: Job, state: State, name: str, doubt: Doubt, text: str) -> Outcome:
    """Two readings more than 2 % apart: ask which."""
    choices = tuple(shown_reading(job, state, name, reading) for reading in doubt.readings)
    which = say(job, "doubt.which", heard=text.strip()[:60], name=job.fact(name).label)
    asked = "doubt.ask_name" if job.fact(name).kind in {"text", "choice"} else "doubt.ask"
    offer = Offer(which, choices, say(job, asked))
    moment = Moment(DOUBT, tuple((name, reading) for reading in doubt.readings), text=text)
    return Outcome(said=(offer,), state=replace(state, moment=moment))


def shown_reading(job: Job, state: State, name: str, reading: Settled) -> str:
    """One reading, named when it is a variant of the question."""
    fact = job.fact(reading.fact)
    value = shown_settled(job, state, fact, reading.settled)
    return f"{fact.label}: {value}" if reading.fact != name else value


def unusual(  # noqa: PLR0913, PLR0917  an answer, and why it is asked about
    job: Job, state: State, name: str, found: Settled, judged: Unusual, text: str
) -> Outcome:
    """Out of the usual range: asked once, with the likely slip offered."""
    fact = job.fact(found.fact)
    value = shown_settled(job, state, fact, found.settled)
    as_one = bool(fact.as_many) and len(members(found.settled) or [found]) == 1
    usual = usual_span(job, state.situation, fact, together=as_one)
    ends = {
        "least": shown_settled(job, state, fact, usual.least) if usual else "",
        "most": shown_settled(job, state, fact, usual.most) if usual else "",
    }
    options: list[tuple[str, Settled]] = [(name, found)]
    choices = [say(job, "unusual.keep", value=value)]
    if judged.likely:
        options.append((name, judged.likely))
        choices.append(shown_settled(job, state, fact, judged.likely.settled))
    many = fact.as_many or fact.in_order_of
    of = job.fact(many).label if many else ""
    about = {**ends, **dict(judged.about)}
    is_it, ask = ("number", "again") if "told" in about else ("is_it", "ask")
    offer = Offer(
        say(job, f"unusual.{is_it}", value=value, name=fact.label, of=of, **about),
        tuple(choices),
        say(job, f"unusual.{ask}"),
    )
    moment = Moment(UNUSUAL, tuple(options), text=text)
    return Outcome(said=(offer,), state=replace(state, moment=moment))
