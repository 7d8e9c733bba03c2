"""How sure it is: against a Monte Carlo of the same drills, and the sense of it by cases."""

from __future__ import annotations

from math import log

import numpy as np
import pytest
from scipy import stats

from assistant.calc import certainty
from assistant.calc.contract import Trial

TARGET, STEP, TURNS, TOLERANCE = 0.3, 0.001, 40.0, 0.05
DRAWS = 400_000


def judged(
    *catches: tuple[float, float], **given: float
) -> certainty.Chance.Sure | certainty.Chance.Likely | certainty.Chance.Doubtful:
    """How sure it is after catches of (opening in mm, seed over what is wanted)."""
    trials = tuple(Trial(opening=mm / 1000, catch_weight=ratio * TARGET) for mm, ratio in catches)
    facts = {
        "tare": 0.0,
        "catch_step": STEP,
        "target_catch": TARGET,
        "turns": TURNS,
        "tolerance": TOLERANCE,
        "start_may_miss": 0.2,
        "chance_sure": 0.99,
        "chance_likely": 0.9,
        "one_turn": 1.0,
        "one_mm": 0.001,
    }
    return certainty.chance_on_target(trials=trials, **(facts | given))


def chance(*catches: tuple[float, float], **given: float) -> float:
    """The chance after such catches."""
    return judged(*catches, **given).on_target_chance


def drawn(catches: tuple[tuple[float, float], ...]) -> float:
    """The same by drawing drills from the prior and weighing each by how well it fits."""
    random = np.random.default_rng(5)
    dead = random.choice([-1.75, 0.75, 3.25], DRAWS)
    weight = np.exp(-(((dead - 1) / 2) ** 2) / 2)
    repeat = random.choice([0.006, 0.0125, 0.020], DRAWS)
    play = random.choice([0.08, 0.15, 0.27], DRAWS)
    short = random.random(DRAWS) < 0.1
    law = random.normal(-np.log(catches[0][0] - dead), 0.12)
    noise = (0.5 / TURNS) ** 2 + (STEP / TARGET) ** 2 / 6 + 0.02 / TURNS**2
    stands, last = np.zeros(DRAWS), None
    for number, (opening, ratio) in enumerate(catches):
        if opening != last:
            open_by, last = opening - dead, opening
            stands = random.normal(law + np.log(open_by), play / open_by)
        first = short & (number == 0)
        spread = np.sqrt(repeat**2 + noise + np.where(first, 0.04**2, 0))
        weight = weight * stats.norm.pdf(log(ratio), stands - np.where(first, 0.09, 0), spread)
    inside = (stands > log(1 - TOLERANCE)) & (stands < log(1 + TOLERANCE))
    return float(np.sum(weight * inside) / np.sum(weight))


@pytest.mark.parametrize(
    "catches",
    [
        ((14, 1.0),),
        ((14, 1.04),),
        ((14, 1.0), (14, 1.02)),
        ((14, 1.045), (14, 1.04)),
        ((20, 1.2), (17, 1.02)),
        ((14, 0.93), (14, 1.0), (14, 1.01)),
        ((10, 0.8), (12.5, 1.03), (12, 1.0), (12, 0.99)),
    ],
)
def test_second_opinion_by_drawing_drills(catches: tuple[tuple[float, float], ...]) -> None:
    assert chance(*catches) == pytest.approx(drawn(catches), abs=0.01)


def test_the_edge_of_the_tolerance_proves_nothing() -> None:
    assert chance((14, 1.05), (14, 1.05)) == pytest.approx(0.5, abs=0.1)
    assert chance((14, 1.2), (14, 1.2)) < 0.001


def test_more_catches_more_turns_and_a_wider_tolerance_make_it_surer() -> None:
    one, two, three = (chance(*[(14, 1.01)] * times) for times in (1, 2, 3))
    assert one < two < three
    assert chance((14, 1.02), (14, 1.02), turns=20.0) < chance((14, 1.02), (14, 1.02))
    near = chance((14, 1.02), (14, 1.02), tolerance=0.03)
    assert near < chance((14, 1.02), (14, 1.02)) < chance((14, 1.02), (14, 1.02), tolerance=0.08)


def test_a_lever_that_was_set_anew_may_stand_elsewhere() -> None:
    """Away and back: what was caught before tells less than had nobody touched the lever."""
    stayed = chance((14, 1.03), (14, 1.03), (14, 1.03))
    moved = chance((14, 1.03), (15, 1.1), (14, 1.03))
    assert moved < stayed


def test_a_catch_that_brought_nothing_tells_nothing() -> None:
    assert chance((14, 0.0), (14, 1.0), (14, 1.02)) == chance((14, 1.0), (14, 1.02))


@pytest.mark.parametrize(
    ("catches", "outcome"),
    [
        (((14, 1.0), (14, 1.01)), certainty.Chance.Sure),
        (((14, 1.027), (14, 1.03)), certainty.Chance.Likely),
        (((14, 1.045), (14, 1.045)), certainty.Chance.Doubtful),
    ],
)
def test_from_where_on_it_is_sure_or_likely(
    catches: tuple[tuple[float, float], ...], outcome: type
) -> None:
    assert isinstance(judged(*catches), outcome)
