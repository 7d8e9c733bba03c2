"""Speeds once more."""

from tests.calc.second.exact import Exact, Given, not_over


def speed_by_time(of: Given) -> Exact:
    time_of_a_metre = of["time_taken"] / of["timed_distance"]
    return {"measured_speed": 1 / time_of_a_metre}


def speed_shown(of: Given) -> Exact:
    off = (of["shown_speed"] - of["measured_speed"]) / of["measured_speed"]
    if not_over(abs(off), of["tolerance"]):
        return {"outcome": "agrees", "speed_off": off}
    return {"outcome": "shows_fast" if off > 0 else "shows_slow", "speed_off": off}


def speeds_in_order(of: Given) -> Exact:
    in_order = of["slowest_speed"] <= of["fastest_speed"]
    return {"outcome": "in_order" if in_order else "turned_round"}


def motor_in_order(of: Given) -> Exact:
    in_order = of["motor_slowest"] <= of["motor_fastest"]
    return {"outcome": "in_order" if in_order else "turned_round"}
