"""Seeds per weight once more, from counts and their weights."""

from statistics import mean, stdev

from tests.calc.second.exact import Exact, Given, not_over


def counted_seeds(of: Given) -> Exact:
    seeds, weights = of["seeds_counted"], of["counted_weight"]
    if len(weights) == 1:
        weights *= len(seeds)
    if len(weights) != len(seeds):
        return {"outcome": "not_paired"}
    size = {"seeds_per_weight": sum(seeds) / sum(weights)}
    if len(seeds) == 1:
        return {"outcome": "one_count"} | size
    of_a_seed = [weight / count for weight, count in zip(weights, seeds, strict=True)]
    spread = stdev(of_a_seed) / mean(of_a_seed)
    agree = not_over(spread, of["count_spread_most"])
    return {"outcome": "agree" if agree else "apart", "count_spread": spread} | size
