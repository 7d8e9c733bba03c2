"""The next lever mark once more: a place on a scale, found between two others or past them."""

from fractions import Fraction
from math import floor

from tests.calc.second.aiming import (
    Tried,
    best_mark,
    bracket,
    nearest_step,
    on_line,
    rising,
    tried_at,
)
from tests.calc.second.catches import agree
from tests.calc.second.exact import DUST, Exact, Given, same


def next_lever_mark(of: Given) -> Exact:
    tried = tried_at(of, "lever_mark")
    way, present = way_shown(of, tried), tried[-1]
    if way != of["lever_opens"]:
        return {"outcome": "other_way", "next_lever_mark": present.at}
    kept = rising(tried, upward=way == "higher")
    around = bracket(kept, of["target_catch"])
    if not around:
        return _probe(of, tried, way, more=kept[-1].brought <= of["target_catch"])
    goal = _mark(of, on_line(*around, of["target_catch"]))
    last = [*(each for each in kept if each is not present), present]
    mark = best_mark(goal, last, of["target_catch"], of["lever_step"])
    return {"outcome": "as_near" if same(mark, present.at) else "set_next", "next_lever_mark": mark}


def way_shown(of: Given, tried: list[Tried]) -> str:
    """`higher` or `lower`: which marks give more by the two outermost, as told while they agree."""
    low, high = (pick(tried, key=lambda each: each.at) for pick in (min, max))
    if agree(low.brought, high.brought, of):
        return str(of["lever_opens"])
    return "higher" if high.brought > low.brought else "lower"


def _mark(of: Given, aim: Fraction) -> Fraction:
    lowest, step = of["lever_lowest"], of["lever_step"]
    last = floor((of["lever_top"] - lowest) / step * (1 + DUST))
    steps = nearest_step((aim - lowest) / step, Fraction(1))
    return Fraction(lowest + step * min(max(steps, 0), last))


def _probe(of: Given, tried: list[Tried], way: str, *, more: bool) -> Exact:
    up = 1 if more == (way == "higher") else -1
    outermost = max(up * each.at for each in tried) * up
    share = of["probe"] * (of["lever_top"] - of["lever_lowest"])
    mark = _mark(of, outermost + up * max(of["lever_step"], nearest_step(share, of["lever_step"])))
    if (mark - outermost) * up < of["lever_step"] / 2:
        return {"outcome": "too_wide" if more else "too_narrow"}
    return {"outcome": "probe", "next_lever_mark": mark}
