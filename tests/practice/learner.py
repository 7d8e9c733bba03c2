"""Somebody who learns on a practice drill: does what is asked, and types what can be seen."""

from __future__ import annotations

import re
from textwrap import wrap

from assistant.book.nobook import NoBook
from assistant.dialogue.messages import Message, Say, Trouble
from assistant.dialogue.questions import proposals
from assistant.practice.population import RULER
from assistant.practice.practicing import JOB, Practice, as_seen, begun
from assistant.practice.uncovering import uncovered
from tests.stories.play import WIDTH, Played, job_named, world

MOST_LINES = 80
TOLD = re.compile(" shows | themselves: ")
"""What stands before the weights."""


def practised(
    level: int,
    seed: str,
    *,
    primes: bool = True,
    looks: bool = False,
    shuts: bool = True,
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
        if sitting.state.moment is not None:
            talk.hear("yes")  # what the scale showed is kept, however odd
        elif sitting.at_catch:
            if shuts and goes_down(sitting):
                talk.hear("shut")
            caught(talk, sitting, primes=primes, looks=looks)
        elif turns and "turns" in open_.facts:
            talk.hear(f"6, {turns}")
        else:
            line = as_seen(sitting)
            asked = open_.kind == "ask" and not proposals(sitting.job, sitting.state)
            talk.hear(line or ("1" if asked else ""))
    raise AssertionError(talk.transcript())


def practice_told(level: int, seed: str) -> str:
    """A practice without priming, with each tub weighed by itself, and the truth after it."""
    talk = practised(level, seed, primes=False, looks=True)
    assert isinstance(talk.sitting, Practice)
    lines = (
        line
        for text in uncovered(talk.sitting, level=f"{level}", seed=seed)
        for line in wrap(text, WIDTH)
    )
    return "\n".join((talk.transcript(), *lines)) + "\n"


def goes_down(sitting: Practice) -> bool:
    """Whether the opening that comes next is smaller than the one that the lever stands at."""
    at, to = sitting.yard.set_at, sitting.setting("")
    return at is not None and to is not None and to < at - RULER / 10


def caught(talk: Played, sitting: Practice, *, primes: bool, looks: bool) -> None:
    """Prime where that is a habit, turn at what is proposed, and type what the scale shows.

    Who looks types each tub by itself.
    """
    if primes and not sitting.yard.catches:
        talk.hear("prime")
    talk.hear("turn")
    if looks:
        talk.hear("look")
    shown = talk.exchanges[-1][1][0]
    assert isinstance(shown, Say)
    weights, _, _ = shown.text.partition(". You can")
    talk.hear(TOLD.split(weights)[1].rstrip("."))


def refused(said: tuple[Message, ...]) -> list[str]:
    """What was refused."""
    return [each.text for each in said if isinstance(each, Trouble)]
