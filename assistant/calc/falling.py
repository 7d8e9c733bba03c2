"""A box that runs empty: catch by catch, less comes, whatever is set."""

from collections.abc import Sequence
from math import exp, log

from assistant.calc.assumed import FALL, FALLING_FROM, FALLS
from assistant.calc.beliefs import Told
from assistant.calc.deciding import Case, guesses_by, odd_among


def falls(told: Sequence[Told], case: Case) -> bool:
    """Whether the last of these catches, and none before it, shows that the box runs empty."""
    return _emptying(told, case) and not _emptying(told[:-1], case)


def since_full(told: Sequence[Told], case: Case) -> list[Told]:
    """The catches since the box was filled up again; while it is not, all of them."""
    for at in range(FALLS, len(told)):
        if falls(told[:at], case):
            again = told[at]._replace(set_anew=True)
            return since_full([again, *told[at + 1 :]], case)
    return list(told)


def _emptying(told: Sequence[Told], case: Case) -> bool:
    """Whether catches speak for a box that runs empty.

    Two stories are held against them: that each catch brings what its setting throws, or that each
    brings less of it than the one before, by `FALL`; by that story none may be odd. Source: ratio
    of likelihoods, from memory.
    """
    if len(told) < FALLS:
        return False
    risen = [each._replace(caught=each.caught + FALL * at) for at, each in enumerate(told)]
    (falling, can_be), (steady, _) = _story(risen, case), _story(told, case)
    return can_be and falling - steady > log(FALLING_FROM)


def _story(told: Sequence[Told], case: Case) -> tuple[float, bool]:
    """ln(likelihood) of catches, to within what is the same for all, and whether none is odd."""
    first, *later = told
    beliefs, can_be = [each.after(first) for each in guesses_by(first, case)], True
    for each in later:
        can_be = can_be and not odd_among(beliefs, each)
        beliefs = [belief.after(each) for belief in beliefs]
    most = max(belief.weight for belief in beliefs)
    return most + log(sum(exp(belief.weight - most) for belief in beliefs)), can_be
