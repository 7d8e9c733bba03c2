"""The card as text, at most 40 columns wide: what a person needs in the field, nothing more."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import replace

from assistant.card.ending import ending
from assistant.dialogue.job import Job, State
from assistant.dialogue.situation import Known, never_asked
from assistant.dialogue.wording import HOLE, fill, say, shown, told_as
from assistant.flow.model import Fact

WIDTH = 40


def card_text(  # noqa: PLR0913  what the shell knows of a card
    job: Job, state: State, *, outcome: str, date: str, number: str, follows: str = ""
) -> str:
    """The whole card. Its date, its number and the one that it corrects come from the shell."""
    layout = job.library.card
    lines = [
        layout.title,
        layout.outcomes[ending(outcome, state.situation.known)],
        *filled_lines(job, state, layout.lines, "", marked=True),
        *half_lines(job, state, ""),
        *filled_lines(job, state, layout.shared_lines, ""),
    ]
    if "other_half.caught_rate" in state.situation.known:
        lines += [layout.half, *half_lines(job, state, "other_half.")]
    known = state.situation.known
    after = next((ls for fact, ls in layout.after_with.items() if fact in known), layout.after)
    lines += [*after, fill(layout.dated, {"date": date, "id": number})]
    if follows:
        why = state.log.reason
        form = "card.follows_because" if why else "card.follows"
        lines.append(say(job, form, id=follows, why=why))
    return "\n".join(each for line in lines for each in folded(line))


def half_lines(job: Job, state: State, prefix: str) -> Iterator[str]:
    """The lines of one half: what was set and caught there."""
    return filled_lines(job, state, job.library.card.half_lines, prefix)


def filled_lines(
    job: Job, state: State, lines: Iterable[str], prefix: str, *, marked: bool = False
) -> Iterator[str]:
    """Each line with its values; one whose facts were never asked is left out.

    So is one of several facts where one is not known: what it says of them together can't hold.
    A line says so where it is a guess; with `marked`, where its numbers are or rest on one.
    """
    for line in lines:
        names = {hole: prefix + hole for hole in HOLE.findall(line)}
        known = {hole: state.situation.known.get(real) for hole, real in names.items()}
        if any(each is None or never_asked(each) for each in known.values()):
            continue
        if len(known) > 1 and any(each and each.value is None for each in known.values()):
            continue
        values = {
            hole: card_value(job, state, names[hole], each)
            for hole, each in known.items()
            if each is not None
        }
        text = fill(line, values)
        guess = any(each and on_trust(each, results=marked) for each in known.values())
        yield say(job, "card.guess", line=text) if guess else text


def on_trust(known: Known, *, results: bool) -> bool:
    """Whether a value is a guess worth naming.

    With `results` a number is, worked out or not, and no name; else a choice, or what was told.
    """
    name = isinstance(known.value, str)
    return known.guess and (not name if results else name or not known.inputs)


def card_value(job: Job, state: State, name: str, known: Known) -> str:
    """A value as the card shows it: a rate in both systems, a distance with its origin."""
    fact = told_as(job, state.situation, name)
    value = shown(job, state.log, state.situation, fact, known)
    if fact.kind == "rate" and isinstance(known.value, float):
        other = "metric" if "lb" in value else "us"
        value = f"{value} ({in_system(job, state, fact, known, other)})"
    return value


def in_system(job: Job, state: State, fact: Fact, known: Known, system: str) -> str:
    """A value in the other system of units."""
    log = replace(state.log, system=system, convert=True)
    return shown(job, log, state.situation, fact, known)


def folded(line: str) -> list[str]:
    """A line folded to the width of the card, further lines set in."""
    return textwrap.wrap(line, WIDTH, subsequent_indent="  ") or [""]
