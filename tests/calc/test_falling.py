"""A box that runs empty: when it is told, when not, and that the likelihood is what it says."""

from __future__ import annotations

from math import log
from random import Random

import numpy as np
import pytest
from scipy import stats

from assistant.calc import turned
from assistant.calc.beliefs import Told
from assistant.calc.deciding import guesses_by
from assistant.calc.falling import since_full
from tests.calc.test_turned import case, facts, judged, told

RUNS_EMPTY = ((14, 0.9), (15.5, 0.934), (16, 0.9))
"""Opened twice by a mark or three, and less comes: full, 16 mm would throw 1.03."""


def empties(*catches: tuple[float, float]) -> bool:
    """Whether the last catch is taken for one of a box that runs empty."""
    return isinstance(judged(*catches), turned.RunsEmpty)


def test_it_is_told_once_and_all_begins_anew_after_it() -> None:
    assert empties(*RUNS_EMPTY)
    assert not empties(*RUNS_EMPTY, (16, 1.03))
    assert len(facts(*RUNS_EMPTY).since_full.told) == 3
    assert [round(each.opening) for each in facts(*RUNS_EMPTY, (16, 1.03)).since_full.told] == [16]
    again = facts(*RUNS_EMPTY, (16, 1.03), (15.5, 1.0))
    alone = facts((16, 1.03), (15.5, 1.0))
    assert [each._replace(first=False) for each in again.since_full.told] == [
        each._replace(first=False) for each in alone.since_full.told
    ]


@pytest.mark.parametrize(
    "catches",
    [
        ((14, 0.9),),
        ((14, 1.0), (14, 0.95)),  # two catches are no run
        ((14, 0.9), (15.5, 0.99), (15.5, 1.01)),
        ((14, 1.0), (14, 0.97), (14, 0.99)),
        ((14, 1.0), (14, 0.72), (14, 1.0)),  # a tub that was off is odd, not a box that empties
        ((14, 1.0), (14, 0.72), (14, 0.72)),
    ],
)
def test_where_nothing_falls_nothing_is_told(catches: tuple[tuple[float, float], ...]) -> None:
    assert not empties(*catches)


def test_a_catch_that_brought_nothing_is_another_matter() -> None:
    assert not empties(*RUNS_EMPTY[:2], (16, 0.0))


def test_two_runs_that_each_emptied_the_box() -> None:
    seen = told(*RUNS_EMPTY, (16, 1.0), (17, 1.0), (18, 1.0), (18, 1.2))
    assert since_full(seen, case()).told == (seen[-1]._replace(set_anew=True),)


def test_second_opinion_on_the_likelihood_of_a_guess() -> None:
    """Of one guess all catches together are normal: scipy has the law of many at once."""
    seen = [
        Told(14, log(0.9), set_anew=True),
        Told(14, log(0.93), set_anew=False),
        Told(16, log(1.02), set_anew=True),
    ]
    gains = []
    for guess in guesses_by(seen[0], case()):
        if guess.short:
            continue
        after = guess
        for each in seen:
            after = after.after(each)
        by = np.array([each.opening - guess.dead_zone for each in seen])
        play = (guess.play / by) ** 2
        together = np.full((3, 3), guess.law.variance) + np.diag(play + guess.scatter)
        together[0, 1] = together[1, 0] = guess.law.variance + play[0]
        law = stats.multivariate_normal(guess.law.mean + np.log(by), together)
        gains.append(after.weight - guess.weight - law.logpdf([each.caught for each in seen]))
    assert gains == pytest.approx([3 * log(2 * np.pi) / 2] * len(gains))


@pytest.mark.parametrize(
    ("drift", "least", "most"), [(0.0, 0.0, 0.02), (-0.03, 0.7, 1.0), (-0.06, 0.9, 1.0)]
)
def test_how_often_it_is_told_of_five_catches(drift: float, least: float, most: float) -> None:
    """60 drills whose lever lands 0.15 mm beside its mark and whose catches scatter by 1.2 %."""
    random, alarms = Random(7), 0
    marks = (14, 15, 15.5, 15, 15.5)
    for _ in range(60):
        catches = [
            (mark, (random.gauss(mark, 0.15) - 1) / 14 * random.gauss(1, 0.012) * (1 + drift) ** at)
            for at, mark in enumerate(marks)
        ]
        alarms += any(empties(*catches[:n]) for n in range(3, 6))
    assert least <= alarms / 60 <= most
