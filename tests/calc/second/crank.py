"""A rolled meter shaft once more: how much ground one turn is."""

from tests.calc.second.exact import Exact, Given


def turns_by_roll(of: Given) -> Exact:
    ground_of_a_turn = of["rolled_distance"] / of["rolled_turns"] * of["working_width"]
    return {"turns_per_area": 1 / ground_of_a_turn}
