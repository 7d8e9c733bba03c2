"""The way of catching once more."""

from math import ceil

from tests.calc.second.exact import Exact, Given, not_under


def crank_distance_per_turn(of: Given) -> Exact:
    ground_of_a_turn = of["crank_area"] / of["crank_turns"]
    return {"distance_per_turn": ground_of_a_turn / of["row_count"] / of["row_spacing"]}


def propose_rows(of: Given) -> Exact:
    quarter = ceil(of["drive_rows"] / 4)
    return {"proposed_rows_caught": min(of["drive_rows"], max(of["rows_wanted"], quarter))}


def enough_marks(of: Given) -> Exact:
    marks = of["target_catch"] / of["scale_step"]
    if not not_under(marks, of["marks_least"]):
        outcome = "too_few_marks"
    else:
        outcome = "enough" if not_under(marks, of["marks_wanted"]) else "few_marks"
    return {"outcome": outcome, "scale_marks": marks}
