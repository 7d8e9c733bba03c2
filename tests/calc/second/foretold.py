"""A first catch against what was foretold, once more."""

from fractions import Fraction

from tests.calc.second.catches import seed_of
from tests.calc.second.exact import Exact, Given, not_over, same


def opening_as_foretold(of: Given) -> Exact:
    opening = of["trials"][-1].opening
    if opening is None:
        raise ValueError(of["trials"])
    return _against(of, of["foretold_rate"] / of["last_opening"] * opening)


def mark_as_foretold(of: Given) -> Exact:
    mark = of["trials"][-1].lever_mark
    if mark is None or not same(mark, of["last_mark"]):
        return {"outcome": "near"}
    return _against(of, of["foretold_rate"])


def _against(of: Given, foretold: Fraction) -> Exact:
    rate = seed_of(of["trials"][-1], of) / of["ground_covered"]
    if not_over(abs(rate - foretold), of["full_job_over"] * foretold):
        return {"outcome": "near"}
    return {"outcome": "far", "foretold_miss": (rate - foretold) / foretold}
