"""Each working on the screen holds when a pocket calculator works out what is printed.

The evaluator is this file's own: it shares no code with the program and reads the printed words.
The printed result is what the printed numbers give, to the last digit that it shows.
Factors: NIST Handbook 44, Appendix C (1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 ac = 43,560 sq ft).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fractions import Fraction

import pytest

from assistant.dialogue.messages import Work
from tests.stories.play import played
from tests.stories.story import stories

FOOT, POUND = Fraction("0.3048"), Fraction("0.45359237")
ACRE = 43560 * FOOT**2
FACTORS = {
    "mm": FOOT / Fraction("304.8"),
    "cm": FOOT / Fraction("30.48"),
    "m": Fraction(1),
    "in": FOOT / 12,
    "ft": FOOT,
    "sq ft": FOOT**2,
    "sq m": Fraction(1),
    "g": Fraction(1, 1000),
    "kg": Fraction(1),
    "oz": POUND / 16,
    "lb": POUND,
    "lb/ac": POUND / ACRE,
    "kg/ha": Fraction(1, 10_000),
    "bu/ac": 1 / ACRE,
    "lb/bu": POUND,
    "per lb": 1 / POUND,
    "per kg": Fraction(1),
    "per sq ft": 1 / FOOT**2,
    "per sq m": Fraction(1),
    "per ac": 1 / ACRE,
    "per ft": 1 / FOOT,
    "per m": Fraction(1),
    "%": Fraction(1, 100),
    "": Fraction(1),
}
"""What a printed unit is in kilos and meters; seeds, plants, rows and turns are counts."""

NUMBER = r"[\d,]+(?:\.\d+)?"
UNIT = "|".join(sorted(map(re.escape, filter(None, FACTORS)), key=len, reverse=True))
PER_1000 = " per 1,000 seeds"
COUNTED = r"(?:seeds |plants |rows |turns )?"
FEET = re.compile(rf"({NUMBER}) ft ({NUMBER}) in$")
ONE = re.compile(rf"({NUMBER}) ?{COUNTED}({UNIT})?$")


def value(text: str) -> Fraction:
    """A printed value in kilos and meters, just as it is printed."""
    feet = FEET.match(text)
    if feet:
        return value(f"{feet[1]} ft") + value(f"{feet[2]} in")
    if text.endswith(PER_1000):
        return 1000 / value(text.removesuffix(PER_1000))
    found = ONE.match(text)
    assert found, text
    return Fraction(found[1].replace(",", "")) * FACTORS[found[2] or ""]


def last_digit(text: str) -> Fraction:
    """One of the last digit that a printed value shows, in kilos and meters."""
    found = ONE.match(text)
    assert found, text
    return FACTORS[found[2] or ""] * Fraction("0.1") ** len(found[1].partition(".")[2])


def times(*texts: str) -> Fraction:
    """A product of printed values."""
    result = Fraction(1)
    for each in texts:
        result *= value(each)
    return result


VALUE = r"(.+?)(?:, or .+?)?"  # a second unit is the same once more
PLANTS = (
    rf"{VALUE} of the seeds sprout, and {VALUE} of those come up\.\n"
    rf"So for {VALUE} you drop {VALUE}\."
)
WORKINGS: dict[str, tuple[str, Callable[..., Fraction]]] = {
    "ground": (
        rf"{VALUE} rows? at {VALUE}, {VALUE} turns of {VALUE} = {VALUE}\.",
        times,
    ),
    "rolled_distance_per_turn": (
        rf"{VALUE} over {VALUE} turns = {VALUE} a turn(?: of the crank)?\.",
        lambda far, turns: value(far) / times(turns),
    ),
    "axle_distance_per_turn": (
        rf"Twice {VALUE} times 3\.1416 = {VALUE} a turn\.",
        lambda high: times("6.2832", high),
    ),
    "rate_from_bushels": (rf"{VALUE} at {VALUE} = {VALUE}\.", times),
    "seeds_for_plants": (
        PLANTS,
        lambda sprout, come_up, plants: value(plants) / times(sprout, come_up),
    ),
    "rate_from_seeds": (rf"{VALUE} at {VALUE} = {VALUE}\.", lambda s, size: value(s) / times(size)),
    "rate_from_pure_seeds": (
        rf"{VALUE} at {VALUE}, {VALUE} pure = {VALUE}\.",
        lambda seeds, size, pure: value(seeds) / times(size, pure),
    ),
    "seeds_on_the_row": (rf"{VALUE} at {VALUE} = {VALUE} of row\.", times),
    "row_plants_to_area": (rf"{VALUE} at {VALUE} = {VALUE}\.", lambda n, s: value(n) / times(s)),
    "row_seeds_to_area": (rf"{VALUE} at {VALUE} = {VALUE}\.", lambda n, s: value(n) / times(s)),
}
"""By its calculation: how a working reads, its result last, and what it comes to."""


def works() -> Iterator[list[Work]]:
    """What each story works out, in its order; where little is said, workings are left out."""
    for story in stories():
        if story.say != "short":
            said = [each for _, heard in played(story).exchanges for each in heard]
            yield [each for each in said if isinstance(each, Work)]


def near(worked: Fraction, printed: str, slack: Fraction = Fraction(0)) -> bool:
    """Whether a result is what is printed, to the last digit shown."""
    return abs(worked - value(printed)) <= last_digit(printed) + slack


def holds(work: Work) -> bool:
    """Whether the printed numbers give the printed result."""
    pattern, worked = WORKINGS[work.calculation]
    found = re.match(rf"{pattern}(?=\s|$)", work.text)
    assert found, work.text
    *inputs, result = found.groups()
    return near(worked(*inputs), result)


@pytest.mark.parametrize("calculation", WORKINGS)
def test_a_working_holds_by_the_printed_numbers(calculation: str) -> None:
    texts = {w.text: w for told in works() for w in told if w.calculation == calculation}
    assert texts
    assert [text for text, work in texts.items() if not holds(work)] == []


CATCH = re.compile(rf"{VALUE} on that ground = {VALUE} of seed, {VALUE} a row\.")
GROUND = re.compile(rf"{VALUE} rows? at .* = {VALUE}\.$")
TENS = Fraction(10)  # a scale may show grams by tens


def test_the_catch_to_expect_holds_by_the_ground_printed_before() -> None:
    """Rate and ground are results themselves: each may be half of its last digit off as printed."""
    checked = 0
    for told in works():
        ground = None
        for work in told:
            ground = GROUND.match(work.text) or ground
            found = CATCH.match(work.text)
            if found and ground:
                (rate, catch, row), (rows, area) = found.groups(), ground.groups()
                slack = last_digit(rate) * value(area) / 2 + value(rate) * last_digit(area) / 2
                marks = TENS * last_digit(catch) if catch.endswith("0 g") else Fraction(0)
                assert near(times(rate, area), catch, slack + marks), (area, work.text)
                assert near(times(rate, area) / value(rows), row, slack / value(rows)), work.text
                checked += 1
    assert checked > 20


@pytest.mark.parametrize(
    ("calculation", "text"),
    [
        ("ground", "6 rows at 7.5 in, 30 turns of 81.5 in = 774 sq ft."),
        ("rate_from_seeds", "35.8 seeds per sq ft at 12,500 per lb = 127 lb/ac."),
        ("rolled_distance_per_turn", "66 ft 3 in over 10 turns = 79.7 in a turn."),
    ],
)
def test_a_planted_fault_is_found(calculation: str, text: str) -> None:
    assert not holds(Work(calculation, "worked", text))
