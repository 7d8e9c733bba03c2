"""The factor of a powered meter once more: what one turn or one pulse brings.

A turn and a pulse are the same here, a move of the meter. The screen shows moves times what a move
is told to bring.
"""

from fractions import Fraction

from assistant.calc.contract import Run
from tests.calc.second.catches import agree, mean, side, with_last
from tests.calc.second.exact import Exact, Given


def correct_weight_per_turn(of: Given) -> Exact:
    old = of["set_weight_per_turn"]
    return _put_right("new_weight_per_turn", old, old + old * of["percent_off"])


def correct_pulses(of: Given) -> Exact:
    old = of["set_pulses_per_weight"]
    return _put_right("new_pulses_per_weight", old, 1 / (1 / old + of["percent_off"] / old))


def correct_turns(of: Given) -> Exact:
    old = of["set_turns_per_weight"]
    return _put_right("new_turns_per_weight", old, 1 / (1 / old + of["percent_off"] / old))


def _put_right(name: str, old: Fraction, new: Fraction) -> Exact:
    return {"outcome": "up" if new > old else "down", name: new}


def judge_run(of: Given) -> Exact:
    last = of["runs"][-1]
    _, told = _told(last)
    if last.weighed <= 0:
        return {"outcome": "nothing_came"}
    runs = [run for run in of["runs"] if run.weighed > 0]
    agreeing = with_last([_brought(run) for run in runs], of)
    found = mean(agreeing) / told
    near = side(found, Fraction(1), of["repeat_tolerance"])
    seen = {
        "caught_rate": of["bulk_rate"] * found,
        "percent_off": found - 1,
    }
    sides = {"light": "under", "heavy": "over"}
    if len(runs) == 1:
        return {"outcome": sides.get(near, "on_target"), **seen}
    before = runs[-2]
    # Not in its prose: a move is one by more than catches may differ, and a miss that grew lies on
    # the same side as it did before.
    moved = not agree(_told(before)[1], told, of)
    grew = (found - 1) * _off(before) > 0 and abs(found - 1) > abs(_off(before))
    first = {"first_off": _off(before)}
    if len(agreeing) > 1:
        if near == "near":
            return {"outcome": "proven", **seen}
        if moved and grew:
            return {"outcome": "went_away", **seen, **first}
        return {"outcome": sides[near], **seen}
    if moved and grew and agree(_brought_otherwise(before), _brought_otherwise(last), of):
        return {"outcome": "other_way", **seen, **first}
    if moved and agree(1 + _off(before), 1 + _off(last), of):
        return {"outcome": "not_taken", **seen}
    return {"outcome": "on_target" if near == "near" else "spread", **seen}


def _told(run: Run) -> tuple[bool, Fraction]:
    """Whether the factor is a weight, and what a move is told to bring."""
    if run.set_weight_per_turn is not None:
        return True, Fraction(run.set_weight_per_turn)
    for count in (run.set_pulses_per_weight, run.set_turns_per_weight):
        if count is not None:
            return False, 1 / Fraction(count)
    raise ValueError(run)


def _off(run: Run) -> Fraction:
    return (Fraction(run.weighed) - Fraction(run.shown)) / Fraction(run.shown)


def _brought(run: Run) -> Fraction:
    """What a move brought."""
    moves = Fraction(run.shown) / _told(run)[1]
    return Fraction(run.weighed) / moves


def _brought_otherwise(run: Run) -> Fraction:
    """What a move brought if the factor counts the other way than was thought."""
    moves = Fraction(run.shown) * _told(run)[1]
    return Fraction(run.weighed) / moves
