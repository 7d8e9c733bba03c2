"""Widths, overlaps and rows shut off once more: the seed of a field, over its ground."""

from fractions import Fraction

from tests.calc.second.exact import Exact, Given, not_over


def width_as_set(of: Given) -> Exact:
    off = (of["width_set"] - of["working_width"]) / of["working_width"]
    if not_over(abs(off), of["width_agreement"]):
        return {"outcome": "right"}
    return {"outcome": "too_wide" if off > 0 else "too_narrow", "width_off": abs(off)}


def overlap_more(of: Given) -> Exact:
    new = of["working_width"] - of["overlap"]
    if new <= 0:
        return {"outcome": "too_wide"}
    return {
        "outcome": "worked",
        "more_per_field": of["overlap"] / new,
        "twice_per_swath": of["overlap"] / of["working_width"],
        "field_rate": of["bulk_rate"] * of["working_width"] / new,
    }


def part_shut_off(of: Given) -> Exact:
    ground_of_a_row = of["counter_ground"] / of["row_count"]
    seed = ground_of_a_row * of["live_rows"] * of["bulk_rate"]
    return {
        "real_ground": ground_of_a_row * of["live_rows"],
        "counter_rate": seed / of["counter_ground"],
    }


def tramlines_each_meter(of: Given) -> Exact:
    rows = of["row_count"] * of["tram_passes"]
    dropping = rows - of["tram_rows"]
    if of["tram_rows"] >= of["row_count"]:
        return {"outcome": "no_row_left"}
    return {
        "outcome": "each_meter",
        "live_row_rate": of["bulk_rate"],
        "field_rate": of["bulk_rate"] * dropping / rows,
        "field_change": -of["tram_rows"] / rows,
        "made_up_rate": of["bulk_rate"] * rows / dropping,
    }


def tramlines_shared_meter(of: Given) -> Exact:
    dropping = of["row_count"] - of["tram_rows"]
    if dropping <= 0:
        return {"outcome": "no_row_left"}
    return {"outcome": "shared_meter", **_shared(of, dropping)}


def shut_on_shared_meter(of: Given) -> Exact:
    return _shared(of, of["dropping_rows"])


def rows_shut(of: Given) -> Exact:
    dropping = of["row_count"] - of["shut_rows"]
    if dropping <= 0:
        return {"outcome": "no_row_left"}
    return {
        "outcome": "worked",
        "dropping_rows": dropping,
        "dropping_spacing": of["row_count"] * of["row_spacing"] / dropping,
        "field_change": -of["shut_rows"] / of["row_count"],
    }


def _shared(of: Given, dropping: Fraction) -> Exact:
    seed = of["bulk_rate"] * of["row_count"]
    return {
        "live_row_rate": seed / dropping,
        "field_rate": of["bulk_rate"],
        "live_row_change": (of["row_count"] - dropping) / dropping,
    }
