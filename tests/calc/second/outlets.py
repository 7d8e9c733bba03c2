"""The outlets of an air drill once more."""

from statistics import mean, stdev

from tests.calc.second.exact import Exact, Given, not_over
from tests.calc.second.rows import by_these


def compare_outlets(of: Given) -> Exact:
    weights = of["outlet_weights"]
    if len(weights) < 3 or not any(weights):
        return {"outcome": "too_few"}
    if len(weights) % int(of["outlet_towers"]):
        return {"outcome": "not_by_tower"}
    spread = stdev(weights) / mean(weights)
    return {
        "outcome": "even" if not_over(spread, of["outlet_spread_most"]) else "uneven",
        "outlet_cv": spread,
        "outlet_least": min(weights),
        "outlet_most": max(weights),
        "outlets_caught": len(weights),
    }


def outlets_left_open(of: Given) -> Exact:
    caught, of_all = of["outlets_caught"], of["row_count"]
    if caught >= of_all:
        return {"outcome": "all_caught"}
    left = by_these(of["outlet_cv"], caught, of_all, of["sure"])
    return {"outcome": "worked", "rows_left_open": left}
