"""Other seed in the same room once more."""

from tests.calc.second.exact import Exact, Given, not_over, not_under


def same_crop(of: Given) -> Exact:
    return {"outcome": "same" if of["crop"].upper() == of["last_crop"].upper() else "other"}


def room_by_tubs(of: Given) -> Exact:
    if len(of["tub_weights"]) != 2 or min(of["tub_weights"]) <= 0:
        return {"outcome": "not_two"}
    old, new = of["tub_weights"]
    usual = not_under(new, of["room_least"] * old) and not_over(new, of["room_most"] * old)
    if not usual:
        return {"outcome": "odd"}
    return {
        "outcome": "worked",
        "density_ratio": new / old,
        "foretold_within": of["weighed_within"],
    }


def room_by_test_weight(of: Given) -> Exact:
    ratio = of["test_weight"] / of["last_test_weight"]
    return {"density_ratio": ratio, "foretold_within": of["weighed_within"]}


def room_by_trade(of: Given) -> Exact:
    ratio = of["crop_weight"] / of["last_crop_weight"]
    return {"density_ratio": ratio, "foretold_within": of["by_crop_within"]}


def room_as_before(of: Given) -> Exact:
    return {"density_ratio": 1, "foretold_within": of["unweighed_within"]}


def foretell_rate(of: Given) -> Exact:
    old_ground = of["last_spacing"] * of["last_distance"]
    seed_of_a_turn = of["last_rate"] * old_ground * of["density_ratio"]
    rate = seed_of_a_turn / (of["row_spacing"] * of["distance_per_turn"])
    return {
        "foretold_rate": rate,
        "weight_change": (rate - of["last_rate"]) / of["last_rate"],
    }


def foretell_seeds(of: Given) -> Exact:
    before = of["last_rate"] * of["last_seed_size"]
    now = of["foretold_rate"] * of["seeds_per_weight"]
    heavier = of["foretold_rate"] - of["last_rate"]
    if heavier * (now - before) >= 0:
        outcome = "together"
    else:
        outcome = "more_pounds" if heavier > 0 else "fewer_pounds"
    return {"outcome": outcome, "last_seeds": before, "foretold_seeds": now}


def start_by_card(of: Given) -> Exact:
    return {"start_may_miss": of["foretold_within"] + of["foretold_within"]}


def foretell_opening(of: Given) -> Exact:
    step, first, last = (
        of[each] for each in ("opening_step", "narrowest_opening", "widest_opening")
    )
    needed = step * round(of["last_opening"] * of["bulk_rate"] / of["foretold_rate"] / step)
    if not_under(needed, first) and not_over(needed, last):
        return {"outcome": "worked", "foretold_opening": needed}
    end = max(first, min(last, needed))
    return {"outcome": "out_of_reach", "foretold_opening": end, "needed_opening": needed}


def foretell_mark(of: Given) -> Exact:
    return {
        "start_mark": of["last_mark"],
        "start_range": of["last_range"],
        "foretold_off": (of["foretold_rate"] - of["bulk_rate"]) / of["bulk_rate"],
    }


def opening_by_same_share(of: Given) -> Exact:
    moved = of["final_opening"] / of["last_opening"] * of["last_other_opening"]
    return {"other_opening": round(moved / of["opening_step"]) * of["opening_step"]}
