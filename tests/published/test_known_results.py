"""Results that every method must come to, told to the program as a person would tell them.

Worked out by hand from seed caught over ground; common practice, no source, but for what a line
names. What stories tell is not told again here: strip, weigh-out, the meters of air drills, mixes.
"""

from __future__ import annotations

from functools import cache

import pytest

from assistant.quantities.units import factor
from tests.calc.test_strip_and_crank import GRAMS, POUNDS
from tests.script.running import BASE, Facts, Ran, run

ALONG: Facts = {**BASE, "distance_per_turn": "10 ft", "turns": 10, "rows_caught": 1}
"""One row over 100 ft."""


@cache
def along(inches: str, pounds: int) -> Ran:
    spacing = f"{inches} in"
    return run({**ALONG, "row_spacing": spacing, "target": f"{pounds} lb/ac", "scale_step": "1 g"})


@pytest.mark.parametrize("inches", GRAMS)
def test_grams_of_a_row_in_100_feet(inches: str) -> None:
    for pounds, grams in zip(POUNDS, GRAMS[inches], strict=True):
        found = along(inches, pounds).value("target_catch_per_row") * 1000
        assert found == pytest.approx(grams, abs=0.05 + 1e-9), pounds


def test_one_gram_is_a_third_of_clover_from_a_row_and_little_of_wheat() -> None:
    """5 lb/ac brings 3.3 g, and 100 lb/ac 65 g."""
    assert along("7.5", 5).value("scale_marks") == pytest.approx(3.25, abs=0.05)
    assert along("7.5", 100).value("scale_marks") == pytest.approx(65.1, abs=0.05)


TWICE = [{"catch_weight": "0.62 lb"}, {"catch_weight": "0.62 lb"}]
ROLLED: Facts = {"wheel_method": "rolled", "rolled_turns": 10, "rolled_distance": "66 ft 3 in"}


def test_a_catch_by_a_rolled_wheel_and_by_a_taped_one() -> None:
    """6 rows x 7.5 in x 30 turns x 79.5 in; the tape says 81.5 in and sees no squat: 2.5 % low."""
    told = {name: text for name, text in BASE.items() if name != "distance_per_turn"}
    rolled = run({**told, **ROLLED, "target": "36 lb/ac", "trials": TWICE}).value("caught_rate")
    taped = run({**BASE, "target": "36 lb/ac", "trials": TWICE}).value("caught_rate")
    assert rolled / float(factor("lb/ac")) == pytest.approx(36.24, abs=0.005)
    assert rolled / float(factor("kg/ha")) == pytest.approx(40.6, abs=0.05)
    assert taped / float(factor("lb/ac")) == pytest.approx(35.3, abs=0.05)
    assert taped / rolled == pytest.approx(0.975, abs=0.0005)


def test_a_crank_of_three_quarters_of_a_metre_on_a_drill_of_four_metres() -> None:
    """200 m2 are 50 m, or 66.7 turns of 0.75 m; 2.88 kg of all rows on it are 144 kg/ha."""
    cranked: Facts = {
        "method": "crank",
        "row_count": 32,
        "row_spacing": "12.5 cm",
        "crank_known_by": "rolled",
        "rolled_turns": 10,
        "rolled_distance": "7.5 m",
        "rows_caught": 32,
        "turns": "66.66666667",
        "target": "144 kg/ha",
        "scale_step": "1 g",
        "trials": [{"catch_weight": "2.88 kg"}, {"catch_weight": "2.88 kg"}],
    }
    ran = run({**BASE, **cranked})
    assert ran.value("distance_per_turn") == pytest.approx(0.75, rel=1e-9)
    assert ran.value("ground_covered") == pytest.approx(200, rel=1e-6)
    assert ran.value("caught_rate") / float(factor("kg/ha")) == pytest.approx(144, rel=1e-6)


@pytest.mark.parametrize(("rows", "left_open"), [(4, 5.01), (6, 3.88), (12, 2.24)])
def test_rows_not_caught_leave_so_much_open(rows: int, left_open: float) -> None:
    """Rows that differ by 5.6 %: 1.96 x 5.6 % x root((1 - n / 24) / n) (Cochran, from memory)."""
    weight = f"{1.40324 * rows / 6:.4f} lb"
    trials = [{"catch_weight": weight}, {"catch_weight": weight}]
    ran = run({**BASE, "rows_caught": rows, "scale_step": "0.0001 lb", "trials": trials})
    assert ran.value("usually_left_open") * 100 == pytest.approx(left_open, abs=0.005)


@pytest.mark.parametrize(("pounds", "seeds"), [(15, 76), (18, 91)])
def test_alfalfa_seeds_on_a_tarp(pounds: int, seeds: int) -> None:
    """A forage column prints 15 to 18 lb/ac as 75 to 90 seeds a square foot: about, at 220,000."""
    ran = run({**BASE, "target": f"{pounds} lb/ac", "seeds_per_weight": "220000 seeds/lb"})
    assert round(ran.value("seeds_per_area") * 0.3048**2) == seeds
