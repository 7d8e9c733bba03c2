"""What catches tell about a drill: one guess at the drill beside the other, each with its share."""

from collections.abc import Sequence
from itertools import product
from math import erf, exp, log
from typing import NamedTuple

from assistant.calc.assumed import (
    CLEAR,
    DEAD_ZONES,
    FAINT,
    FROM_MISS,
    LOST,
    NARROWEST,
    PLAYS,
    PULSE,
    REPEATS,
    SHORT,
    SHORT_BY,
    UNPRIMED,
    USUAL_DEAD_ZONE,
    USUAL_DEAD_ZONE_BY,
)
from assistant.calc.catches import Scale, same_setting, seed_caught
from assistant.calc.contract import Length, Mass, Share, Trial, Turns
from assistant.calc.figures import root


class Told(NamedTuple):
    """One catch: its opening (mm), ln(catch / target), whether the lever was set just before.

    `first` is the one that may be short, as the rows may not have been full.
    """

    opening: float
    caught: float
    set_anew: bool
    first: bool = False


class Repeats(NamedTuple):
    """What earlier catches of a drill tell: by how much they scattered, and how many that shows.

    A share of the catch, as a standard deviation; so many catches beyond the first at a setting.
    """

    scatter: float
    number: float


class Normal(NamedTuple):
    """A normal law: its mean and its variance."""

    mean: float
    variance: float

    def between(self, low: float, high: float) -> float:
        """The share of it between two limits."""
        spread = root(2 * self.variance)
        return (erf((high - self.mean) / spread) - erf((low - self.mean) / spread)) / 2


class Belief(NamedTuple):
    """One guess at a drill, and what it makes of the catches so far.

    The guess: dead zone and play in mm, the variance of a catch, whether a first catch is short.
    What it makes of them: ln(output / target) as the drill stands now, and `law`, the same at
    1 mm over the dead zone; both are normal and go together by `shared`. `weight` is the logarithm
    of its part of all beliefs.
    """

    weight: float
    dead_zone: float
    play: float
    scatter: float
    law: Normal
    stands: Normal
    shared: float
    short: bool

    def at(self, opening: float) -> Normal:
        """What the drill would throw at an opening (mm), set anew: ln(output / target)."""
        by = max(opening - self.dead_zone, NARROWEST)
        return Normal(self.law.mean + log(by), self.law.variance + (self.play / by) ** 2)

    def before(self, told: Told) -> Normal:
        """What the drill throws at a catch that is not made yet: ln(output / target)."""
        return self.at(told.opening) if told.set_anew else self.stands

    def foretells(self, told: Told) -> Normal:
        """What a catch brings that is not made yet: ln(catch / target)."""
        there = self.before(told)
        lacks, by = (SHORT, SHORT_BY) if self.short and told.first else (0, 0)
        return Normal(there.mean - lacks, there.variance + self.scatter + by**2)

    def after(self, told: Told) -> "Belief":
        """The same guess once a catch is told."""
        there, (foretold, total) = self.before(told), self.foretells(told)
        shared = self.law.variance if told.set_anew else self.shared
        miss, left = told.caught - foretold, 1 - there.variance / total
        return Belief(
            self.weight - (miss**2 / total + log(total)) / 2,
            self.dead_zone,
            self.play,
            self.scatter,
            Normal(self.law.mean + shared / total * miss, self.law.variance - shared**2 / total),
            Normal(there.mean + there.variance / total * miss, there.variance * left),
            shared * left,
            self.short,
        )


def told_by(
    trials: Sequence[Trial], scale: Scale, target_catch: Mass, one_mm: Length
) -> list[Told]:
    """The catches that brought seed, in their order.

    One was set anew where the setting moved since the last that brought some, whatever came then.
    """
    told: list[Told] = []
    before: Trial | None = None
    anew = True
    for each in trials:
        seed = seed_caught(each, scale)
        anew = anew or before is None or not same_setting(each, before)
        if seed > 0 and each.opening is not None:
            opening, caught = float(each.opening / one_mm), log(float(seed / target_catch))
            told.append(Told(opening, caught, anew, first=not told))
            anew = False
        before = each
    return told


def noise_of(turns: Turns, one_turn: Turns, catch_step: Mass, target_catch: Mass) -> float:
    """The variance of a catch that pulses, the steps of two weighings and a lost turn leave."""
    made, step = float(turns / one_turn), float(catch_step / target_catch)
    return (PULSE / made) ** 2 + 2 * step**2 / (3 * 4) + LOST / made**2


def guesses(opening: float, noise: float, start_may_miss: Share, before: Repeats) -> list[Belief]:
    """Every guess at a drill that a first opening (mm) allows, before its catch.

    The population in `assumed`: common practice, no source. How well a guess at the scatter goes
    with earlier repeats: the likelihood of a normal sample, from memory.
    """
    found: list[Belief] = []
    for dead_zone in [each for each in DEAD_ZONES if each <= opening - CLEAR] or DEAD_ZONES[:1]:
        far = (dead_zone - USUAL_DEAD_ZONE) / USUAL_DEAD_ZONE_BY
        start = (FROM_MISS * float(start_may_miss)) ** 2
        law = Normal(-log(max(opening - dead_zone, NARROWEST)), start)
        for repeat, play in product(REPEATS, PLAYS):
            for short, share in ((True, UNPRIMED), (False, 1 - UNPRIMED)):
                scatter = repeat**2 + noise
                told = before.number * (log(scatter) + before.scatter**2 / scatter)
                weight = log(share) - (far**2 + told) / 2
                found.append(Belief(weight, dead_zone, play, scatter, law, law, 0, short))
    return found


Weighed = Sequence[tuple[float, Belief]]
"""Beliefs, each with its share of all."""


def weighed(beliefs: Sequence[Belief]) -> Weighed:
    """Each belief with its share of all; those that hardly count are left out."""
    most = max(each.weight for each in beliefs)
    kept = [(exp(each.weight - most), each) for each in beliefs if each.weight > most - FAINT]
    total = sum(share for share, _ in kept)
    return [(share / total, each) for share, each in kept]


def mixed(laws: Sequence[tuple[float, Normal]]) -> Normal:
    """The mean and the variance of a mixture of normal laws, by shares that sum to 1."""
    mean = sum(share * each.mean for share, each in laws)
    square = sum(share * (each.variance + (each.mean - mean) ** 2) for share, each in laws)
    return Normal(mean, square)
