"""A driven strip once more."""

from tests.calc.second.exact import Exact, Given


def strip_ground(of: Given) -> Exact:
    metres_of_row = of["rows_caught"] * of["strip_distance"]
    return {"ground_covered": metres_of_row * of["row_spacing"]}


def width_by_rows(of: Given) -> Exact:
    between_outer_rows = (of["row_count"] - 1) * of["row_spacing"]
    return {"working_width": between_outer_rows + of["row_spacing"]}
