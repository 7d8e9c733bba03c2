"""Example inputs of the ways to catch, in SI units: one per outcome and branch."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs

MARKS = {"marks_wanted": 100.0, "marks_least": 50.0, "target_catch": 0.3}

CHAIN = {"teeth": 18.0, "caught_rate": 0.009, "bulk_rate": 0.0099}
PAIR = {"lighter_teeth": 18.0, "heavier_teeth": 20.0}

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
    "nearest_teeth": (
        {**CHAIN, "teeth_offered": (15.0, 20.0), "swapped_sprocket": "driver"},
        {**CHAIN, "teeth_offered": (15.0, 20.0), "swapped_sprocket": "driven"},
        {**CHAIN, "teeth_offered": (15.0, 19.8), "swapped_sprocket": "driver"},
        {**CHAIN, "teeth_offered": (15.0, 19.0), "swapped_sprocket": "driver"},
        {**CHAIN, "teeth_offered": (24.0, 20.0), "swapped_sprocket": "driven"},
    ),
    "teeth_taken": tuple(
        {**PAIR, "take_teeth": taken, "teeth": 18.0} for taken in ("lighter", "heavier")
    ),
    "enough_marks": (
        {**MARKS, "scale_step": 0.001},
        {**MARKS, "scale_step": 0.004},
        {**MARKS, "scale_step": 0.01},
    ),
}
