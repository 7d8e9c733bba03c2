"""The next opening once more: in proportion, or on the line through two that were tried."""

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

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
from tests.calc.second.exact import DUST, Exact, Given, not_over, not_under, same


def next_opening(of: Given) -> Exact:
    tried = tried_at(of, "opening")
    present, step, wanted = tried[-1], of["opening_step"], of["target_catch"]
    if present.times == 1 and any(_against(each, present, of) for each in tried[:-1]):
        return {"outcome": "set_again", "next_opening": present.at}
    kept = rising(tried)
    aim = _aim(kept, present, wanted)
    mark = nearest_step(aim, step)
    # Past an end is what is past it both as it was worked out and on the nearest mark.
    if not not_over(min(aim, mark), of["widest_opening"]):
        return {"outcome": "too_wide"}
    if not not_over(mark, of["widest_opening"]):
        mark = step * floor(of["widest_opening"] / step * (1 + DUST))
    if not not_under(max(aim, mark), of["narrowest_opening"]):
        return {"outcome": "too_narrow"}
    if not not_under(mark, of["narrowest_opening"]):
        mark = step * ceil(of["narrowest_opening"] / step * (1 - DUST))
    best = best_mark(mark, [*(each for each in kept if each is not present), present], wanted, step)
    outcome = "as_near" if same(best, present.at) else "set_next"
    return {"outcome": outcome, "next_opening": best}


def _against(earlier: Tried, present: Tried, of: Given) -> bool:
    more = earlier.brought > present.brought
    wider = earlier.at > present.at
    return more != wider and not agree(earlier.brought, present.brought, of)


def _aim(kept: Sequence[Tried], present: Tried, wanted: Fraction) -> Fraction:
    around = bracket(kept, wanted)
    if around:
        return on_line(*around, wanted)
    near = min(kept, key=lambda each: (abs(each.brought - wanted), each is not present))
    straight = near.at * wanted / near.brought
    if len(kept) > 1:
        other = min((e for e in kept if e is not near), key=lambda e: abs(e.brought - wanted))
        line = on_line(near, other, wanted)
        times = (line - near.at) / (straight - near.at) if straight != near.at else Fraction(0)
        if not_under(times, Fraction(1, 2)) and not_over(times, Fraction(2)):
            return line
    return straight
