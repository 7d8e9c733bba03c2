"""What catches tell of a drill once more: all that a guess leaves open as one normal law."""

from fractions import Fraction
from functools import lru_cache
from itertools import product
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from scipy import special, stats

from assistant.calc import assumed

Numbers = npt.NDArray[np.float64]


class Catch(NamedTuple):
    """One that brought seed: opening (mm), catch over target, whether the lever moved before it.

    `first` is the very first, which may be short.
    """

    opening: Fraction
    share: Fraction
    moved: bool
    first: bool


class Known(NamedTuple):
    """What is known of a drill before any catch: by how much its start and a catch may miss.

    `start` is a standard deviation, `noise` the variance that turns and scale leave, `scatter` the
    standard deviation of so many `repeats`.
    """

    start: float
    noise: float
    scatter: float
    repeats: float


class Law(NamedTuple):
    """Normal laws: their means and their variances."""

    mean: Numbers
    variance: Numbers


class Drills(NamedTuple):
    """The guesses that count, with their shares of all, and what each makes of its drill.

    `law` is ln(output / target) at 1 mm over the dead zone, `stands` the same as the lever stands;
    `fits` is ln(likelihood) of all catches by all guesses.
    """

    share: Numbers
    dead: Numbers
    play: Numbers
    scatter: Numbers
    short: Numbers
    law: Law
    stands: Law
    fits: float

    @property
    def aim(self) -> float:
        """The opening (mm) that should throw what is wanted, by all guesses."""
        return float(self.share @ (self.dead + np.exp(-self.law.mean)))

    @property
    def usual_scatter(self) -> float:
        """The variance of a catch, by all guesses."""
        return float(self.share @ self.scatter)

    def at(self, opening: float) -> Law:
        """What each throws at an opening (mm) set anew."""
        by = _open_by(opening, self.dead)
        return Law(self.law.mean + np.log(by), self.law.variance + (self.play / by) ** 2)

    def next_catch(self, opening: float, *, moved: bool) -> tuple[float, float]:
        """The mean and the variance of the next catch, by all guesses."""
        there = self.at(opening) if moved else self.stands
        return self.together(Law(there.mean, there.variance + self.scatter))

    def together(self, laws: Law) -> tuple[float, float]:
        """The mean and the variance of a law of each guess, by all of them."""
        mean = float(self.share @ laws.mean)
        return mean, float(self.share @ (laws.variance + (laws.mean - mean) ** 2))

    def within(self, tolerances: Numbers) -> Numbers:
        """The share of all such drills that keep each tolerance as the lever stands."""
        ends = np.log(np.array([1 - tolerances, 1 + tolerances]))[..., np.newaxis]
        spread = np.sqrt(self.stands.variance)
        under: Numbers = np.asarray(stats.norm.cdf(ends, self.stands.mean, spread))
        found: Numbers = (under[1] - under[0]) @ self.share
        return found


@lru_cache(maxsize=256)
def drills(begun: Fraction, catches: tuple[Catch, ...], known: Known) -> Drills:
    """What catches (one or more) tell of a drill that was begun at an opening (mm)."""
    dead, repeat, play, short = _guesses(float(begun))
    scatter = repeat**2 + known.noise
    settings = np.cumsum([each.moved for each in catches]) - 1
    lacks = np.logical_and.outer(short > 0, [each.first for each in catches])
    by = _open_by(np.array([float(each.opening) for each in catches]), dead[:, np.newaxis])

    # The unknowns: the law, by what share each setting was missed, by what share each catch.
    own = np.arange(len(catches))
    parts = np.column_stack(
        [np.ones_like(own), np.eye(settings[-1] + 1)[settings], np.eye(own.size)]
    )
    missed = (play[:, np.newaxis] / by)[:, np.searchsorted(settings, range(settings[-1] + 1))]
    caught_by = scatter[:, np.newaxis] + np.where(lacks, assumed.SHORT_BY**2, 0)
    start = np.full((dead.size, 1), known.start**2)
    before = np.hstack([start, missed**2, caught_by])
    usual = -np.log(_open_by(float(begun), dead))

    # All catches at once: what they brought beside what was foretold of them.
    foretold = usual[:, np.newaxis] + np.log(by) - np.where(lacks, assumed.SHORT, 0)
    beside = np.log([float(each.share) for each in catches]) - foretold
    shared = before[:, :, np.newaxis] * parts.T
    total = parts @ shared
    pulled = np.linalg.solve(
        total, np.concatenate([beside[..., np.newaxis], shared.swapaxes(1, 2)], axis=2)
    )
    open_now = (shared @ pulled[..., :1])[..., 0]
    left = before[:, :, np.newaxis] * np.eye(before.shape[1]) - shared @ pulled[..., 1:]

    fit = -(np.sum(beside * pulled[..., 0], axis=1) + np.linalg.slogdet(total)[1]) / 2
    weight = fit + _beforehand(dead, short, scatter, known)
    now = np.zeros(before.shape[1])
    now[[0, settings[-1] + 1]] = 1
    kept = weight > np.max(weight) - assumed.FAINT
    law = Law(usual + open_now[:, 0], left[:, 0, 0])
    stands = Law(usual + open_now @ now + np.log(by[:, -1]), left @ now @ now)
    return Drills(
        special.softmax(weight[kept]),
        dead[kept],
        play[kept],
        scatter[kept],
        short[kept],
        Law(law.mean[kept], law.variance[kept]),
        Law(stands.mean[kept], stands.variance[kept]),
        float(special.logsumexp(weight)),
    )


def _guesses(begun: float) -> Numbers:
    """Dead zone, scatter and play of each guess, and whether its first catch is short."""
    clear = [each for each in assumed.DEAD_ZONES if each <= begun - assumed.CLEAR]
    dead = clear or assumed.DEAD_ZONES[:1]
    return np.array(list(product(dead, assumed.REPEATS, assumed.PLAYS, (0.0, 1.0)))).T


def _beforehand(dead: Numbers, short: Numbers, scatter: Numbers, known: Known) -> Numbers:
    """ln(weight) of each guess before any catch."""
    usual = stats.norm.logpdf(dead, assumed.USUAL_DEAD_ZONE, assumed.USUAL_DEAD_ZONE_BY)
    found: Numbers = usual + stats.bernoulli.logpmf(short, assumed.UNPRIMED)
    # So many repeats, each off by the scatter that they were found to have.
    found += known.repeats * stats.norm.logpdf(known.scatter, 0, np.sqrt(scatter))
    return found


def _open_by(opening: Numbers | float, dead: Numbers) -> Numbers:
    return np.maximum(opening - dead, assumed.NARROWEST)
