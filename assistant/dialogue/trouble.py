"""Answers that could not be taken as they are: refused, with two readings, or out of the usual."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.expect import Doubt, Refusal, Settled, Unusual
from assistant.dialogue.asking import known_of
from assistant.dialogue.expecting import most, usual_span
from assistant.dialogue.job import Job, Moment, State
from assistant.dialogue.log import Entry
from assistant.dialogue.messages import Offer, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.wording import say, shown, shown_value
from assistant.flow.model import Fact

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
    texts = [
        say(job, f"refused.{code}", **{**about, **spans(job, state, fact)}, **heard(fact, refusal))
    ]
    if refusal.code in OUT_OF_RANGE and "likely" in about and not fact.variants:
        likely = shown_settled(job, state, fact, about["likely"])
        texts.append(say(job, "refused.likely", likely=likely))
    elif fact.example:
        texts.append(say(job, "help.example", example=fact.example))
    if misread == SECOND and fact.help:
        texts.append(fact.help)
    if misread > SECOND:
        texts.append(say(job, "refused.third"))
    after = replace(state, misread=misread, moment=None)
    return Outcome(said=(Trouble(refusal.code, "\n".join(texts), name),), state=after)


def heard(fact: Fact, refusal: Refusal) -> dict[str, str]:
    """What was read, cut short, and the fact's name."""
    return {"heard": refusal.heard[:60], "name": fact.label}


def spans(job: Job, state: State, fact: Fact) -> dict[str, str]:
    """The possible range as it is shown, for the sentences that name it."""
    if not fact.possible:
        return {"least": "", "most": ""}
    upper = most(job, state.situation, fact)
    return {
        "least": shown_settled(job, state, fact, fact.possible.least),
        "most": shown_value(state.log, state.situation, fact, float(upper)) if upper else "",
    }


def shown_settled(job: Job, state: State, fact: Fact, settled: str) -> str:
    """A settled spelling as it is shown."""
    known = known_of(job, Entry("", 0, fact.name, settled))
    return shown(job, state.log, state.situation, fact, known)


def doubtful(job: Job, state: State, name: str, doubt: Doubt, text: str) -> Outcome:
    """Two readings more than 2 % apart: ask which."""
    choices = tuple(shown_reading(job, state, name, reading) for reading in doubt.readings)
    offer = Offer(say(job, "doubt.which", heard=text.strip()[:60]), choices, say(job, "doubt.ask"))
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
    usual = usual_span(job, state.situation, fact)
    ends = {
        "least": shown_settled(job, state, fact, usual.least) if usual else "",
        "most": shown_settled(job, state, fact, usual.most) if usual else "",
    }
    options: list[tuple[str, Settled]] = [(name, found)]
    choices = [say(job, "unusual.keep", value=value)]
    if judged.likely:
        options.append((name, judged.likely))
        choices.append(shown_settled(job, state, fact, judged.likely.settled))
    offer = Offer(
        say(job, "unusual.is_it", value=value, name=fact.label, **ends),
        tuple(choices),
        say(job, "unusual.ask"),
    )
    moment = Moment(UNUSUAL, tuple(options), text=text)
    return Outcome(said=(offer,), state=replace(state, moment=moment))
