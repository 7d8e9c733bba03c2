"""What was told once more, as the ratios that a slip would leave."""

from fractions import Fraction
from math import exp, sqrt

from tests.calc.second.exact import Exact, Given, not_over, not_under
from tests.calc.second.rows import normal


def weights_apart(of: Given) -> Exact:
    if of["got_weight"] <= 0:
        return {"outcome": "nothing_got"}
    pounds = of["got_weight"] / of["one_pound"]
    return {"outcome": "apart", **_apart(of["got_weight"] / of["wanted_weight"], pounds)}


def rates_apart(of: Given) -> Exact:
    return _apart(of["got_rate"] / of["wanted_rate"], Fraction(0))


def far_off(of: Given) -> Exact:
    far = not_under(_larger_over_smaller(1 + of["percent_off"]), of["mix_up_from"])
    return {"outcome": "far" if far else "near_by"}


def how_far_apart(of: Given) -> Exact:
    by_chance = normal(of["sure"]) * float(of["catch_scatter"]) / sqrt(of["catches_made"])
    if of["times_off"] <= exp(by_chance):
        return {"outcome": "no_fault"}
    near = not_over(of["times_off"], of["lot_makes_most"])
    return {"outcome": "near" if near else "too_far"}


def share_apart(of: Given) -> Exact:
    return rates_apart({"wanted_rate": Fraction(1), "got_rate": 1 + of["job_off"]})


def job_weight(of: Given) -> Exact:
    return {"job_weight": of["job_catch"] + of["job_off"] * of["job_catch"]}


def tub_told(of: Given) -> Exact:
    return {"tub_share": of["empty_tub"] / of["got_weight"]}


def row_told(of: Given) -> Exact:
    return {"row_share": 1 / of["rows_in_tubs"]}


def rows_compared(of: Given) -> Exact:
    return {"rows_ratio": of["rows_on_drill"] / of["rows_in_tubs"]}


def sprout_told(of: Given) -> Exact:
    return {"germination_told": of["sprouting"]}


def live_told(of: Given) -> Exact:
    dead_or_other = 1 - of["pure_part"] * of["sprouting"]
    return {"live_share_told": 1 - dead_or_other, "germination_told": of["sprouting"]}


def bushels_told(of: Given) -> Exact:
    return {"bushel_ratio": of["lot_bushel"] / of["reckoned_bushel"]}


def _apart(found: Fraction, pounds: Fraction) -> Exact:
    return {
        "found_ratio": found,
        "times_off": _larger_over_smaller(found),
        "told_pounds": pounds,
        "tub_share": Fraction(0),
    }


def _larger_over_smaller(ratio: Fraction) -> Fraction:
    return ratio if ratio > 1 else 1 / ratio
