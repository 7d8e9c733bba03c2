"""Each mix-up put into random catches, and found through the program by what a person types.

Catches scatter by 2 in 100; numbers are typed as a scale and a tag show them. The mix-ups and the
catches are those that `tests/calc/test_suspects.py` makes.
"""

from __future__ import annotations

import random

import pytest

from assistant.book.nobook import NoBook
from assistant.calc.fault_examples import OWN
from assistant.calc.suspect_ratios import FIXED
from assistant.dialogue.events import Typed
from assistant.dialogue.situation import Value
from assistant.sitting.sitting import Sitting, open_sitting
from tests.calc.test_suspects import SLIPS, Told, with_the_slip
from tests.calc.us import BU, LB, LB_AC
from tests.stories.play import job_named, library, world

CASES, RIGHT_AT_LEAST = 100, 90
BY_RATE = {"germination_twice", "live_share_twice", "other_bushel"}
RECKONED = {"germination_twice": "plants", "live_share_twice": "live", "other_bushel": "bushels"}


def number(value: float, digits: int = 5) -> str:
    """A number as it is typed, with so many digits."""
    return f"{float(f'{value:.{digits}g}'):f}"


def answers(name: str, told: Told) -> dict[str, str]:
    """What a person would type to each question."""
    wanted = told.rate * told.ground / float(LB)
    got, exact = told.weight / float(LB), name == "ounces_as_decimal"
    rates = [number(each / float(LB_AC)) for each in (told.rate, told.weight / told.ground)]
    weights = [number(each, 9 if exact else 5) for each in (wanted, got)]
    percent = number(told.germination * 100)
    pure = number(told.live_seed_share / told.germination * 100)
    bushels = [number(each / float(LB / BU)) for each in (told.test_weight, told.trade_bushel)]
    return {
        "fault_where": "rate" if name in BY_RATE else "weight",
        "wanted_weight": f"{weights[0]} lb, {weights[1]} lb",
        "wanted_rate": f"{rates[0]} lb/ac, {rates[1]} lb/ac",
        "empty_tub": f"{number(told.tare / float(LB))} lb",
        "reckoned_by": RECKONED.get(name, "pounds"),
        "sprouting": f"{percent} %, {pure} %" if name == "live_share_twice" else f"{percent} %",
        "lot_bushel": f"{bushels[0]} lb/bu, {bushels[1]} lb/bu",
        "rows_in_tubs": f"{told.rows_caught:.0f} of {told.row_count:.0f}",
    }


def asked(sitting: Sitting) -> str:
    """The first fact that the open question asks."""
    open_ = sitting.state.situation.open
    return open_.facts[0] if open_ else ""


def looked_for(name: str, told: Told) -> Sitting:
    """The job, up to the list of the mix-ups that fit best, or to where it looks further."""
    sitting, _ = open_sitting(job_named("fault"), NoBook(), world())
    typed = answers(name, told)
    sitting.hear(Typed(typed.pop("fault_where")))
    while asked(sitting) in typed or sitting.state.moment:
        # what is unusual, as a slip may make it, is kept
        line = "1" if sitting.state.moment else typed[asked(sitting)]
        sitting.hear(Typed(line))
    return sitting


def shown(sitting: Sitting) -> tuple[Value, ...]:
    """The mix-ups that are listed by number."""
    if asked(sitting) != "suspect_number":
        return ()
    listed = sitting.state.situation.known["suspects_shown"].value
    assert isinstance(listed, tuple)
    return listed


@pytest.mark.parametrize("name", SLIPS)
def test_a_mix_up_is_listed_first_and_its_number_tells_what_to_put_right(name: str) -> None:
    chance = random.Random(f"through {name}")
    while name not in (listed := shown(sitting := looked_for(name, with_the_slip(name, chance)))):
        continue
    sitting.hear(Typed(str(listed.index(name) + 1)))
    known = sitting.state.situation.known
    assert known["found_slip"].value == name
    assert sitting.finish
    assert sitting.finish.outcome == "found"


def test_of_100_random_cases_the_right_one_comes_first_or_in_the_first_tie_in_90() -> None:
    chance = random.Random("hundred cases")
    names = [chance.choice(list(SLIPS)) for _ in range(CASES)]
    right = sum(name in shown(looked_for(name, with_the_slip(name, chance))) for name in names)
    print(f"right in the first tie, through the program: {right} of {CASES}")
    assert right >= RIGHT_AT_LEAST


def test_every_suspect_has_words_a_look_and_what_to_put_right() -> None:
    facts = library().facts
    for fact in ("suspects_shown", "found_slip"):
        assert {each.name for each in facts[fact].choices} == {*FIXED, *OWN} == set(SLIPS)
    mix_up_and_look = [each.label for each in facts["suspects_shown"].choices]
    assert all(label.count(". ") or label.count(": ") for label in mix_up_and_look)
