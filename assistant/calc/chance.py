"""How far chance reaches: the normal law, Student's t and chi-square, by their closed forms.

Plain numbers in and out. `sure` is the share of cases meant to lie inside, between 0 and 1, as 0.95
is 19 in 20; degrees of freedom are whole and at least 1. Source of the series: Abramowitz and
Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (Student's t), 26.4.4 and 26.4.5
(chi-square), from memory.
"""

from collections.abc import Callable
from math import atan, cos, erf, erfc, exp, gamma, pi, sin

from assistant.calc.figures import DUST, root


def normal_reach(sure: float) -> float:
    """How many standard deviations to both sides hold `sure` of the normal law: 1.96 for 0.95."""
    return _reach(lambda far: erf(far / root(2)), sure)


def student_reach(sure: float, degrees: int) -> float:
    """The same for a mean whose spread was found with so many degrees of freedom."""
    return _reach(lambda far: _student_within(far, degrees), sure)


def chi_square_reach(sure: float, degrees: int) -> float:
    """What chi-square stays under in `sure` of cases."""
    return _reach(lambda far: 1 - _chi_square_over(far, degrees), sure)


def _reach(within: Callable[[float], float], sure: float) -> float:
    """Where a rising share from 0 to 1 comes to `sure`: doubled until past it, then halved."""
    if not 0 < sure < 1:
        raise ValueError(sure)
    low, high = 0.0, 1.0
    while within(high) < sure:
        low, high = high, 2 * high
    while high - low > DUST * high:
        middle = (low + high) / 2
        low, high = (middle, high) if within(middle) < sure else (low, middle)
    return high


def _student_within(far: float, degrees: int) -> float:
    """The share of Student's t between -far and far."""
    angle = atan(far / root(degrees))
    if _is_odd(degrees):
        reached, share, term = 1, 2 * angle / pi, 2 / pi * sin(angle) * cos(angle)
    else:
        reached, share, term = 0, 0.0, sin(angle)
    while reached < degrees:
        share += term
        reached += 2
        term *= cos(angle) ** 2 * (reached - 1) / reached
    return share


def _chi_square_over(far: float, degrees: int) -> float:
    """The share of chi-square over `far`."""
    half = far / 2
    reached, share = (1, erfc(root(half))) if _is_odd(degrees) else (0, 0.0)
    term = half ** (reached / 2) * exp(-half) / gamma(reached / 2 + 1)
    while reached < degrees:
        share += term
        reached += 2
        term *= half / (reached / 2)
    return share


def _is_odd(degrees: int) -> bool:
    return degrees // 2 * 2 < degrees
