"""Small seed once more: the coating weighs and holds no seed."""

from tests.calc.second.exact import Exact, Given, not_over, not_under
from tests.calc.second.plan import proposal, up


def live_share_uncoated(of: Given) -> Exact:
    bare = 1 - of["coating"]
    if not not_over(of["purity"], bare):
        return {"outcome": "over_100"}
    live = of["live_seed_share"] / bare
    return {"outcome": "worked", "live_share_uncoated": live, "seeds_per_live_seed": 1 / live}


def coated_seed_size(of: Given) -> Exact:
    bare_weight = 1 / of["bare_seeds_per_weight"]
    return {"coated_seed_size": 1 / (bare_weight / (1 - of["coating"]))}


def often_coated(of: Given) -> Exact:
    small = not_under(of["seeds_per_weight"], of["coated_from"])
    return {"outcome": "small" if small else "large"}


def propose_small_catch(of: Given) -> Exact:
    turns = up(of["small_distance"] / of["distance_per_turn"])
    return proposal(of, of["small_rows_wanted"], turns)
