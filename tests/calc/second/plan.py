"""The plan of a catch once more: its rows, its turns, its ground, its weight."""

from fractions import Fraction
from math import ceil, floor

from tests.calc.second.exact import DUST, Exact, Given, not_under


def whole_rows(of: Given) -> Exact:
    return {"drive_rows": of["row_count"]}


def half_rows(of: Given) -> Exact:
    return {"drive_rows": of["row_count"] - of["row_count"] // 2}


def ground(of: Given) -> Exact:
    metres_of_row = of["rows_caught"] * of["turns"] * of["distance_per_turn"]
    return {"ground_covered": metres_of_row * of["row_spacing"]}


def expected_catch(of: Given) -> Exact:
    of_a_row = of["bulk_rate"] * (of["ground_covered"] / of["rows_caught"])
    return {"target_catch": of_a_row * of["rows_caught"], "target_catch_per_row": of_a_row}


def expected_reading(of: Given) -> Exact:
    near = of["target_catch"] * of["tolerance"]
    middle = of["target_catch"] + of["tare"]
    low, high = middle - near, middle + near
    first, last = up(low / of["scale_step"]), floor(high / of["scale_step"] * (1 + DUST))
    if first <= last:
        low, high = first * of["scale_step"], last * of["scale_step"]
    return {"expected_reading": middle, "reading_low": low, "reading_high": high}


def enough_to_weigh(of: Given) -> Exact:
    marks = of["target_catch"] / of["scale_step"]
    if not not_under(marks, of["marks_least"]):
        outcome = "too_few_marks"
    elif not not_under(of["turns"], of["turns_wanted"]):
        outcome = "few_turns"
    else:
        outcome = "enough" if not_under(marks, of["marks_wanted"]) else "few_marks"
    return {"outcome": outcome, "scale_marks": marks}


def tub_on_scale(of: Given) -> Exact:
    outcome = "seed_and_tub" if of["tare"] else "seed_alone"
    return {"outcome": outcome, "catch_step": of["scale_step"]}


def propose_catch(of: Given) -> Exact:
    return proposal(of, of["rows_wanted"], of["turns_wanted"])


def proposal(of: Given, rows_wanted: Fraction, turns_wanted: Fraction) -> Exact:
    """Rows and turns, and where the scale asks for more than the feed, what more rows need."""
    rows = min(of["drive_rows"], max(rows_wanted, up(of["drive_rows"] / 4)))
    for_feed = max(turns_wanted, up(of["even_turns"] / of["tolerance"]))
    row_turns = of["marks_wanted"] * of["scale_step"] / seed_of_a_row_and_turn(of)
    turns = max(for_feed, up(row_turns / rows))
    told = {"proposed_rows_caught": rows, "proposed_turns": min(of["turns_most"], turns)}
    if turns <= for_feed or rows == of["drive_rows"]:
        return {"outcome": "worked"} | told
    instead = min(of["drive_rows"], up(row_turns / for_feed))
    fewer = min(of["turns_most"], max(for_feed, up(row_turns / instead)))
    return {"outcome": "coarse", "rows_instead": instead, "turns_instead": fewer} | told


def seed_of_a_row_and_turn(of: Given) -> Fraction:
    """What one row drops in one turn at the target."""
    return Fraction(of["bulk_rate"] * of["row_spacing"] * of["distance_per_turn"])


def up(number: Fraction) -> Fraction:
    """The next whole number up, but for dust."""
    return Fraction(ceil(number * (1 - DUST)))
