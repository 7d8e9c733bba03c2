"""Openings that are turned: each guess as one joint normal law of all catches, by scipy."""

from collections.abc import Iterator, Sequence
from itertools import accumulate, product
from math import exp, log
from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from assistant.calc import assumed
from assistant.calc.beliefs import Belief, Repeats, Told
from assistant.calc.deciding import (
    Case,
    Marks,
    band,
    chance_within,
    foretold_catch,
    guesses_by,
    odd_among,
)
from tests.calc.test_second_opinions import EXAMPLES

CLOSE = 1e-9


class Law(NamedTuple):
    """What one guess makes of a catch ahead: its share of all guesses, and a normal law."""

    share: float
    mean: float
    variance: float


def laws(catches: Sequence[Told], ahead: Told, case: Case, of_catch: bool) -> list[Law]:
    """All guesses; of the catch itself, or of what the drill throws there."""
    weighed = list(_weighed(catches, ahead, case, of_catch))
    most = max(weight for weight, _, _ in weighed)
    kept = [(exp(w - most), mean, var) for w, mean, var in weighed if w > most - assumed.FAINT]
    total = sum(weight for weight, _, _ in kept)
    return [Law(weight / total, mean, variance) for weight, mean, variance in kept]


def _weighed(
    catches: Sequence[Told], ahead: Told, case: Case, of_catch: bool
) -> Iterator[tuple[float, float, float]]:
    told = [*catches, ahead]
    stays = list(accumulate(each.set_anew for each in told))
    caught = np.array([each.caught for each in catches])
    clear = [d for d in assumed.DEAD_ZONES if d <= told[0].opening - assumed.CLEAR]
    for dead, repeat, play, short in product(
        clear or assumed.DEAD_ZONES[:1], assumed.REPEATS, assumed.PLAYS, (True, False)
    ):
        scatter, lacks = repeat**2 + case.noise, [short and each.first for each in told]
        open_by = np.maximum([each.opening - dead for each in told], assumed.NARROWEST)
        mean = np.log(open_by / open_by[0]) - np.where(lacks, assumed.SHORT, 0)
        own = scatter + np.where(lacks, assumed.SHORT_BY**2, 0)
        own[-1] = scatter if of_catch else 0
        together = np.equal.outer(stays, stays) * (play / open_by) ** 2
        law = together + (assumed.FROM_MISS * case.start_may_miss) ** 2 + np.diag(own)
        fit = stats.multivariate_normal(mean[:-1], law[:-1, :-1]).logpdf(caught)
        pull = np.linalg.solve(law[:-1, :-1], law[:-1, -1])
        yield (
            float(fit) + _beforehand(dead, short, scatter, case.before),
            float(mean[-1] + pull @ (caught - mean[:-1])),
            float(law[-1, -1] - pull @ law[:-1, -1]),
        )


def _beforehand(dead: float, short: bool, scatter: float, before: Repeats) -> float:
    usual = stats.norm.logpdf(dead, assumed.USUAL_DEAD_ZONE, assumed.USUAL_DEAD_ZONE_BY)
    found = float(usual) + log(assumed.UNPRIMED if short else 1 - assumed.UNPRIMED)
    if not before.number:
        return found
    times = before.number / scatter
    seen = stats.chi2.logpdf(times * before.scatter**2, before.number)
    return found + float(seen) + log(times)


def within(found: Sequence[Law], tolerance: float) -> float:
    """The share of all drills that throw what is wanted."""
    low, high = log(1 - tolerance), log(1 + tolerance)
    return sum(
        law.share * float(np.diff(stats.norm.cdf([low, high], law.mean, law.variance**0.5))[0])
        for law in found
    )


def moments(found: Sequence[Law]) -> tuple[float, float]:
    """The mean and the variance of all guesses together."""
    mean = sum(law.share * law.mean for law in found)
    return mean, sum(law.share * (law.variance + law.mean**2) for law in found) - mean**2


openings = st.sampled_from([4.0, 5.5, 8.0, 12.0, 14.0, 14.5, 20.0])
histories = st.lists(st.tuples(openings, st.floats(-0.25, 0.25)), min_size=1, max_size=6)


def case_of(tolerance: float, before: Repeats) -> Case:
    """The same for all catches of a history."""
    return Case(band(tolerance, 0.98), Marks(0.5, 3.0, 40.0), 2e-4, 0.5, before)


def told_by(history: Sequence[tuple[float, float]]) -> list[Told]:
    """Catches that are so far off what the opening alone foretells of a usual feed."""
    start = history[0][0] - assumed.USUAL_DEAD_ZONE
    return [
        Told(
            opening,
            log((opening - assumed.USUAL_DEAD_ZONE) / start) + off,
            set_anew=not number or history[number - 1][0] != opening,
            first=not number,
        )
        for number, (opening, off) in enumerate(history)
    ]


def heard(catches: Sequence[Told], case: Case) -> list[Belief]:
    """The guesses of the rule itself, one catch after the other."""
    beliefs = guesses_by(catches[0], case)
    for each in catches:
        beliefs = [belief.after(each) for belief in beliefs]
    return beliefs


@settings(max_examples=EXAMPLES)
@given(
    histories,
    st.sampled_from([0.01, 0.03, 0.05, 0.1]),
    st.builds(Repeats, st.floats(0.004, 0.03), st.integers(0, 12)),
    openings,
    st.booleans(),
    st.sampled_from([-1.01, -0.99, 0.0, 0.99, 1.01]),
)
def test_one_catch_after_the_other_tells_what_all_tell_at_once(
    history: list[tuple[float, float]],
    tolerance: float,
    before: Repeats,
    opening: float,
    anew: bool,
    far: float,
) -> None:
    catches, case = told_by(history), case_of(tolerance, before)
    ahead = Told(opening if anew else history[-1][0], 0, set_anew=anew)
    beliefs = heard(catches, case)
    stays = laws(catches, Told(history[-1][0], 0, set_anew=False), case, of_catch=False)
    assert chance_within(beliefs, case.wanted) == pytest.approx(within(stays, tolerance), abs=CLOSE)
    mean, variance = moments(laws(catches, ahead, case, of_catch=True))
    foretold = foretold_catch(beliefs, ahead)
    assert foretold.mean == pytest.approx(mean, abs=CLOSE)
    assert foretold.variance == pytest.approx(variance, rel=CLOSE, abs=1e-12)
    caught = mean + far * assumed.ODD * variance**0.5
    assert odd_among(beliefs, ahead._replace(caught=caught)) == (abs(far) > 1)
