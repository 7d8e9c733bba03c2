"""The outlook of a plan once more: how many rows, how many catches."""

from fractions import Fraction
from math import ceil

from assistant.calc import assumed
from tests.calc.second.exact import DUST, Exact, Given, exact, not_under


def rows_for_all(of: Given) -> Exact:
    left = exact(assumed.LEFT_FOR_ROWS) * of["tolerance"]
    of_one_row = of["usual_row_cv"] ** 2
    wanted = of_one_row / (left**2 + of_one_row / of["drive_rows"])
    rows = ceil(wanted * (1 - DUST))
    if not_under(of["proposed_rows_caught"], Fraction(rows)):
        return {"outcome": "enough"}
    return {"outcome": "more", "rows_for_all": rows}


def catches_expected(of: Given) -> Exact:
    levels = [exact(assumed.FEW_CATCHES_FROM), exact(assumed.SOME_CATCHES_FROM)]
    level = sum(not not_under(of["tolerance"], least) for least in levels)
    level += not not_under(of["tolerance"] / 2, of["scatter_told"])
    return {"outcome": ("few", "some", "many", "many")[level]}
