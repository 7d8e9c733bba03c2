"""Slips of hand put into ordinary values: the right one is offered first, and none is made up.

The share asked for, 80 in 100, is our own. The ranges are those of a drill; common practice.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from assistant.answers.expect import Expect, Refusal, Settled, Unusual
from assistant.answers.rank import settled
from assistant.answers.slips import judge
from assistant.quantities.settled import exact, spell
from tests.answers import questions as q

VALUES, RIGHT_AT_LEAST = 500, Fraction(4, 5)
QUESTIONS = (
    q.usual(q.SPACING, "4 in", "15 in"),
    q.usual(q.ONE_TURN, "48 in", "168 in"),
    q.usual(replace(q.OPENING_MM, fact="widest"), "15 mm", "80 mm"),
    q.usual(q.TEST_WEIGHT, "10 lb/bu", "70 lb/bu"),
)


def in_unit(unit: str) -> Callable[[Expect, Fraction, str], str | None]:
    """The number is right and its unit is not."""
    return lambda expect, number, own: (
        spell(number, unit) if expect.kind != "bulk_density" and own != unit else None
    )


def point_lost(_: Expect, number: Fraction, unit: str) -> str | None:
    """7.5 typed as 75."""
    return spell(number * 10, unit) if number.denominator != 1 else None


SLIPS: dict[str, Callable[[Expect, Fraction, str], str | None]] = {
    "ten times": lambda _, number, unit: spell(number * 10, unit),
    "a tenth": lambda _, number, unit: spell(number / 10, unit),
    "the point lost": point_lost,
    "feet for inches": in_unit("ft"),
    "centimeters for inches": in_unit("cm"),
}


def drawn(chance: random.Random) -> tuple[Expect, Fraction, str]:
    """A question, and an ordinary value of it to a tenth of its unit."""
    expect = chance.choice(QUESTIONS)
    assert expect.usual_least
    assert expect.usual_most
    unit = expect.bare[0]
    one = exact(expect.kind, f"1 {unit}")
    tenths = (expect.usual_least / one * 10, expect.usual_most / one * 10)
    return expect, Fraction(chance.randint(int(tenths[0]) + 1, int(tenths[1])), 10), unit


def offered(judged: Refusal | Unusual | None) -> str | None:
    """What is offered in place of a value."""
    match judged:
        case Unusual(Settled(_, likely)):
            return likely
        case Refusal():
            return dict(judged.about).get("likely")
    return None


@pytest.mark.parametrize("slip", SLIPS)
def test_the_slip_that_was_made_is_offered_first(slip: str) -> None:
    chance = random.Random(slip)
    right = asked = 0
    while asked < VALUES:
        expect, number, unit = drawn(chance)
        typed = SLIPS[slip](expect, number, unit)
        judged = judge(expect, settled(expect, typed)) if typed else None
        if judged is None:  # a slip that stays among the usual can't be seen
            continue
        asked += 1
        likely, meant = offered(judged), spell(number, unit)
        right += likely is not None and exact(expect.kind, likely) == exact(expect.kind, meant)
    assert Fraction(right, asked) >= RIGHT_AT_LEAST, (right, asked)


def test_nothing_is_offered_in_place_of_a_usual_value() -> None:
    chance = random.Random(0)
    for _ in range(VALUES):
        expect, number, unit = drawn(chance)
        assert judge(expect, settled(expect, spell(number, unit))) is None
