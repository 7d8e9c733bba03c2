"""A turn of the wheel once more."""

from math import tau

from tests.calc.second.exact import Exact, Given, not_over, not_under


def rolled_distance_per_turn(of: Given) -> Exact:
    turns_of_a_metre = of["rolled_turns"] / of["rolled_distance"]
    return {"distance_per_turn": 1 / turns_of_a_metre}


def turn_against_usual(of: Given) -> Exact:
    turn = of["distance_per_turn"]
    usual = not_under(turn, of["turn_least"]) and not_over(turn, of["turn_most"])
    return {"outcome": "usual" if usual else "unusual"}


def axle_distance_per_turn(of: Given) -> Exact:
    return {"distance_per_turn": tau * float(of["axle_height"])}
