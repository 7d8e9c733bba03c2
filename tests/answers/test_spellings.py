"""Lengths and weights in every spelling settle exactly. The whole set is a campaign."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from assistant.answers.expect import Doubt, Settled
from assistant.answers.read import read
from assistant.quantities.settled import decimal, exact
from tests.answers import questions as q

TAPED = q.possible(q.STRIP, "1/16 in", "100 ft")  # 528.875 in is then no 528,875 in
SIXTEENTHS = range(1, 100 * 12 * 16 + 1)
TENTHS_OF_OUNCE = range(1, 100 * 16 * 10 + 1)


def mixed(number: Fraction) -> str:
    """8 for 8, 8 1/2 for 17/2, 1/2 for 1/2."""
    whole, rest = divmod(number, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest.numerator}/{rest.denominator}" if whole else str(rest)


def lengths(inches: Fraction) -> Iterator[str]:
    """A length in each spelling that a tape is read in."""
    feet, over = divmod(inches, 12)
    yield f"{mixed(inches)} in"
    yield f'{mixed(inches)}"'
    yield f"{decimal(inches)} inches"
    yield f"{decimal(inches)} pulgadas"
    if feet:
        yield f"{feet}' {mixed(over)}\""
        yield f"{feet}’{mixed(over)}”"
        yield f"{feet}′ {decimal(over)}″"
        yield f"{feet} ft {mixed(over)} in"
        yield f"{feet}ft {decimal(over)}"
        yield f"{feet} feet {mixed(over)}"
        yield f"{feet} pies {mixed(over)} pulgadas"


def weights(ounces: Fraction) -> Iterator[str]:
    """A weight in each spelling that a scale shows."""
    pounds, over = divmod(ounces, 16)
    yield f"{decimal(ounces)} oz"
    yield f"{mixed(ounces)} ounces"
    yield f"{decimal(ounces)} onzas"
    if pounds:
        yield f"{pounds} lb {decimal(over)} oz"
        yield f"{pounds}lb{decimal(over)}oz"
        yield f"{pounds} pounds and {mixed(over)} ounces"
        yield f"{pounds}# {decimal(over)} oz"
        yield f"{pounds}:{decimal(over)}"


def assert_length(sixteenths: int) -> None:
    inches = Fraction(sixteenths, 16)
    for typed in lengths(inches):
        told = read(TAPED, typed)
        if isinstance(told, Doubt):  # "1.125 inches": a point before three digits is asked about
            assert re.search(r"\d\.\d{3}(?!\d)", typed), (typed, told)
            told = told.readings[0]
        assert isinstance(told, Settled), (typed, told)
        assert told.clear, typed
        assert exact("length", told.settled) == inches * Fraction("0.0254"), typed


def assert_weight(tenths: int) -> None:
    ounces = Fraction(tenths, 10)
    for typed in weights(ounces):
        told = read(q.CATCH, typed)
        assert isinstance(told, Settled), (typed, told)
        assert told.clear, typed
        assert exact("mass", told.settled) == ounces * Fraction("0.028349523125"), typed


@pytest.mark.parametrize("sixteenths", random.Random(16).sample(SIXTEENTHS, 60))
def test_a_length_to_the_sixteenth_of_an_inch_settles_exactly(sixteenths: int) -> None:
    assert_length(sixteenths)


@pytest.mark.parametrize("tenths", random.Random(10).sample(TENTHS_OF_OUNCE, 60))
def test_a_weight_to_the_tenth_of_an_ounce_settles_exactly(tenths: int) -> None:
    assert_weight(tenths)


@pytest.mark.campaign
def test_every_sixteenth_of_an_inch_to_100_feet_settles_exactly() -> None:
    for sixteenths in SIXTEENTHS:
        assert_length(sixteenths)


@pytest.mark.campaign
def test_every_tenth_of_an_ounce_to_100_pounds_settles_exactly() -> None:
    for tenths in TENTHS_OF_OUNCE:
        assert_weight(tenths)
