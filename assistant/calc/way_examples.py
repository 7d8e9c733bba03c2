"""Example inputs of the ways to catch, in SI units: one per outcome and branch."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs

MARKS = {"marks_wanted": 100.0, "marks_least": 50.0, "target_catch": 0.3}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "turned_by_hand": tuple({"drive_halves": name} for name in ("one", "two", "no")),
    "no_halves": tuple({"method": name} for name in ("wheel", "crank", "strip")),
    "crank_distance_per_turn": (
        {"crank_turns": 66.7, "crank_area": 200.0, "row_count": 32.0, "row_spacing": 0.125},
    ),
    "propose_rows": (
        {"drive_rows": 24.0, "rows_wanted": 6.0, "one_row": 1.0},
        {"drive_rows": 48.0, "rows_wanted": 6.0, "one_row": 1.0},
    ),
    "strip_ground": ({"rows_caught": 6.0, "row_spacing": 0.19, "strip_distance": 45.0},),
    "enough_marks": (
        {**MARKS, "scale_step": 0.001},
        {**MARKS, "scale_step": 0.004},
        {**MARKS, "scale_step": 0.01},
    ),
}
