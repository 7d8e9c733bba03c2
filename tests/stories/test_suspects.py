"""Each ratio suspect through the program: a weight or a rate with the mix-up in it, worked by hand.

The catch misses what was meant by 1 or 2 in 100 besides, as catches do. The ratios are plain units
and circles; that these mix-ups are common is common practice, no source.
"""

from __future__ import annotations

import pytest

from assistant.dialogue.messages import Say
from tests.histories.talk import talk_of

# where, what is wanted and got, the two apart by hand, and a word of the look that would tell
WEIGHED = [
    ("1.400 lb, 0.694 lb", "2.02", "does every shaft turn?"),  # 1.4 / 2 = 0.700
    ("1.400 lb, 5.54 lb", "3.96", "four times the rows"),  # 1.4 x 4 = 5.60
    ("1.400 lb, 3.120 lb", "2.23", "Pounds and kilos"),  # 1.4 x 2.2046 = 3.086
    ("1.400 lb, 0.562 lb", "2.49", "Acres and hectares"),  # 1.4 / 2.4711 = 0.5666
    ("1.400 lb, 0.441 lb", "3.17", "Tape it round the tread"),  # 1.4 / 3.1416 = 0.4456
    ("1.400 lb, 0.226 lb", "6.19", "The axle's height"),  # 1.4 / 6.2832 = 0.2228
    ("1.400 lb, 4.56 lb", "3.26", "Feet and meters"),  # 1.4 x 3.2808 = 4.593
    ("1.400 lb, 13.90 lb", "9.93", "one place off"),  # 1.4 x 10
    ("1.400 lb, 14.90 lb", "10.6", "Square feet and square meters"),  # 1.4 x 10.764 = 15.07
    ("1.400 lb, 16.6 lb", "11.9", "Inches and feet"),  # 1.4 x 12 = 16.8
    ("1.400 lb, 22.1 lb", "15.8", "Ounces and pounds"),  # 1.4 x 16 = 22.4
    ("1.400 lb, 39.3 lb", "28.1", "Grams and ounces"),  # 1.4 x 28.35 = 39.69
    ("1.400 lb, 1.586 lb", "1.13", "Pounds an acre and kilos a hectare"),  # 1.4 x 1.1209 = 1.569
    ("1.190 lb, 1.300 lb", "1.09", "1 lb 3 oz is not 1.3 lb"),  # 1 lb 3 oz = 1.1875
]


QUESTIONS = 6
"""So many questions at most come before the mix-ups are named."""


def named_after(typed: str, tubs: str = "don't know") -> str:
    """All that is said till the mix-ups are named, with nothing known but the tubs."""
    talk = talk_of("fault")
    talk.type("weight")
    said = [*talk.type(typed)]
    for _ in range(QUESTIONS):
        if talk.open.facts == ("suspect_number",):
            break
        said += talk.type(tubs if "rows_in_tubs" in talk.open.facts else "don't know")
    assert talk.open.facts == ("suspect_number",), said
    return "\n".join(each.text for each in said if isinstance(each, Say))


@pytest.mark.parametrize(("typed", "apart", "look"), WEIGHED)
def test_a_mix_up_of_a_known_ratio_is_among_the_first(typed: str, apart: str, look: str) -> None:
    said = named_after(typed)
    assert f"{apart} times apart" in said
    assert look in said


@pytest.mark.parametrize(
    ("tubs", "typed", "look"),
    [
        ("6, 24", "1.400 lb, 1.640 lb", "One row more or fewer"),  # 7 for 6: 1.4 x 7 / 6 = 1.633
        ("6, 24", "1.400 lb, 1.160 lb", "One row more or fewer"),  # 5 for 6: 1.4 x 5 / 6 = 1.167
        ("6, 18", "1.400 lb, 4.24 lb", "All rows of the drill"),  # 18 for 6: 1.4 x 3 = 4.2
    ],
)
def test_rows_that_were_miscounted_are_among_the_first(tubs: str, typed: str, look: str) -> None:
    assert look in named_after(typed, tubs)
