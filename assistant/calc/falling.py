"""A box that runs empty: catch by catch, less comes, whatever is set."""

from collections.abc import Sequence
from functools import lru_cache
from math import exp, log
from typing import NamedTuple

from assistant.calc.assumed import FALL, FALLING_FROM, FALLS, KEPT
from assistant.calc.beliefs import Belief, Told
from assistant.calc.deciding import Case, guesses_by, odd_among


class Since(NamedTuple):
    """The catches since the box was filled last, and whether the last shows that it runs empty."""

    told: tuple[Told, ...]
    empty: bool


def since_full(told: Sequence[Told], case: Case) -> Since:
    """Hear the catches in their order; those up to one that shows an empty box are void.

    Two stories are held against them: that each catch brings what its setting throws, or that each
    brings less of it than the one before, by `FALL`; by that story none may be odd. Source: ratio
    of likelihoods, from memory.
    """
    if len(told) < FALLS:
        return Since(tuple(told), empty=False)
    stories = _stories(tuple(told), case)
    return Since(stories.since, stories.empty)


class Stories(NamedTuple):
    """The catches since the box was filled, the drills of both stories, and what is said of them.

    `can_be` is whether no catch is odd by the story of an empty box.
    """

    since: tuple[Told, ...]
    steady: list[Belief]
    falling: list[Belief]
    can_be: bool
    empty: bool


@lru_cache(maxsize=KEPT)
def _stories(told: tuple[Told, ...], case: Case) -> Stories:
    *before, last = told
    so_far = _stories(tuple(before), case) if before else None
    if so_far is None or so_far.empty:
        last = last._replace(set_anew=True) if before else last
        begun = [each.after(last) for each in guesses_by(last, case)]
        return Stories((last,), begun, begun, can_be=True, empty=False)
    risen = last._replace(caught=last.caught + FALL * len(so_far.since))
    can_be = so_far.can_be and not odd_among(so_far.falling, risen)
    since = (*so_far.since, last)
    steady = [each.after(last) for each in so_far.steady]
    falling = [each.after(risen) for each in so_far.falling]
    empty = len(since) >= FALLS and can_be and _likelier(falling, steady)
    return Stories(since, steady, falling, can_be, empty)


def _likelier(falling: Sequence[Belief], steady: Sequence[Belief]) -> bool:
    return _likelihood(falling) - _likelihood(steady) > log(FALLING_FROM)


def _likelihood(beliefs: Sequence[Belief]) -> float:
    """ln(likelihood) of what was heard, to within what is the same for all."""
    most = max(belief.weight for belief in beliefs)
    return most + log(sum(exp(belief.weight - most) for belief in beliefs))
