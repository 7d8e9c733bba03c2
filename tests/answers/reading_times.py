"""What reading an answer costs, in processor time: `tests/benchmark.py` prints it."""

from __future__ import annotations

import gc
import random
import time
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from assistant.answers import text
from assistant.answers.line import read_line
from assistant.answers.phrase import phrase
from assistant.answers.read import read
from tests.answers.neighbours import neighbours, rows
from tests.answers.test_properties import OTHERS, QUESTIONS, any_line

KEPT = (text.marked, text.unaccented, text.words_only, phrase)
"""What keeps the texts that it has seen; a text that was never seen is what is timed."""
MOST = 0.005  # seconds that a reading may take
EACH, LINES, TRIES = 8, 2_000, 3


def reading_times() -> Iterator[tuple[str, float, str]]:
    """Of single values and of whole lines: how many in 1,000 are over the limit, and the worst."""
    for name, acts in (("values", [*values()]), ("lines", [*lines()])):
        taken = [processor_time(act) for act in (*acts[:1], *acts)][1:]
        over = sum(each > MOST for each in taken)
        yield f"{name} read: in 1,000 over 5 ms", 1_000 * over / len(taken), "0"
        yield f"{name} read: the worst, ms", 1_000 * max(taken), "<= 5"


def values() -> Iterator[Callable[[], Any]]:
    """Each spelling of the table, and some slips of one key from it."""
    chance = random.Random(19)
    for question, typed in rows():
        for each in (typed, *chance.sample(tuple(neighbours(typed)), EACH)):
            yield partial(read, question, each)


def lines() -> Iterator[Callable[[], Any]]:
    """Up to seven scraps of answers in a row, in any order."""
    chance = random.Random(2024)
    for _ in range(LINES):
        yield partial(read_line, chance.choice(QUESTIONS), any_line(chance), OTHERS)


def processor_time(act: Callable[[], Any]) -> float:
    """Seconds of an act; of a slow one the least of three, for what a busy machine adds."""
    taken = [timed(act)]
    while taken[-1] > MOST and len(taken) < TRIES:
        taken.append(timed(act))
    return min(taken)


def timed(act: Callable[[], Any]) -> float:
    """Seconds of processor time, without a collection of garbage in them."""
    for kept in KEPT:
        kept.cache_clear()
    gc.disable()
    started = time.process_time()
    act()
    spent = time.process_time() - started
    gc.enable()
    return spent
