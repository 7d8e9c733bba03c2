"""The gear of a meter that is driven from the ground, once more: turns of the shaft a metre."""

from dataclasses import replace
from fractions import Fraction
from math import floor

from tests.calc.second.aiming import best_mark, bracket, nearest_step, on_line, visited
from tests.calc.second.catches import side
from tests.calc.second.exact import DUST, Exact, Given, same


def judge_roll(of: Given) -> Exact:
    found = side(of["caught_rate"], of["bulk_rate"], of["tolerance"])
    off = (of["caught_rate"] - of["bulk_rate"]) / of["bulk_rate"]
    return {"outcome": "on_target" if found == "near" else found, "percent_off": off}


def next_gear(of: Given) -> Exact:
    if of["rolls"][-1].gear_mark is None:
        raise ValueError(of["rolls"])
    wanted = of["bulk_rate"] * of["working_width"] / of["weight_per_turn"]
    rolls = [
        (Fraction(each.gear_mark), Fraction(each.shaft_turns) / Fraction(each.shaft_distance))
        for each in of["rolls"]
        if each.gear_mark is not None
    ]
    tried = visited(rolls)
    present = tried[-1]
    by_miss = sorted(tried, key=lambda each: abs(each.brought - wanted))
    two = bracket(tried, wanted) or by_miss[:2]
    if len(two) == 1 or same(two[0].brought, two[1].brought):
        goal = present.at * wanted / present.brought
    else:
        goal = on_line(two[0], two[1], wanted)
    step = of["gear_step"]
    top = max(step, step * floor(of["gear_top"] / step * (1 + DUST)))
    mark = min(max(nearest_step(goal, step), step), top)
    # What would be better lies past an end that the gearbox stands at.
    if same(mark, present.at) and abs(goal - mark) > step / 2:
        return {"outcome": "off_scale"}
    # Here each roll at a mark counts, not only how often one came to it.
    best = best_mark(mark, [replace(each, visits=each.times) for each in tried], wanted, step)
    if same(best, present.at):
        return {"outcome": "as_near"}
    return {"outcome": "set_next", "next_gear_mark": best}
