"""Counting once more: seeds as whole things, one by one."""

from fractions import Fraction
from math import ceil

from tests.calc.second.exact import DUST, Exact, Given, not_over, not_under
from tests.calc.second.rows import normal


def count_for_scale(of: Given) -> Exact:
    return {"catch_step": of["one_seed"] / of["seeds_per_weight"], "tare": of["no_tub"]}


def propose_count(of: Given) -> Exact:
    rows = min(of["drive_rows"], of["rows_to_count"])
    seeds_a_turn = (
        of["bulk_rate"] * of["row_spacing"] * of["distance_per_turn"] * rows / of["catch_step"]
    )
    for_seeds = of["seeds_to_count"] / seeds_a_turn / of["one_turn"]
    turns = max(of["turns_to_count"], of["one_turn"] * ceil(for_seeds * (1 - DUST)))
    return {"proposed_rows_caught": rows, "proposed_turns": min(turns, of["turns_most"])}


def expected_count(of: Given) -> Exact:
    seeds = of["target_catch"] / of["catch_step"]
    return {
        "expected_seeds": seeds,
        "expected_row_seeds": seeds * of["one_row"] / of["rows_caught"],
        "count_low": seeds - seeds * of["tolerance"],
        "count_high": seeds + seeds * of["tolerance"],
    }


def enough_to_count(of: Given) -> Exact:
    # Which comes first is not in its prose: seed is looked at before turns.
    if not not_under(of["expected_seeds"], of["count_least"]):
        return {"outcome": "few_seeds"}
    if not not_over(of["expected_seeds"], of["count_most"]):
        return {"outcome": "too_many"}
    turned = not_under(of["turns"], of["turns_to_count"])
    return {"outcome": "enough" if turned else "few_turns"}


def counted_catch(of: Given) -> Exact:
    seeds = of["one_seed"] * sum(_counts(of))
    row = of["ground_covered"] / of["row_spacing"]
    return {"caught_seeds_per_row": seeds / row}


def counts_by_row(of: Given) -> Exact:
    counts = _counts(of)
    by_chance = normal(of["sure"]) * (len(counts) / max(sum(counts), len(counts))) ** 0.5
    return {
        "counted_weights": tuple(seeds * of["catch_step"] for seeds in counts),
        "counted_low": float(of["plugged_under"]) * max(0.0, 1 - by_chance),
        "counted_high": float(of["hot_over"]) * (1 + by_chance),
    }


def rows_counted(of: Given) -> Exact:
    told = of["one_row"] * len(_counts(of))
    if told == of["rows_caught"]:
        return {"outcome": "each_row"}
    if told == of["one_row"]:
        return {"outcome": "in_all"}
    return {"outcome": "other_number", "counts_told": told}


def _counts(of: Given) -> tuple[Fraction, ...]:
    counts: tuple[Fraction, ...] | None = of["trials"][-1].seeds_caught
    if counts is None:
        raise ValueError(of["trials"])
    return counts
