"""Ratios that a slip leaves between what was got and what was wanted: plain numbers.

Source of the units: NIST Handbook 44, appendix C, from memory. That these slips are the common
ones: common practice, no source.
"""

from collections.abc import Mapping
from math import pi

POUND = 0.45359237  # kg
FOOT = 0.3048  # m
ACRE = 43_560 * FOOT**2  # m2
HECTARE = 10_000.0  # m2
OUNCES = 16  # in a pound
DECIMALS = (10, 100)  # "1.3" or "1.03" for 1 lb 3 oz

FIXED: Mapping[str, float] = {
    "half_the_drill": 2.0,
    "radius_for_diameter": 2.0,
    "turns_counted_twice": 2.0,
    "quarter_caught": 4.0,
    "pounds_kilograms": 1 / POUND,
    "acres_hectares": HECTARE / ACRE,
    "diameter_as_distance": pi,
    "radius_as_distance": 2 * pi,
    "feet_metres": 1 / FOOT,
    "decimal_point": 10.0,
    "square_feet_metres": 1 / FOOT**2,
    "inches_feet": 12.0,
    "ounces_pounds": float(OUNCES),
    "grams_ounces": 1000 * POUND / OUNCES,
    "rate_units": POUND * HECTARE / ACRE,
}
"""Each may stand either way up: as it is, or as its inverse."""
