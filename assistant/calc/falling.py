"""A box that runs empty: catch by catch, less comes, whatever is set."""

from collections.abc import Sequence
from math import exp, log
from typing import NamedTuple

from assistant.calc.assumed import FALL, FALLING_FROM, FALLS
from assistant.calc.beliefs import Belief, Told
from assistant.calc.deciding import Case, guesses_by, odd_among


class Since(NamedTuple):
    """The catches since the box was filled last, and whether the last shows that it runs empty."""

    told: list[Told]
    empty: bool


def since_full(told: Sequence[Told], case: Case) -> Since:
    """Hear the catches in their order; those up to one that shows an empty box are void.

    Two stories are held against them: that each catch brings what its setting throws, or that each
    brings less of it than the one before, by `FALL`; by that story none may be odd. Source: ratio
    of likelihoods, from memory.
    """
    if len(told) < FALLS:
        return Since(list(told), empty=False)
    since: list[Told] = []
    steady, falling, can_be = list[Belief](), list[Belief](), True
    for number, each in enumerate(told, 1):
        catch = each if since or number <= 1 else each._replace(set_anew=True)
        risen = catch._replace(caught=catch.caught + FALL * len(since))
        if since:
            can_be = can_be and not odd_among(falling, risen)
        else:
            steady = falling = guesses_by(catch, case)
            can_be = True
        since.append(catch)
        steady, falling = [b.after(catch) for b in steady], [b.after(risen) for b in falling]
        if len(since) >= FALLS and can_be and _likelier(falling, steady):
            if number >= len(told):
                return Since(since, empty=True)
            since = []
    return Since(since, empty=False)


def _likelier(falling: Sequence[Belief], steady: Sequence[Belief]) -> bool:
    return _likelihood(falling) - _likelihood(steady) > log(FALLING_FROM)


def _likelihood(beliefs: Sequence[Belief]) -> float:
    """ln(likelihood) of what was heard, to within what is the same for all."""
    most = max(belief.weight for belief in beliefs)
    return most + log(sum(exp(belief.weight - most) for belief in beliefs))
