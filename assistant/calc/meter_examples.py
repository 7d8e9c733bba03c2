"""Example inputs of air meters, factors and drives in steps, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value

MOTOR: dict[str, Value] = {
    "bulk_rate": 0.009,
    "working_width": 12.2,
    "weight_per_turn": 0.281,
    "slowest_speed": 1.8,
    "fastest_speed": 2.7,
    "motor_slowest": 0.2,
    "motor_fastest": 2.0,
}
FIRST: dict[str, Value] = {"first_catch": 1.4, "first_turns": 5.0, "repeat_tolerance": 0.025}
MORE: dict[str, Value] = {"weighed": 9.7, "shown": 9.1, "repeat_tolerance": 0.025}
LESS: dict[str, Value] = {"weighed": 8.5, "shown": 9.1, "repeat_tolerance": 0.025}
ALIKE: dict[str, Value] = {"weighed": 9.1, "shown": 9.1, "repeat_tolerance": 0.025}
AGAIN: dict[str, Value] = {
    "first_weighed": 9.7,
    "first_shown": 9.1,
    "shown": 9.1,
    "tolerance": 0.05,
    "repeat_tolerance": 0.01,
}
SHOWN: dict[str, Value] = {"measured_speed": 2.2, "tolerance": 0.02}
CHAIN: dict[str, Value] = {"present_ratio": 1.0, "caught_rate": 0.008, "bulk_rate": 0.009}
PLACES: dict[str, Value] = {
    "first_position": 20.0,
    "first_rate": 0.008,
    "second_position": 30.0,
    "second_rate": 0.012,
    "position_step": 1.0,
}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "weight_per_turn": ({"meter_catch": 2.81, "meter_turns": 10.0},),
    "meter_steady": (
        {**FIRST, "second_catch": 2.8, "second_turns": 10.0},
        {**FIRST, "second_catch": 2.5, "second_turns": 10.0},
    ),
    "meter_rate": ({"weight_per_turn": 0.281, "turns_per_area": 0.0312},),
    "gearbox_ratio": ({"drive_ratio": 0.5, "meter_rate": 0.0088, "bulk_rate": 0.009},),
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
    "pulses_by_turn": ({"pulses_per_turn": 360.0, "weight_per_turn": 0.281},),
    "turns_by_weight": ({"weight_per_turn": 0.281},),
    "correct_weight_per_turn": tuple(
        {**caught, "old_weight_per_turn": 0.281} for caught in (MORE, LESS, ALIKE)
    ),
    "correct_pulses": tuple(
        {**caught, "old_pulses_per_weight": 1280.0} for caught in (MORE, LESS, ALIKE)
    ),
    "correct_turns": tuple(
        {**caught, "old_turns_per_weight": 3.5} for caught in (MORE, LESS, ALIKE)
    ),
    "correction_worked": tuple({**AGAIN, "weighed": weighed} for weighed in (9.2, 10.34, 9.7, 8.0)),
    "ratio_by_teeth": ({"driver_teeth": 18.0, "driven_teeth": 24.0},),
    "nearest_sprockets": tuple(
        {**CHAIN, "sprocket_ratios": ratios}
        for ratios in ((0.8, 1.0, 1.2), (1.0, 1.125), (1.3, 1.5), (0.8, 1.0))
    ),
    "position_between": (
        {**PLACES, "bulk_rate": 0.009},
        {**PLACES, "bulk_rate": 0.014},
        {**PLACES, "bulk_rate": 0.009, "second_rate": 0.008},
    ),
}
