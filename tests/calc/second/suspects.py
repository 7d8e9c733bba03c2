"""Ratio suspects once more: each slip undone, and what was got over what was wanted then."""

from collections.abc import Iterator
from fractions import Fraction
from math import log, pi, sqrt

from tests.calc.second.exact import DUST, Exact, Given, exact, not_over, same
from tests.calc.second.rows import normal

POUND, FOOT = Fraction("0.45359237"), Fraction("0.3048")
ACRES_OF_A_HECTARE = 10_000 / (43_560 * FOOT**2)
TIMES: dict[str, Fraction | float] = {
    "half_the_drill": 2,
    "radius_for_diameter": 2,
    "turns_counted_twice": 2,
    "quarter_caught": 4,
    "pounds_kilograms": 1 / POUND,
    "acres_hectares": ACRES_OF_A_HECTARE,
    "diameter_as_distance": pi,
    "radius_as_distance": 2 * pi,
    "feet_metres": 1 / FOOT,
    "decimal_point": 10,
    "square_feet_metres": 1 / FOOT**2,
    "inches_feet": 12,
    "ounces_pounds": 16,
    "grams_ounces": 1000 * POUND / 16,
    "rate_units": ACRES_OF_A_HECTARE * POUND,
}
"""How much too large one comes out, or too small, by each slip that is the same for everyone."""


def ratio_suspects(of: Given) -> Exact:
    found = log(of["found_ratio"])
    scatter = normal(of["sure"]) * float(of["catch_scatter"]) / sqrt(of["catches_made"])
    near = max(log(1 + of["suspects_within"]), scatter)
    fits = []
    for name, ratios in _slips(of).items():
        logs = [log(each) for each in ratios if each > 0 and each != 1]
        if logs:
            fits.append(min((abs(each - found), each, name) for each in logs))
    fits = [each for each in fits if not_over(exact(each[0]), exact(near))]
    if not fits:
        return {"outcome": "no_suspect"}
    fits.sort(key=lambda each: each[0])
    alike, first = exact(max(scatter, fits[0][0])), fits[0][1]
    tied = [
        name
        for away, each, name in fits
        if not_over(exact(away), alike) or not_over(exact(abs(each - first)), exact(scatter))
    ]
    return {
        "outcome": "one_suspect" if len(tied) == 1 else "tied",
        "suspects_shown": tuple(tied),
        "suspects_listed": len(tied),
        "suspects_left": tuple(name for *_, name in fits if name not in tied),
    }


def _slips(of: Given) -> dict[str, list[Fraction | float]]:
    """What was got over what was wanted, by each slip, if all else was right."""
    row, tub = of["row_share"], of["tub_share"]
    either = TIMES | {
        "rows_for_rows": of["rows_ratio"],
        "germination_twice": of["germination_told"],
        "live_share_twice": of["live_share_told"],
        "other_bushel": of["bushel_ratio"],
    }
    left_in = [1 / (1 - tub)] if tub < 1 else []
    return {
        **{name: [times, 1 / times] for name, times in either.items()},
        "one_row_off": [1 + row, 1 - row],
        "tub": [*left_in, 1 / (1 + tub)],
        "ounces_as_decimal": list(_ounces(of["told_pounds"])),
    }


def _ounces(told: Fraction) -> Iterator[Fraction]:
    """Ounces typed behind a point, or a decimal typed as ounces: told over true.

    Under a pound a scale shows ounces alone, and there is no slip.
    """
    whole = (told + DUST) // 1
    for places in (10, 100) if whole else ():
        ounces = (told - whole) * places
        if _whole_ounces(ounces):
            yield told / (whole + round(ounces) / Fraction(16))
        ounces = (told - whole) * 16
        if _whole_ounces(ounces) and round(ounces) < places:
            yield told / (whole + round(ounces) / Fraction(places))


def _whole_ounces(ounces: Fraction) -> bool:
    return 0 < round(ounces) < 16 and same(ounces, Fraction(round(ounces)))
