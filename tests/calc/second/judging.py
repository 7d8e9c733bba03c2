"""The judgement of a catch once more."""

from fractions import Fraction

from tests.calc.second.catches import agree, mean, seed_of, side, this_stay, with_last
from tests.calc.second.exact import Exact, Given


def judge(of: Given) -> Exact:
    last = seed_of(of["trials"][-1], of)
    if last <= 0:
        return _told(of, "nothing_caught", last)
    stay = this_stay(of)
    sides = {_side(of, each) for each in stay}
    if len(stay) == 1:
        around = {_side(of, last + steps * of["catch_step"]) for steps in (-1, 0, 1)}
        outcome = around.pop() if len(around) == 1 else "not_sure"
        return _told(of, "on_target" if outcome == "near" else outcome, last)
    agreeing = with_last(stay, of)
    if len(agreeing) > 1:
        outcome = _side(of, mean(agreeing))
        return _told(of, "proven" if outcome == "near" else outcome, mean(agreeing))
    one_side = len(sides) == 1 and sides != {"near"}
    return _told(of, sides.pop() if one_side else "spread", last)


def catches_apart(of: Given) -> Exact:
    of["trials"][-1]
    stay = this_stay(of)
    odd = tuple(each for each in stay if not agree(each, stay[-1], of))
    if not odd:
        return {"outcome": "all_agree"}
    if len(odd) == 1:
        return {"outcome": "one_odd", "odd_catch": odd[0]}
    return {"outcome": "some_odd", "odd_catches": odd}


def early_card(of: Given) -> Exact:
    if not of["trials"]:
        return {"outcome": "no_catch"}
    last = seed_of(of["trials"][-1], of)
    caught = mean(with_last(this_stay(of), of)) if last > 0 else last
    near = _side(of, caught) == "near"
    return _told(of, "one_catch" if near else "off_target", caught)


def _side(of: Given, seed: Fraction) -> str:
    return side(seed, of["target_catch"], of["tolerance"])


def _told(of: Given, outcome: str, seed: Fraction) -> Exact:
    return {
        "outcome": outcome,
        "caught_rate": seed / of["ground_covered"],
        "percent_off": (seed - of["target_catch"]) / of["target_catch"],
    }
