"""The meter of an air drill once more: weight a turn, turns a time."""

from collections.abc import Sequence
from fractions import Fraction

from assistant.calc.contract import MeterCatch
from tests.calc.second.exact import Exact, Given, not_over, not_under


def judge_meter(of: Given) -> Exact:
    catches = of["meter_catches"]
    last = _per_turn(catches[-1:])
    if last <= 0:
        return {"outcome": "nothing_came"}
    brought = [each for each in catches if each.meter_catch > 0]
    if len(brought) == 1:
        return {"outcome": "first", "weight_per_turn": last}
    near = [each for each in brought if _agree(_per_turn([each]), last, of["repeat_tolerance"])]
    if len(near) == 1:
        return {"outcome": "apart", "weight_per_turn": last}
    return {"outcome": "agree", "weight_per_turn": _per_turn(near)}


def heavy_enough(of: Given) -> Exact:
    light = of["weighed"] > 0 and not not_under(of["weighed"], of["heavy_from"])
    told = {"outcome": "light", "light_weight": of["weighed"]}
    return told if light else {"outcome": "enough"}


def meter_rate(of: Given) -> Exact:
    return {"meter_rate": of["turns_per_area"] * of["weight_per_turn"]}


def gearbox_ratio(of: Given) -> Exact:
    short = of["bulk_rate"] / of["meter_rate"]
    return {"wanted_ratio": of["drive_ratio"] * short}


def turn_by_factor(of: Given) -> Exact:
    return {"weight_per_turn": of["set_weight_per_turn"]}


def turn_by_pulses(of: Given) -> Exact:
    weight_of_a_pulse = 1 / of["set_pulses_per_weight"]
    return {"weight_per_turn": of["pulses_per_turn"] * weight_of_a_pulse}


def turn_by_turns(of: Given) -> Exact:
    return {"weight_per_turn": 1 / of["set_turns_per_weight"]}


def shaft_speed(of: Given) -> Exact:
    return {"shaft_speed": of["working_speed"] / _metres_of_a_turn(of)}


def shaft_range(of: Given) -> Exact:
    metres = _metres_of_a_turn(of)
    slow, fast = of["slowest_speed"] / metres, of["fastest_speed"] / metres
    told = {"shaft_at_slowest": slow, "shaft_at_fastest": fast}
    too_slow = not not_under(slow, of["motor_slowest"])
    too_fast = not not_over(fast, of["motor_fastest"])
    if too_slow:
        told["speed_least"] = of["motor_slowest"] * metres
    if too_fast:
        told["speed_most"] = of["motor_fastest"] * metres
    outcomes = {(False, False): "within", (True, False): "too_slow", (False, True): "too_fast"}
    return {"outcome": outcomes.get((too_slow, too_fast), "both")} | told


def _metres_of_a_turn(of: Given) -> Fraction:
    ground_of_a_turn = of["weight_per_turn"] / of["bulk_rate"]
    return Fraction(ground_of_a_turn / of["working_width"])


def _per_turn(catches: Sequence[MeterCatch]) -> Fraction:
    seed, turns = Fraction(0), Fraction(0)
    for each in catches:
        seed += Fraction(each.meter_catch)
        turns += Fraction(each.meter_turns)
    return seed / turns


def _agree(one: Fraction, other: Fraction, share: Fraction) -> bool:
    return not_over(abs(one - other), share * (one + other) / 2)
