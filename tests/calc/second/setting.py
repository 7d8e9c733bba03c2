"""What is set once more."""

from tests.calc.second.exact import Exact, Given

SET_BY = {"fluted": "by_opening", "small_seed": "by_opening", "double_run": "by_teeth"}


def what_is_set(of: Given) -> Exact:
    return {"outcome": SET_BY.get(of["feed"], "by_mark")}


def final_setting(of: Given) -> Exact:
    last = of["trials"][-1]
    if last.opening is not None:
        return {"outcome": "by_opening", "final_opening": last.opening}
    if last.teeth is not None:
        return {"outcome": "by_teeth", "final_teeth": last.teeth}
    if last.lever_mark is None or last.drive_range is None:
        raise ValueError(last)
    return {
        "outcome": "by_mark",
        "final_lever_mark": last.lever_mark,
        "final_range": last.drive_range,
    }


def mark_by_opening(of: Given) -> Exact:
    opening = of["trials"][-1].opening
    if opening is None:
        raise ValueError(of)
    open_by = opening / of["widest_opening"]
    share = open_by if of["lever_opens"] == "higher" else 1 - open_by
    return {"expected_mark": share * of["lever_top"]}
