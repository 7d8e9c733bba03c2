"""A box that runs empty once more."""

from collections.abc import Sequence
from fractions import Fraction
from math import exp, log, sqrt

from assistant.calc import assumed
from tests.calc.second.beliefs import Catch, Known, drills


def since_full(catches: Sequence[Catch], known: Known) -> tuple[list[Catch], bool]:
    """The catches since the box was filled last, and whether the last shows it empty."""
    run: list[Catch] = []
    empty = False
    for catch in catches:
        if empty:
            run = []
        run.append(catch._replace(moved=catch.moved or not run))
        empty = len(run) >= assumed.FALLS and _empties(run, known)
    return run, empty


def _empties(run: Sequence[Catch], known: Known) -> bool:
    risen = tuple(
        each._replace(share=each.share * Fraction(exp(assumed.FALL * number)))
        for number, each in enumerate(run)
    )
    begun = run[0].opening
    steady, falling = (drills(begun, each, known).fits for each in (tuple(run), risen))
    return falling - steady > log(assumed.FALLING_FROM) and not any(
        _odd(risen[:number], risen[number], known) for number in range(1, len(risen))
    )


def _odd(before: tuple[Catch, ...], catch: Catch, known: Known) -> bool:
    of_all = drills(before[0].opening, before, known)
    mean, variance = of_all.next_catch(float(catch.opening), moved=catch.moved)
    return abs(log(catch.share) - mean) > assumed.ODD * sqrt(variance)
