"""A weigh-out once more: what went in, what is left, over which ground."""

from tests.calc.second.exact import Exact, Given, not_over


def seed_in_bags(of: Given) -> Exact:
    return {"seed_in": of["loose_seed"] + of["bags"] * of["bag_weight"]}


def ground_by_distance(of: Given) -> Exact:
    new_share = 1 - of["overlap"] / of["working_width"]
    if new_share <= 0:
        return {"outcome": "overlap_too_wide"}
    seeded = of["working_width"] * of["driven_distance"]
    return {"outcome": "worked", "seeded_ground": seeded, "field_ground": seeded * new_share}


def weigh_out(of: Given) -> Exact:
    if of["seed_left"] >= of["seed_in"]:
        return {"outcome": "nothing_used"}
    used = of["seed_in"] - of["seed_left"]
    return {"outcome": "worked", "weigh_out_rate": used / of["field_ground"], "seed_used": used}


def rows_gave(of: Given) -> Exact:
    # Of each acre of a boundary so much more was seeded, and the seed is spread over all of it.
    seeded = 1 / (1 - of["twice_per_swath"])
    rate = of["weigh_out_rate"] / seeded
    return {"rows_rate": rate, "rows_off": (rate - of["card_rate"]) / of["card_rate"]}


def against_card(of: Given) -> Exact:
    off = (of["weigh_out_rate"] - of["card_rate"]) / of["card_rate"]
    if not_over(abs(off), of["tolerance"]):
        return {"outcome": "agrees", "field_off": off}
    return {"outcome": "more" if off > 0 else "less", "field_off": off}
