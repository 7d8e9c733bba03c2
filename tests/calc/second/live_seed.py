"""Pure live seed once more: a hundred seeds of the bag, counted out."""

from fractions import Fraction

from tests.calc.second.exact import Exact, Given, not_over


def live_share(of: Given) -> Exact:
    alive = of["germination"] + of["hard_seed"]
    if not not_over(alive, Fraction(1)):
        return {"outcome": "over_100"}
    dead_or_other = 1 - of["purity"] * alive
    if dead_or_other == 1:
        return {"outcome": "nothing_live"}
    live = 1 - dead_or_other
    return {"outcome": "worked", "live_seed_share": live, "bulk_per_live_seed": 1 / live}


def rate_from_live_seeds(of: Given) -> Exact:
    dropped = of["target_live_seeds"] * of["bulk_per_live_seed"]
    return {"bulk_rate": dropped / of["seeds_per_weight"], "seeds_per_area": dropped}
