"""What somebody beside the practice drill would see, read off or measure, by fact."""

from __future__ import annotations

from fractions import Fraction
from math import pi

from assistant.practice.drill import Yard
from assistant.practice.population import RULER, TOP_MARK, WIDEST
from assistant.quantities.show import show, show_settled

PLAIN = {
    "drill": "practice drill",
    "feed": "fluted",
    "row_count": "24",
    "drive_halves": "1",
    "crop": "wheat",
    "lot": "P7",
    "treated": "no",
    "germination": "92 %",
    "purity": "98 %",
    "wheel_method": "2",
    "lever_top": f"{TOP_MARK}",
    "lever_opens": "1",
    "rolled_turns": "10",
}
BY_SYSTEM = {
    "us": {"seeds_per_weight": "12,500 per lb", "test_weight": "60 lb/bu", "tare": "1.20 lb"},
    "metric": {"seeds_per_weight": "27,600 per kg", "test_weight": "77 kg/hL", "tare": "545 g"},
}


LONG = 12 * 12 * 8
"""The eighths of an inch from which a tape is read in feet and whole inches."""


SET_SO = 1e-6
"""By so much of a line at most an opening that was set midway between two differs from that."""


def sights(yard: Yard, system: str, rows: int) -> dict[str, str]:
    """Each fact as it would be typed, to what the tape, the ruler and the scale can tell.

    `rows` is how many are caught.
    """
    tools, around = yard.tools, yard.truth.distance
    lengths = {
        "distance_per_turn": around,
        "rolled_distance": 10 * around,
        "axle_height": around / (2 * pi),
    }
    return {
        **PLAIN,
        **BY_SYSTEM[system],
        **{name: taped(yard, length) for name, length in lengths.items()},
        "row_spacing": tools.spacing,
        "target": tools.target,
        "scale_step": tools.step,
        "widest_opening": opening(WIDEST),
        "start_opening": opening(yard.chart),
        "rows_mended": "mended" if yard.hides(rows) else "leave",
        "final_lever_mark": f"{yard.mark:.1f}",
    }


def opening(length: float) -> str:
    """An opening (m) as a ruler at the cup shows it, or midway between two lines if set so."""
    midway = abs(length / RULER % 1 - 1 / 2) < SET_SO
    return show("length", length, unit="mm", step=f"{RULER * 500}" if midway else f"{RULER * 1000}")


def taped(yard: Yard, length: float) -> str:
    """A length (m) as the tape shows it."""
    if yard.tools.tape == "cm":
        return show("length", length, unit="cm", step="0.1")
    eighths = round(length / yard.tools.tape_m)
    if eighths >= LONG:
        return show_settled("length", f"{round(eighths / 8)} in")
    inches, part = divmod(Fraction(eighths, 8), 1)
    return f"{inches} {part} in" if part else f"{inches} in"


def weighed(yard: Yard, seed: float, tare: float) -> str:
    """What the scale shows of seed (kg), on an empty tub (kg) that is not zeroed away."""
    step, _, unit = yard.tools.step.rpartition(" ")
    return show("mass", seed + tare, unit=unit, step=step)
