"""The seed to drop once more: plants, seeds and weight from each other by the units alone."""

from tests.calc.second.exact import Exact, Given, not_under


def rate_as_told(of: Given) -> Exact:
    return {"bulk_rate": of["target_weight"]}


def seeds_as_told(of: Given) -> Exact:
    return {"seeds_per_area": of["target_seeds"]}


def plants_as_told(of: Given) -> Exact:
    return {"plants_per_area": of["target_plants"]}


def row_seeds_to_area(of: Given) -> Exact:
    rows_per_metre = 1 / of["row_spacing"]
    return {"seeds_per_area": of["target_row_seeds"] * rows_per_metre}


def row_plants_to_area(of: Given) -> Exact:
    rows_per_metre = 1 / of["row_spacing"]
    return {"plants_per_area": of["target_row_plants"] * rows_per_metre}


def seeds_on_the_row(of: Given) -> Exact:
    rows_per_metre = 1 / of["row_spacing"]
    return {"seeds_per_row_length": of["seeds_per_area"] / rows_per_metre}


def plants_on_the_row(of: Given) -> Exact:
    rows_per_metre = 1 / of["row_spacing"]
    return {"plants_per_row_length": of["plants_per_area"] / rows_per_metre}


def seeds_for_plants(of: Given) -> Exact:
    plants_of_a_seed = of["germination"] * of["emergence"]
    return {"seeds_per_area": of["plants_per_area"] / plants_of_a_seed}


def rate_from_seeds(of: Given) -> Exact:
    weight_of_a_seed = 1 / of["seeds_per_weight"]
    return {"bulk_rate": of["seeds_per_area"] * weight_of_a_seed}


def rate_from_pure_seeds(of: Given) -> Exact:
    seeds_in_bag = of["seeds_per_weight"] * of["purity"]
    return {"bulk_rate": of["seeds_per_area"] / seeds_in_bag}


def seeds_from_rate(of: Given) -> Exact:
    weight_of_a_seed = 1 / of["seeds_per_weight"]
    return {"seeds_per_area": of["bulk_rate"] / weight_of_a_seed}


def rate_from_live_weight(of: Given) -> Exact:
    live_share = 1 / of["bulk_per_live_seed"]
    return {"bulk_rate": of["target_live_weight"] / live_share}


def rate_from_bushels(of: Given) -> Exact:
    area_of_a_bushel = 1 / of["target_bushels"]
    return {"bulk_rate": of["bushel_weight"] / area_of_a_bushel}


def purity_matters(of: Given) -> Exact:
    return {"outcome": "clean" if not_under(of["purity"], of["purity_low"]) else "low"}
