"""Example inputs of air drills and of drives in steps, in SI units: one per outcome and branch."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value
from assistant.calc.contract import MeterCatch, Roll, Run

MOTOR: dict[str, Value] = {
    "bulk_rate": 0.009,
    "working_width": 12.2,
    "weight_per_turn": 0.281,
    "slowest_speed": 1.8,
    "fastest_speed": 2.7,
    "motor_slowest": 0.2,
    "motor_fastest": 2.0,
}
SHOWN: dict[str, Value] = {"measured_speed": 2.2, "tolerance": 0.02}

CAUGHT = MeterCatch(meter_turns=20.0, meter_catch=5.62)
GEAR: dict[str, Value] = {
    "bulk_rate": 0.009,
    "working_width": 12.2,
    "weight_per_turn": 0.281,
    "gear_top": 60.0,
    "gear_step": 1.0,
}
"""The meter should turn 0.39 times a metre."""

LIGHT = Roll(shaft_turns=11.0, shaft_distance=30.5, gear_mark=30.0)
HEAVY = Roll(shaft_turns=13.0, shaft_distance=30.5, gear_mark=36.0)
NEAR = Roll(shaft_turns=11.9, shaft_distance=30.5, gear_mark=33.0)


def run(weighed: float, told: float = 0.281) -> Run:
    """A run that showed 9.1 kg, by a factor in weight a turn."""
    return Run(shown=9.1, weighed=weighed, set_weight_per_turn=told)


def pulsed(weighed: float, told: float) -> Run:
    """A run that showed 9.1 kg, by a factor in pulses a weight."""
    return Run(shown=9.1, weighed=weighed, set_pulses_per_weight=told)


TURNED = Run(shown=9.1, weighed=9.7, set_turns_per_weight=3.56)
RUNS: tuple[tuple[Run, ...], ...] = (
    (run(9.2),),  # near
    (run(9.7), run(9.1, 0.3)),  # put right, and proven
    (run(9.7),),  # more than shown
    (TURNED,),
    (run(8.5),),  # less than shown
    (pulsed(9.7, 1280.0), pulsed(10.34, 1364.0)),  # moved the other way
    (run(9.7), run(10.34, 0.3)),  # moved as told, and it counts the other way
    (pulsed(9.7, 1280.0), pulsed(10.34, 1201.0)),
    (run(9.7), run(9.7, 0.3)),  # not taken
    (run(9.7), run(8.1)),  # apart
    (run(0.0),),
)

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "width_by_rows": ({"row_count": 24.0, "row_spacing": 0.19},),
    "width_as_set": tuple(
        {"width_set": width, "working_width": 12.2, "width_agreement": 0.01}
        for width in (12.2, 12.8, 11.6)
    ),
    "heavy_enough": tuple({"weighed": each, "heavy_from": 2.3} for each in (9.7, 0.9)),
    "judge_meter": tuple(
        {"meter_catches": catches, "repeat_tolerance": 0.025}
        for catches in (
            (CAUGHT,),
            (CAUGHT, MeterCatch(meter_turns=10.0, meter_catch=2.8)),
            (CAUGHT, MeterCatch(meter_turns=10.0, meter_catch=2.5)),
            (MeterCatch(meter_turns=10.0, meter_catch=0.0),),
        )
    ),
    "meter_rate": ({"weight_per_turn": 0.281, "turns_per_area": 0.0312},),
    "gearbox_ratio": ({"drive_ratio": 0.5, "meter_rate": 0.0088, "bulk_rate": 0.009},),
    "turn_by_factor": ({"set_weight_per_turn": 0.281},),
    "turn_by_pulses": ({"pulses_per_turn": 360.0, "set_pulses_per_weight": 1280.0},),
    "turn_by_turns": ({"set_turns_per_weight": 3.56},),
    "turns_by_roll": ({"rolled_turns": 11.6, "rolled_distance": 30.5, "working_width": 12.2},),
    "judge_roll": tuple(
        {"caught_rate": rate, "bulk_rate": 0.009, "tolerance": 0.05}
        for rate in (0.008, 0.01, 0.0091)
    ),
    "next_gear": (
        {**GEAR, "rolls": (LIGHT,)},
        {**GEAR, "rolls": (LIGHT, HEAVY)},
        {**GEAR, "rolls": (LIGHT, HEAVY, NEAR)},
        {**GEAR, "gear_top": 30.0, "rolls": (LIGHT,)},
    ),
    "shaft_speed": (
        {
            "bulk_rate": 0.009,
            "working_width": 12.2,
            "working_speed": 2.2,
            "weight_per_turn": 0.281,
        },
    ),
    "shaft_range": (
        MOTOR,
        {**MOTOR, "motor_slowest": 0.8},
        {**MOTOR, "motor_fastest": 1.0},
        {**MOTOR, "motor_slowest": 0.8, "motor_fastest": 1.0},
    ),
    "speed_by_time": ({"timed_distance": 60.0, "time_taken": 27.0},),
    "speed_shown": tuple({**SHOWN, "shown_speed": shown} for shown in (2.2, 2.4, 2.0)),
    "speeds_in_order": tuple(
        {"slowest_speed": 1.8, "fastest_speed": fastest} for fastest in (2.7, 1.3)
    ),
    "motor_in_order": tuple(
        {"motor_slowest": 0.2, "motor_fastest": fastest} for fastest in (2.0, 0.1)
    ),
    "judge_run": tuple(
        {"runs": runs, "bulk_rate": 0.009, "repeat_tolerance": 0.025} for runs in RUNS
    ),
    "correct_weight_per_turn": tuple(
        {"set_weight_per_turn": 0.281, "percent_off": off} for off in (0.066, -0.066)
    ),
    "correct_pulses": tuple(
        {"set_pulses_per_weight": 1280.0, "percent_off": off} for off in (0.066, -0.066)
    ),
    "correct_turns": tuple(
        {"set_turns_per_weight": 3.56, "percent_off": off} for off in (0.066, -0.066)
    ),
    "compare_outlets": tuple(
        {"outlet_weights": weights, "outlet_towers": 2.0, "outlet_spread_most": 0.1, "one_row": 1.0}
        for weights in (
            (0.4, 0.41, 0.39, 0.4),
            (0.4, 0.3, 0.5, 0.4),
            (0.4, 0.4),
            (0.4, 0.4, 0.4),
        )
    ),
    "outlet_pattern": tuple(
        {"outlet_weights": weights, "outlet_towers": 2.0, "outlet_spread_most": 0.1}
        for weights in (
            (0.4, 0.41, 0.3, 0.31),
            (0.4, 0.3, 0.41, 0.31),
            (0.4, 0.41, 0.4, 0.1),
            (0.4, 0.2, 0.1, 0.6),
        )
    ),
    "outlet_groups": tuple(
        {
            "outlet_weights": weights,
            "outlet_towers": towers,
            "pattern_least": 0.05,
            "pattern_sure": 0.99,
        }
        for weights, towers in (
            ((0.41, 0.411, 0.409, 0.36, 0.361, 0.359), 2.0),
            ((0.41, 0.36, 0.411, 0.361, 0.409, 0.359), 3.0),
            ((0.40, 0.41, 0.39, 0.40), 2.0),
            ((0.40, 0.41, 0.39), 1.0),
        )
    ),
    "outlets_left_open": tuple(
        {
            "outlet_cv": 0.04,
            "outlets_caught": caught,
            "row_count": 64.0,
            "one_row": 1.0,
            "sure": 0.95,
        }
        for caught in (4.0, 64.0)
    ),
}
