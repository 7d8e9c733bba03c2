"""A setting without a catch at it, once more."""

from fractions import Fraction

from tests.calc.second.aiming import bracket, rising, tried_at
from tests.calc.second.catches import seed_of, side
from tests.calc.second.exact import Exact, Given, not_over
from tests.calc.second.lever import next_lever_mark, way_shown
from tests.calc.second.openings import next_opening
from tests.calc.second.turned import aim_opening, judge_opening


def mark_ahead(of: Given) -> Exact:
    # Where the last catch brought nothing, those before it do not count either.
    if not of["trials"] or seed_of(of["trials"][-1], of) <= 0:
        return {"outcome": "no_catch"}
    tried = tried_at(of, "lever_mark")
    way = way_shown(of, tried)
    there = next_lever_mark({**of, "lever_opens": way})
    match there["outcome"]:
        case "too_wide" | "too_narrow":
            return {"outcome": "off_scale"}
        case "probe":
            return {"outcome": "one_mark"}
    # What stands as the last catch is the mean of those that agree with it, as in a judgement.
    mark, last = there["next_lever_mark"], tried[-1].brought
    found = {
        "outcome": there["outcome"],
        "final_lever_mark": mark,
        "final_range": of["trials"][-1].drive_range,
        "caught_rate": last / of["ground_covered"],
        "percent_off": last / of["target_catch"] - 1,
    }
    if there["outcome"] == "as_near":
        return found
    around = bracket(rising(tried, upward=way == "higher"), of["target_catch"])
    assert around, "between two catches"
    light, heavy = around
    up = (heavy.brought - light.brought) / (heavy.at - light.at)
    foreseen = light.brought + up * (Fraction(mark) - light.at)
    return {
        **found,
        "outcome": "set",
        "expected_rate": foreseen / of["ground_covered"],
        "caught_mark": of["trials"][-1].lever_mark,
    }


def opening_ahead(of: Given) -> Exact:
    if not of["trials"] or seed_of(of["trials"][-1], of) <= 0:
        return {"outcome": "no_catch"}
    there = next_opening(of)
    if there["outcome"] == "set_again":
        return {"outcome": "against"}
    present = tried_at(of, "opening")[-1]
    found = {
        "caught_rate": present.brought / of["ground_covered"],
        "percent_off": present.brought / of["target_catch"] - 1,
    }
    if side(present.brought, of["target_catch"], of["tolerance"]) == "near":
        return {"outcome": "near_enough", "final_opening": present.at, **found}
    if there["outcome"] in {"too_wide", "too_narrow"}:
        return {"outcome": "off_scale"}
    found["final_opening"] = there["next_opening"]
    if there["outcome"] == "as_near":
        return {"outcome": "as_near", **found}
    wider = there["next_opening"] / present.at
    return {
        "outcome": "set",
        **found,
        "expected_rate": found["caught_rate"] * wider,
        "caught_opening": present.at,
    }


def opening_ahead_by_all(of: Given) -> Exact:
    if not of["trials"] or seed_of(of["trials"][-1], of) <= 0:
        return {"outcome": "no_catch"}
    last = judge_opening(of)
    if last["outcome"] in {"put_aside", "runs_empty"}:
        return {"outcome": "odd"}
    present = of["trials"][-1].opening
    found = {each: last[each] for each in ("caught_rate", "percent_off")}
    here = {"final_opening": present, **found}
    if not_over(abs(found["percent_off"]), of["tolerance"]):
        return {"outcome": "near_enough", **here}
    aim = aim_opening(of)
    if aim["outcome"] in {"too_wide", "too_narrow"}:
        return {"outcome": "off_scale"}
    if aim["outcome"] in {"as_near", "set_again"}:
        return {"outcome": "as_near", **here}
    there = {"final_opening": aim["next_opening"], "expected_rate": aim["foreseen_rate"]}
    return {"outcome": "set", **here, **there, "caught_opening": present}
