"""Sprockets once more: what each of them would drop, in order."""

from fractions import Fraction

from tests.calc.second.exact import Exact, Given, same


def nearest_teeth(of: Given) -> Exact:
    offered = {*of["teeth_offered"], of["teeth"]}
    off = {teeth: _rate_with(of, teeth) / of["bulk_rate"] - 1 for teeth in offered}
    for teeth, share in off.items():
        if same(1 + share, Fraction(1)):
            return {"outcome": "meets", "next_teeth": teeth}
    light = [teeth for teeth in offered if off[teeth] < 0]
    heavy = [teeth for teeth in offered if off[teeth] > 0]
    if light and heavy:
        under, over = max(light, key=off.__getitem__), min(heavy, key=off.__getitem__)
        return {
            "outcome": "between",
            "lighter_teeth": under,
            "lighter_off": off[under],
            "heavier_teeth": over,
            "heavier_off": off[over],
        }
    least = min(offered, key=lambda teeth: abs(off[teeth]))
    if least == of["teeth"]:
        return {"outcome": "as_near"}
    return {"outcome": "one_side", "next_teeth": least, "next_off": off[least]}


def _rate_with(of: Given, teeth: Fraction) -> Fraction:
    faster: Fraction = teeth / of["teeth"]
    rate: Fraction = of["caught_rate"]
    return rate * faster if of["swapped_sprocket"] == "driver" else rate / faster


def teeth_taken(of: Given) -> Exact:
    picked = of[f"{of['take_teeth']}_teeth"]
    if picked == of["teeth"]:
        return {"outcome": "stays"}
    return {"outcome": "changes", "next_teeth": picked}
