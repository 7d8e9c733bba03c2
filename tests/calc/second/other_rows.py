"""Other rows beside those before, once more."""

from math import sqrt

from assistant.calc import assumed
from tests.calc.second.exact import Exact, Given, exact, not_over
from tests.calc.second.rows import error_of_mean, normal


def other_rows_left(of: Given) -> Exact:
    left = of["drive_rows"] - of["rows_caught"]
    return {"outcome": "some_left" if left >= of["rows_caught"] else "few_left"}


def compare_other_rows(of: Given) -> Exact:
    other = of["other_weight"] / of["ground_covered"]
    target = of["target_catch"] / of["ground_covered"]
    both, rows = (other + of["caught_rate"]) / 2, 2 * of["rows_caught"]
    differ = assumed.APART * sqrt(of["usual_row_cv"] ** 2 * 2 / of["rows_caught"])
    alike = not_over(abs(other - of["caught_rate"]), of["caught_rate"] * exact(differ))
    left = error_of_mean(of["usual_row_cv"], rows, of["drive_rows"])
    return {
        "outcome": "alike" if alike else "apart",
        "other_rate": other,
        "both_off": both / target - 1,
        "both_left_open": normal(of["sure"]) * left,
    }
