"""The questions of our own drill that the tests answer. Ranges are common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from assistant.answers.expect import Choice, Expect
from assistant.quantities.settled import exact


def span(kind: str, least: str, most: str) -> tuple[Fraction, Fraction]:
    """Both ends of a range in SI."""
    return exact(kind, least), exact(kind, most)


def possible(expect: Expect, least: str, most: str) -> Expect:
    low, high = span(expect.kind, least, most)
    return replace(expect, least=low, most=high)


def usual(expect: Expect, least: str, most: str) -> Expect:
    low, high = span(expect.kind, least, most)
    return replace(expect, usual_least=low, usual_most=high)


ONE_TURN = usual(
    possible(
        Expect("distance_per_turn", "distance_per_turn", bare=("in", "ft"), names=("one turn",)),
        "1 in",
        "30 ft",
    ),
    "4 ft",
    "14 ft",
)
ONE_TURN_ANY = Expect("distance_per_turn", "distance_per_turn", bare=("in", "cm"))
WALK = Expect("walk", "length", bare=("ft", "m"))
STRIP = Expect("rolled_distance", "length", bare=("ft",), names=("distance",))
OPENING = Expect("opening", "length", bare=("in",), names=("opening",))
OPENING_MM = Expect("opening", "length", bare=("mm",), names=("opening",))
WIDTH = Expect("width", "length", bare=("ft",), names=("width", "drill"))
SPACING = usual(
    possible(
        Expect("row_spacing", "row_spacing", bare=("in",), names=("spacing", "apart")),
        "1 in",
        "120 in",
    ),
    "4 in",
    "15 in",
)
SPACING_EITHER = Expect("row_spacing", "row_spacing", bare=("in", "cm"))
SPACING_CM = Expect("row_spacing", "row_spacing", bare=("cm",))
ROWS = Expect("row_count", "rows", names=("rows", "row"))
CAUGHT = Expect("rows_caught", "rows", names=("caught", "rows caught"))
CATCH = Expect("catch_weight", "mass", bare=("lb",), names=("catch",))
CATCH_USUAL = usual(CATCH, "0.1 lb", "5 lb")
CATCH_G = Expect("catch_weight", "mass", bare=("g",))
CATCH_KG = Expect("catch_weight", "mass", bare=("kg",))
CATCH_NO_UNIT = Expect("catch_weight", "mass")
BAG = Expect("bag", "mass", bare=("lb",))
BAG_KG = Expect("bag", "mass", bare=("kg",))
ROW_WEIGHTS = Expect("row_weights", "mass", bare=("g",), many=True)
RATE = Expect("target_weight", "rate", bare=("lb/ac",))
PER_ACRE = Expect("target_seeds", "seeds_per_area", bare=("seed/ac",))
SEEDS_PER_LB = Expect("seeds_per_weight", "seeds_per_weight", bare=("seed/lb",))
EACH_SEEDS = Expect("species_seeds", "seeds_per_weight", bare=("seed/lb",), many=True)
WHEAT = usual(SEEDS_PER_LB, "8000 seed/lb", "24000 seed/lb")
ALFALFA = usual(SEEDS_PER_LB, "180000 seed/lb", "240000 seed/lb")
GERM = usual(
    possible(Expect("germination", "share", names=("germ",)), "0 %", "100 %"), "50 %", "100 %"
)
HARD = Expect("hard_seed", "share", names=("hard", "dura"))
PURITY = Expect("purity", "share", names=("purity",))
EMERGENCE = Expect("emergence", "emergence")
OFF_TARGET = possible(Expect("off_target", "share"), "-100 %", "100 %")
FIELD = Expect("field", "area", bare=("ac",))
GROUND = Expect("ground", "area", bare=("ha",))
TURNS = Expect("turns", "turns", names=("turns",))
ROLLED = Expect("rolled_turns", "turns", names=("turns",))
PER_TURN = Expect("weight_per_turn", "mass_per_turn", bare=("lb",))
PULSES = Expect("pulses_per_turn", "pulses_per_turn", bare=("pulse",))
FACTOR = Expect("pulses_per_weight", "pulses_per_mass", bare=("pulse/lb",))
TURN_FACTOR = Expect("turns_per_weight", "turns_per_mass", bare=("turn/lb",))
SPEED = Expect("working_speed", "speed", bare=("mi/h",))
TIMED = Expect("timed", "time", bare=("s",))
SHAFT = Expect("shaft_slowest", "turn_rate", bare=("turn/min",))
PLATE = Expect("turns_per_area", "turns_per_area", bare=("turn/ac",))
MARK = Expect("lever_mark", "mark", names=("mark", "lever"))
LOT = Expect("lot", "text", names=("lot",))
CROP = Expect("crop", "text", choices=(Choice("wheat", ("winter wheat",)), Choice("rye")))
FEED = Expect("feed", "choice", choices=(Choice("fluted", ("roller",)), Choice("double_run")))
TREATED = Expect(
    "treated",
    "choice",
    names=("treated",),
    choices=(Choice("yes", ("treated",)), Choice("no", ("untreated",)), Choice("not_sure")),
)
TEST_WEIGHT = Expect("test_weight", "bulk_density", bare=("lb/bu",))
COUNTED = Expect("seeds_counted", "seeds", many=True)
COUNTED_WEIGHT = Expect("counted_weight", "mass", bare=("g",), many=True)

TARGET = Expect(
    "target",
    "one_of",
    names=("target", "rate"),
    by_unit=True,
    variants=(
        RATE,
        PER_ACRE,
        Expect("target_plants", "plants_per_area"),
        Expect("target_live_weight", "live_rate", bare=("lb/ac",)),
        Expect("target_live_seeds", "live_seeds_per_area"),
        Expect("target_bushels", "bushel_rate"),
        Expect("target_row_seeds", "seeds_per_row_length"),
        Expect("target_row_plants", "plants_per_row_length"),
    ),
)
SCALE = Expect(
    "catch",
    "one_of",
    variants=(
        CATCH,
        Expect("gross_weight", "mass", bare=("lb",)),
        Expect("row_weights", "mass", bare=("lb",), many=True),
    ),
)

EVERY_KIND = (
    *(ONE_TURN, STRIP, OPENING_MM, SPACING, ROWS, CATCH, ROW_WEIGHTS, RATE, PER_ACRE, WHEAT, GERM),
    *(EMERGENCE, OFF_TARGET, FIELD, TURNS, MARK, LOT, CROP, FEED, TREATED, TEST_WEIGHT, COUNTED),
    *(PER_TURN, PULSES, FACTOR, TURN_FACTOR, SPEED, TIMED, SHAFT, PLATE),
    *(TARGET, SCALE, Expect("ratio", "ratio"), Expect("count", "count")),
)
