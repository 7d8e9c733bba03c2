"""Example inputs of the plan and the trials, in SI units: one per outcome and branch."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value
from assistant.calc.contract import Trial

GROUND = {"row_spacing": 0.19, "distance_per_turn": 2.0}
PLANNED: dict[str, Value] = {
    "bulk_rate": 0.009,
    **GROUND,
    "scale_step": 0.005,
    "drive_rows": 24.0,
    "marks_wanted": 100.0,
    "turns_wanted": 20.0,
    "even_turns": 2.0,
    "tolerance": 0.05,
    "rows_wanted": 6.0,
    "one_row": 1.0,
    "one_turn": 1.0,
    "turns_most": 200.0,
}
FOR_ALL = {"drive_rows": 24.0, "tolerance": 0.03, "usual_row_cv": 0.05, "one_row": 1.0}
WEIGHABLE = {"turns_wanted": 20.0, "marks_wanted": 100.0, "marks_least": 50.0, "turns": 30.0}
WEIGHED: dict[str, Value] = {"tare": 0.1, "catch_step": 0.001}
AIMED: dict[str, Value] = {**WEIGHED, "target_catch": 0.3}
TURNED: dict[str, Value] = {
    **AIMED,
    "turns": 40.0,
    "tolerance": 0.05,
    "start_may_miss": 0.5,
    "chance_sure": 0.98,
    "opening_step": 0.0005,
    "widest_opening": 0.04,
    "narrowest_opening": 0.003,
    "scatter_told": 0.01,
    "repeats_told": 2.0,
    "one_turn": 1.0,
    "one_mm": 0.001,
}
FINE: dict[str, Value] = {"tolerance": 0.02}
BESIDE = ((0.004, 0.318), (0.0035, 0.27), (0.004, 0.33), (0.0035, 0.264), (0.004, 0.321))
AGREED: dict[str, Value] = {"repeat_tolerance": 0.025}
AHEAD: dict[str, Value] = {"ground_covered": 36.0}
FORESEEN: dict[str, Value] = {"ground_covered": 36.0, "sure": 0.95}
CARD: dict[str, Value] = {"ground_covered": 36.0, "tolerance": 0.05}
JUDGED: dict[str, Value] = {
    **AIMED,
    "ground_covered": 36.0,
    **AGREED,
    "tolerance": 0.05,
}
RULER: dict[str, Value] = {
    **AIMED,
    **AGREED,
    "opening_step": 0.0005,
    "widest_opening": 0.04,
    "narrowest_opening": 0.003,
}
LEVER: dict[str, Value] = {
    **AIMED,
    **AGREED,
    "lever_step": 0.5,
    "lever_top": 10.0,
    "lever_lowest": 0.0,
    "probe": 0.2,
    "lever_opens": "higher",
}
LEVER_FROM_0: dict[str, Value] = {"widest_opening": 0.04, "lever_top": 10.0}


def opened(*catches: tuple[float, float]) -> tuple[Trial, ...]:
    """Trials of openings, each with the seed that was caught."""
    return tuple(Trial(opening=opening, catch_weight=seed) for opening, seed in catches)


def marked(*catches: tuple[float, float]) -> tuple[Trial, ...]:
    """Trials of lever marks in the low drive range, each with the seed that was caught."""
    return tuple(
        Trial(lever_mark=mark, drive_range="low", catch_weight=seed) for mark, seed in catches
    )


EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "whole_rows": ({"row_count": 24.0},),
    "half_rows": ({"row_count": 25.0, "one_row": 1.0},),
    "tub_on_scale": ({"tare": 0.0, "scale_step": 0.001}, {"tare": 0.1, "scale_step": 0.001}),
    "propose_catch": (PLANNED, {**PLANNED, "bulk_rate": 0.001}),
    "rows_for_all": (
        {**FOR_ALL, "proposed_rows_caught": 6.0},
        {**FOR_ALL, "proposed_rows_caught": 14.0},
    ),
    "catches_expected": tuple(
        {"tolerance": share, "scatter_told": scatter}
        for share, scatter in ((0.05, 0.01), (0.05, 0.03), (0.03, 0.01), (0.03, 0.02), (0.02, 0.01))
    ),
    "ground": ({"rows_caught": 6.0, "turns": 30.0, **GROUND},),
    "expected_catch": ({"bulk_rate": 0.009, "ground_covered": 68.0, "rows_caught": 6.0},),
    "expected_reading": (
        {"target_catch": 0.3, "tare": 0.1, "tolerance": 0.05, "scale_step": 0.002},
        {"target_catch": 0.3, "tare": 0.1, "tolerance": 0.05, "scale_step": 0.15},
    ),
    "enough_to_weigh": (
        {**WEIGHABLE, "target_catch": 0.3, "scale_step": 0.001},
        {**WEIGHABLE, "target_catch": 0.3, "scale_step": 0.001, "turns": 10.0},
        {**WEIGHABLE, "target_catch": 0.3, "scale_step": 0.004},
        {**WEIGHABLE, "target_catch": 0.3, "scale_step": 0.01},
    ),
    "judge": (
        {**JUDGED, "trials": opened((0.014, 0.25))},
        {**JUDGED, "trials": opened((0.014, 0.35))},
        {**JUDGED, "trials": opened((0.014, 0.2845))},
        {**JUDGED, "trials": opened((0.014, 0.3))},
        {**JUDGED, "trials": opened((0.012, 0.25), (0.014, 0.3), (0.014, 0.301))},
        {**JUDGED, "trials": opened((0.014, 0.3), (0.014, 0.32))},
        {**JUDGED, "trials": opened((0.014, 0.25), (0.014, 0.26))},
        {**JUDGED, "trials": (Trial(opening=0.014, gross_weight=0.1),)},
        {**JUDGED, "trials": (Trial(opening=0.014, row_weights=(0.1, 0.1, 0.1)),)},
    ),
    "judge_opening": (
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.25))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.35))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.3))},
        {**TURNED, **AHEAD, "tolerance": 0.03, "turns": 30.0, "trials": opened((0.014, 0.2895))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.288), (0.014, 0.2865))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.312), (0.014, 0.3135))},
        {**TURNED, **AHEAD, "tolerance": 0.01, "trials": opened((0.005, 0.291))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.3), (0.014, 0.303))},
        {**TURNED, **AHEAD, "trials": opened((0.012, 0.25), (0.014, 0.3))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.3), (0.014, 0.22))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.27), (0.016, 0.285), (0.017, 0.276))},
        {**TURNED, **AHEAD, "trials": opened((0.014, 0.3), (0.014, 0.22), (0.014, 0.22))},
        {**TURNED, **AHEAD, "trials": (Trial(opening=0.014, gross_weight=0.1),)},
    ),
    "aim_opening": (
        {**TURNED, **FORESEEN, "trials": opened((0.014, 0.25))},
        {**TURNED, **FORESEEN, "trials": opened((0.014, 0.303))},
        {**TURNED, **FORESEEN, **FINE, "trials": opened(*BESIDE)},
        {**TURNED, **FORESEEN, **FINE, "opening_step": 0.002, "trials": opened(*BESIDE)},
        {**TURNED, **FORESEEN, "trials": opened((0.03, 0.1))},
        {**TURNED, **FORESEEN, "trials": opened((0.005, 0.9))},
    ),
    "catches_aside": (
        {**TURNED, "trials": opened((0.014, 0.3), (0.014, 0.301))},
        {**TURNED, "trials": opened((0.014, 0.3), (0.014, 0.22), (0.014, 0.301))},
        {**TURNED, "trials": opened((0.014, 0.3), (0.014, 0.22), (0.014, 0.18))},
    ),
    "drill_scatter": (
        {**TURNED, "trials": opened((0.014, 0.3), (0.014, 0.303))},
        {**TURNED, "repeats_told": 0.0, "trials": opened((0.014, 0.3))},
    ),
    "scatter_by_card": ({"last_scatter": 0.01, "last_repeats": 3.0},),
    "next_opening": (
        {**RULER, "trials": opened((0.014, 0.25))},
        {**RULER, "trials": opened((0.012, 0.25), (0.016, 0.35))},
        {**RULER, "trials": opened((0.012, 0.2), (0.014, 0.25))},
        {**RULER, "trials": opened((0.014, 0.25), (0.012, 0.26))},
        {**RULER, "trials": opened((0.014, 0.25), (0.012, 0.251))},
        {**RULER, "trials": opened((0.014, 0.25), (0.012, 0.26), (0.012, 0.26))},
        {**RULER, "trials": opened((0.014, 0.28), (0.0145, 0.303))},
        {**RULER, "trials": opened((0.03, 0.1))},
        {**RULER, "trials": opened((0.005, 0.9))},
        {**RULER, "widest_opening": 0.0167, "trials": opened((0.014, 0.2524))},
        {**RULER, "narrowest_opening": 0.0033, "trials": opened((0.005, 0.454))},
    ),
    "next_lever_mark": (
        {**LEVER, "trials": marked((4.0, 0.25), (6.0, 0.35))},
        {**LEVER, "trials": marked((4.0, 0.25))},
        {**LEVER, "trials": marked((4.0, 0.35))},
        {**LEVER, "trials": marked((4.0, 0.25), (2.0, 0.27))},
        {**LEVER, "trials": marked((4.0, 0.25), (2.0, 0.251))},
        {**LEVER, "trials": marked((4.0, 0.22), (2.0, 0.2), (3.0, 0.19))},
        {**LEVER, "trials": marked((2.0, 0.2), (4.0, 0.25))},
        {**LEVER, "lever_opens": "lower", "trials": marked((4.0, 0.25))},
        {**LEVER, "trials": marked((4.0, 0.25), (4.5, 0.303))},
        {**LEVER, "trials": marked((10.0, 0.25))},
        {**LEVER, "trials": marked((0.0, 0.35))},
    ),
    "catches_apart": (
        {**WEIGHED, **AGREED, "trials": opened((0.014, 0.3), (0.014, 0.301))},
        {**WEIGHED, **AGREED, "trials": opened((0.014, 0.2), (0.014, 0.3), (0.014, 0.301))},
        {**WEIGHED, **AGREED, "trials": opened((0.014, 0.2), (0.014, 0.25), (0.014, 0.3))},
        {**WEIGHED, **AGREED, "trials": opened((0.014, 0.0))},
    ),
    "early_card": (
        {**JUDGED, "trials": opened((0.014, 0.3))},
        {**JUDGED, "trials": opened((0.014, 0.31), (0.014, 0.312))},
        {**JUDGED, "trials": opened((0.014, 0.25))},
        {**JUDGED, "trials": ()},
    ),
    "early_card_by_all": tuple(
        {**TURNED, "ground_covered": 36.0, "trials": opened(*catches)}
        for catches in (
            ((0.014, 0.3),),
            ((0.014, 0.29), (0.014, 0.31)),
            ((0.014, 0.25),),
            ((0.014, 0.3), (0.014, 0.2)),
            ((0.014, 0.3), (0.014, 0.0)),
            (),
        )
    ),
    "opening_ahead": (
        {**RULER, **CARD, "trials": opened((0.014, 0.25))},
        {**RULER, **CARD, "trials": opened((0.014, 0.303))},
        {**RULER, **CARD, "tolerance": 0.005, "trials": opened((0.014, 0.28), (0.0145, 0.303))},
        {**RULER, **CARD, "trials": opened((0.03, 0.1))},
        {**RULER, **CARD, "trials": opened((0.014, 0.25), (0.012, 0.26))},
        {**RULER, **CARD, "trials": ()},
    ),
    "opening_ahead_by_all": (
        {**TURNED, **FORESEEN, "trials": opened((0.014, 0.25))},
        {**TURNED, **FORESEEN, "trials": opened((0.014, 0.3))},
        {**TURNED, **FORESEEN, **FINE, "opening_step": 0.002, "trials": opened(*BESIDE)},
        {**TURNED, **FORESEEN, "trials": opened((0.03, 0.1))},
        {**TURNED, **FORESEEN, "trials": opened((0.014, 0.3), (0.014, 0.22))},
        {**TURNED, **FORESEEN, "trials": ()},
    ),
    "mark_ahead": (
        {**LEVER, **AHEAD, "trials": marked((4.0, 0.25), (6.0, 0.35))},
        {**LEVER, **AHEAD, "trials": marked((4.0, 0.25), (4.5, 0.303))},
        {**LEVER, **AHEAD, "trials": marked((10.0, 0.25))},
        {**LEVER, **AHEAD, "trials": marked((4.0, 0.25))},
        {**LEVER, **AHEAD, "lever_opens": "lower", "trials": marked((4.0, 0.25))},
        {**LEVER, **AHEAD, "trials": ()},
    ),
    "what_is_set": tuple(
        {"feed": feed} for feed in ("fluted", "cup", "cell", "small_seed", "agitated", "double_run")
    ),
    "final_setting": (
        {"trials": opened((0.014, 0.3))},
        {"trials": marked((4.5, 0.3))},
        {"trials": (Trial(teeth=18.0, catch_weight=0.3),)},
    ),
    "mark_by_opening": tuple(
        {**LEVER_FROM_0, "lever_opens": opens, "trials": opened((0.015, 0.3))}
        for opens in ("higher", "lower")
    ),
}
