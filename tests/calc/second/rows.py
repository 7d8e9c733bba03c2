"""Rows of one catch once more: what those that were not caught leave open."""

from fractions import Fraction
from math import sqrt
from statistics import NormalDist

from scipy.stats import t

from tests.calc.second.exact import Exact, Given


def rows_told(of: Given) -> Exact:
    told = len(of["row_weights"])
    if told == of["rows_caught"]:
        return {"outcome": "each_row"}
    return {"outcome": "other_number", "weights_told": told}


def rows_left_open(of: Given) -> Exact:
    if of["rows_caught"] >= of["row_count"]:
        return {"outcome": "all_caught"}
    if any(each.row_weights is not None for each in of["trials"]):
        return {"outcome": "row_by_row"}
    error = error_of_mean(of["usual_row_cv"], of["rows_caught"], of["row_count"])
    return {"outcome": "worked", "rows_left_open": normal(of["sure"]) * error}


def rows_left_open_by_these(of: Given) -> Exact:
    caught = of["rows_caught"]
    if caught >= of["row_count"]:
        return {"outcome": "all_caught"}
    if caught < 2:
        return {"outcome": "one_row"}
    left = by_these(of["row_cv"], caught, of["row_count"], of["sure"])
    return {"outcome": "worked", "rows_left_open": left}


def by_these(spread: Fraction, caught: Fraction, of_all: Fraction, sure: Fraction) -> float:
    """What is left open to both sides where the spread comes from these rows.

    Raises ValueError: one row has no spread.
    """
    if caught < 2:
        raise ValueError(caught)
    reach = t.ppf(_up_to(sure), int(caught) - 1)
    return float(reach) * error_of_mean(spread, caught, of_all)


def normal(sure: Fraction) -> float:
    """How many standard deviations to both sides hold so many cases."""
    return NormalDist().inv_cdf(_up_to(sure))


def error_of_mean(spread: Fraction, caught: Fraction, of_all: Fraction) -> float:
    """The standard error of the mean of some of a finite number of rows."""
    return sqrt(spread**2 * (of_all - caught) / (caught * of_all))


def _up_to(sure: Fraction) -> float:
    """How many cases lie under the upper end. Raises ValueError: no end leaves none or all out."""
    if not 0 < sure < 1:
        raise ValueError(sure)
    return float((1 + sure) / 2)
