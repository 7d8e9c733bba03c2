"""Somebody who learns on a practice drill: does what is asked, and types what can be seen."""

from __future__ import annotations

from textwrap import wrap

from assistant.book.nobook import NoBook
from assistant.dialogue.messages import Message, Say, Trouble
from assistant.dialogue.questions import caution_word, proposals
from assistant.practice.practicing import JOB, PASSED, Practice, begun
from assistant.practice.sights import sights
from assistant.practice.uncovering import uncovered
from tests.stories.play import WIDTH, Played, job_named, world

MOST_LINES = 80


def practised(
    level: int,
    seed: str,
    *,
    primes: bool = True,
    looks: bool = False,
    system: str = "us",
    turns: int = 0,
) -> Played:
    """A practice drill set by somebody who takes whatever is proposed."""
    book = NoBook()
    sitting, said = begun(job_named(JOB), book, world(), system=system, level=level, seed=seed)
    talk = Played(sitting, book, [(None, said)])
    for _ in range(MOST_LINES):
        open_ = sitting.state.situation.open
        if sitting.finish or open_ is None:
            return talk
        if sitting.at_catch and sitting.state.moment is None:
            caught(talk, sitting, primes=primes, looks=looks)
        elif open_.kind == "ask":
            told = sights(sitting.yard, system)
            if turns and "turns" in open_.facts:
                told["rows_caught"], told["turns"] = "6", f"{turns}"
            line = ", ".join(told[name] for name in open_.facts if name in told)
            talk.hear(line if line or proposals(sitting.job, sitting.state) else "1")
        else:
            talk.hear(passing(sitting))
    raise AssertionError(talk.transcript())


def practice_told(level: int, seed: str) -> str:
    """A practice without priming, with a look into the tubs, and the truth after it."""
    talk = practised(level, seed, primes=False, looks=True)
    assert isinstance(talk.sitting, Practice)
    lines = (
        line
        for text in uncovered(talk.sitting, level=f"{level}", seed=seed)
        for line in wrap(text, WIDTH)
    )
    return "\n".join((talk.transcript(), *lines)) + "\n"


def caught(talk: Played, sitting: Practice, *, primes: bool, looks: bool) -> None:
    """Prime where that is a habit, turn at what is proposed, and type what the scale shows."""
    if primes and not sitting.yard.catches:
        talk.hear("prime")
    talk.hear("turn")
    shown = talk.exchanges[-1][1][0]
    assert isinstance(shown, Say)
    if looks:
        talk.hear("look")
    talk.hear(shown.text.rpartition(" shows ")[2].rstrip("."))


def passing(sitting: Practice) -> str:
    """What passes a caution or a list; the review is right."""
    open_ = sitting.state.situation.open
    assert open_ is not None
    if open_.hazard:
        return caution_word(sitting.job, sitting.state, open_)
    return PASSED if open_.kind == "wait" else ""


def refused(said: tuple[Message, ...]) -> list[str]:
    """What was refused."""
    return [each.text for each in said if isinstance(each, Trouble)]
