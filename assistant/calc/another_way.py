"""The main results once more, by another way: one unit's worth times how many, in exact fractions.

What the seed to drop, the ground, the catch wanted and the rate caught come to must be the same
both ways but for rounding. A difference is a fault of the program: nothing may go on from it.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction
from itertools import combinations, takewhile
from typing import Any

from assistant.calc.assumed import MEANS_OF
from assistant.calc.catches import same_setting
from assistant.calc.contract import Trial
from assistant.calc.figures import at_least, at_most, mean, same

Given = Mapping[str, Any]
Exact = Mapping[str, Fraction]
Way = Callable[[Exact], Exact]


def differing(name: str, given: Given, result: Any) -> list[str]:
    """The facts of a result that come out otherwise by another way; none where there is no other.

    `given` and `result` are those of a calculation by its name, in SI units.
    """
    if name not in WAYS:
        return []
    told = {fact: Fraction(getattr(result, fact)) for fact in FACTS if hasattr(result, fact)}
    exact = {each: Fraction(value) for each, value in given.items() if isinstance(value, float)}
    other = WAYS[name]({**exact, **told})
    differ = [fact for fact in other if not same(float(told[fact]), float(other[fact]))]
    return differ or (["caught_rate"] if _no_catch_brought_it(given, told) else [])


def _one_seed(of: Exact) -> Fraction:
    """What one seed weighs."""
    return 1 / of["seeds_per_weight"]


def _ground(of: Exact, along: Fraction) -> Exact:
    """The strip of one row, as often as there are rows."""
    return {"ground_covered": along * of["row_spacing"] * of["rows_caught"]}


def _catch(of: Exact) -> Exact:
    """One row's seed on one row's ground, as often as there are rows."""
    one_row = of["ground_covered"] / of["rows_caught"] * of["bulk_rate"]
    return {"target_catch": one_row * of["rows_caught"], "target_catch_per_row": one_row}


def _caught(of: Exact) -> Exact:
    """The rate wanted, and so much more or less of it."""
    if "caught_rate" not in of:
        return {}
    wanted = of["target_catch"] / of["ground_covered"]
    return {"caught_rate": wanted + wanted * of["percent_off"]}


def _no_catch_brought_it(given: Given, told: Exact) -> bool:
    """Whether a rate caught is no mean of any of the last catches at one setting.

    Some may have been put aside. Of very many it has only to lie within what was weighed.
    """
    if "caught_rate" not in told or "trials" not in given:
        return False
    last = given["trials"][-1]
    as_set = takewhile(lambda each: same_setting(each, last), reversed(given["trials"]))
    rates = [float(_weighed(each, given) / Fraction(given["ground_covered"])) for each in as_set]
    rate = float(told["caught_rate"])
    if len(rates) > MEANS_OF:
        return not (at_least(rate, min(rates)) and at_most(rate, max(rates)))
    some = (each for many in range(len(rates)) for each in combinations(rates, many + 1))
    return not any(same(rate, mean(each)) for each in some)


def _weighed(trial: Trial, given: Given) -> Fraction:
    """All that was weighed or counted in a catch, less the tub where it stood on the scale."""
    alone = (trial.catch_weight, *(trial.row_weights or ()))
    kept = sum(Fraction(each) for each in alone if each is not None)
    if trial.gross_weight is not None:
        kept += Fraction(trial.gross_weight) - Fraction(given["tare"])
    return kept + sum(map(Fraction, trial.seeds_caught or ())) * Fraction(given["catch_step"])


WAYS: Mapping[str, Way] = {
    "rate_from_seeds": lambda of: {"bulk_rate": _one_seed(of) * of["seeds_per_area"]},
    "rate_from_pure_seeds": lambda of: {
        "bulk_rate": _one_seed(of) / of["purity"] * of["seeds_per_area"]
    },
    "rate_from_live_weight": lambda of: {
        "bulk_rate": of["bulk_per_live_seed"] / (1 / of["target_live_weight"])
    },
    "rate_from_live_seeds": lambda of: {
        "bulk_rate": _one_seed(of) * of["bulk_per_live_seed"] * of["target_live_seeds"]
    },
    "rate_from_bushels": lambda of: {"bulk_rate": of["bushel_weight"] / (1 / of["target_bushels"])},
    "ground": lambda of: _ground(of, of["distance_per_turn"] * of["turns"]),
    "strip_ground": lambda of: _ground(of, of["strip_distance"]),
    "expected_catch": _catch,
    "judge": _caught,
    "judge_opening": _caught,
    "early_card": _caught,
    "early_card_by_all": _caught,
}
"""By the name of the calculation: its results, from what it took and what else it found.

A rate caught must also be one that catches brought: see `_no_catch_brought_it`.
"""

FACTS = (
    *("bulk_rate", "ground_covered", "target_catch", "target_catch_per_row"),
    *("caught_rate", "percent_off"),
)
"""The results that are looked at."""
