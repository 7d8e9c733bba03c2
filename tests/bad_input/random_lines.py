"""Lines that nobody would type, and some that people do, put together by seeded chance."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence

from assistant.dialogue.fold import replayed
from assistant.dialogue.job import State
from assistant.dialogue.messages import Message
from assistant.flow.model import Library
from assistant.sitting.plain_text import lines_of
from tests.bad_input.questions import answered, states
from tests.script.running import calibrate

WORDS = """
0 1 2 7 24 30 80 7.5 7,5 7½ 1/2 0.9 1.39 14 92 100 6' 9 12,500 1.250 1e6 -3 +5 ~8 ¾ ８ ٣
in in. " ' ft mm cm m lb lb. # oz g kg % ac /ac ha bu PLS seeds plants per sq ft row
rows turns at x = + / , ; . ? ! ( ) and y con de full empty tub gross net hard germ
why help back change review repeat later pause units us metric undo skip 4 to drop card
yes no ok done jack wheat lot none nan inf <b> {target} %s \\n \x1b[31m \x00 \u202e 🚜 ñ
"""
PHRASES = ("don't know", "what is", "change 3", "give up", "\t", "\n", "a" * 50, "9" * 40)
PIECES = (*WORDS.split(), *PHRASES)
LONGEST = 8
WIDTH = 40


def line(chance: random.Random) -> str:
    """A line of a few pieces, mostly with a space between them."""
    pieces = [chance.choice(PIECES) for _ in range(chance.randrange(LONGEST))]
    return chance.choice((" ", " ", " ", "", ", ")).join(pieces)


def assert_sound(state: State, text: str) -> None:
    """One line at one question: an answer in plain words, and a log that can be told again."""
    after, said = answered(state, text)
    for shown in on_screen(said):
        assert shown.isprintable(), repr(text)
        assert len(shown) <= WIDTH, repr(text)
    assert said or after.situation.open, repr(text)
    if after.log != state.log:
        again = replayed(calibrate(), after.log)[0].situation
        assert (again.known, again.rows) == (after.situation.known, after.situation.rows)
        assert again.open == after.situation.open, repr(text)


def on_screen(said: Sequence[Message]) -> Iterator[str]:
    """The lines of some messages on a narrow screen."""
    library: Library = calibrate().library
    for message in said:
        yield from lines_of(library, message, WIDTH)


def walk(seed: int, count: int) -> None:
    """So many random lines, each at a random question."""
    chance = random.Random(seed)
    for _ in range(count):
        assert_sound(chance.choice(states()), line(chance))
