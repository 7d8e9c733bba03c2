"""The scatter of a drill once more."""

from collections.abc import Iterator
from math import log, sqrt

from assistant.calc import assumed
from tests.calc.second.deciding import heard
from tests.calc.second.exact import Exact, Given
from tests.calc.second.falling import since_full
from tests.calc.second.turned import seen, wish_of

TENTHS_OF_HUNDREDTH = 1000


def scatter_by_card(of: Given) -> Exact:
    repeats = min(of["last_repeats"], assumed.MOST_REPEATS)
    return {"scatter_told": of["last_scatter"], "repeats_told": repeats}


def drill_scatter(of: Given) -> Exact:
    logs = list(_counted(of))
    repeats = len(logs) - 1 + of["repeats_told"]
    if repeats < 1:
        return {"outcome": "once"}
    squares = sum((one - other) ** 2 for one in logs for other in logs) / (2 * len(logs))
    told = float(of["repeats_told"] * of["scatter_told"] ** 2)
    scatter = sqrt((squares + told) / repeats)
    tenths = round(scatter * TENTHS_OF_HUNDREDTH)
    return {
        "outcome": "worked",
        "drill_scatter": tenths / TENTHS_OF_HUNDREDTH,
        "drill_repeats": repeats,
    }


def _counted(of: Given) -> Iterator[float]:
    """ln(seed / target) of each catch at the last setting that was not put aside."""
    wish = wish_of(of)
    run, _ = since_full(seen(of), wish.known)
    for each in heard(run, wish).stay:
        yield log(each.share)
