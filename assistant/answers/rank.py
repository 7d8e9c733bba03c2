"""From readings to one value or a doubt: what is possible is kept, 2 % apart is asked."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from assistant.answers.expect import Doubt, Expect, Settled, Trouble
from assistant.answers.fit import Guess, is_possible
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import exact

APART = Fraction(2, 100)
MOST_ASKED = 3


def settled(expect: Expect, spelling: str, *, clear: bool = True) -> Settled:
    """A settled value of this fact from its spelling."""
    return Settled(expect.fact, spelling, float(exact(expect.kind, spelling)), clear)


def decide(expect: Expect, guesses: Sequence[Guess]) -> Settled | Doubt:
    """The value that these readings (likelier first, at least one) come to.

    Raises: Trouble zero, not_whole, negative or percent_over_100 if that holds for every reading.
    """
    sound = _sound(expect, guesses)
    possible = [each for each in sound if is_possible(expect, each.spelled())] or sound
    kept, other_numbers = _usual(expect, possible)
    apart = distinct(expect, kept)
    if len(apart) > 1:
        return Doubt(tuple(settled(expect, each.spelled()) for each in apart[:MOST_ASKED]))
    chosen = apart[0]
    alone = all(_value(expect, each) == _value(expect, chosen) for each in kept)
    literal = chosen.sure and not chosen.stretched and chosen is guesses[0]
    clear = literal and alone and not other_numbers
    return settled(expect, chosen.spelled(), clear=clear)


def _sound(expect: Expect, guesses: Sequence[Guess]) -> list[Guess]:
    sound: list[Guess] = []
    trouble: Trouble | None = None
    for each in guesses:
        fault = _fault(expect, each)
        if fault:
            trouble = trouble or Trouble(fault)
        else:
            sound.append(each)
    if trouble and not sound:
        raise trouble
    return sound


def _fault(expect: Expect, guess: Guess) -> str:
    kind = KINDS[expect.kind]
    least = expect.least if expect.least is not None else 1
    if guess.number < 0 <= least:
        return "negative"
    if guess.number == 0 and least > 0 and not kind.zero:
        return "zero"
    if expect.whole and guess.number.denominator != 1:
        return "not_whole"
    most = expect.most if expect.most is not None else 1
    if kind.form == "percent" and guess.number > 100 * max(most, 1):
        return "percent_over_100"
    return ""


def _usual(expect: Expect, guesses: list[Guess]) -> tuple[list[Guess], bool]:
    """The readings that are usual for the fact, and whether another number was left out for it.

    That decides only between readings that are not literal, or where the likeliest one is usual.
    """
    usual = [each for each in guesses if is_usual(expect, each.spelled())]
    stretched = any(each.stretched for each in guesses)
    asked = len(distinct(expect, usual)) > 1  # a doubt all the same, but a shorter one
    if not usual or not (stretched or asked or guesses[0] in usual):
        return guesses, False
    left_out = {each.number for each in guesses} - {each.number for each in usual}
    return usual, bool(left_out)


def is_usual(expect: Expect, settled: str) -> bool:
    """Whether a value lies in the fact's usual range."""
    value = exact(expect.kind, settled)
    least, most = expect.usual_least, expect.usual_most
    return (least is None or value >= least) and (most is None or value <= most)


def distinct(expect: Expect, guesses: Sequence[Guess]) -> list[Guess]:
    """The readings that are more than 2 % from each one before them."""
    kept: list[Guess] = []
    for each in guesses:
        if all(_far(_value(expect, each), _value(expect, other)) for other in kept):
            kept.append(each)
    return kept


def _value(expect: Expect, guess: Guess) -> Fraction:
    return exact(expect.kind, guess.spelled())


def _far(one: Fraction, other: Fraction) -> bool:
    return abs(one - other) > APART * min(abs(one), abs(other))
