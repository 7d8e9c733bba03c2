"""Published figures of other methods: a driven strip, a bag and its acres, seeds on a tarp.

The calculations alone, and the same through the program as another program asks for them. The bag
and its acres through the program is the story `field_one_bag`.

Each beside its publisher and title; read in the openings of these pages, not in the whole of them.
"""

import pytest

from assistant.calc import plan, strip, target, weigh_out
from tests.calc.us import AC, FT, IN, LB, LB_AC, PER_FT2, PER_LB, us
from tests.script.running import BASE, run

COURSE = pytest.mark.parametrize(
    ("inches", "grams"), [("6", 0.78), ("7", 0.91), ("7.5", 0.98), ("8", 1.04)]
)
TARP = pytest.mark.parametrize(("pounds", "seeds"), [(15, 76), (18, 91)])


@COURSE
def test_grams_per_row_on_a_course_of_150_feet(inches: str, grams: float) -> None:
    """No-Till Farmer, multipliers credited to University of Kentucky: grams per lb/ac and row."""
    ground = strip.strip_ground(
        rows_caught=1.0, row_spacing=us(inches, IN), strip_distance=us(150, FT)
    ).ground_covered
    catch = plan.expected_catch(bulk_rate=us(1, LB_AC), ground_covered=ground, rows_caught=1.0)
    assert catch.target_catch_per_row * 1000 == pytest.approx(grams, abs=0.005)


@COURSE
def test_the_program_gives_them_too(inches: str, grams: float) -> None:
    """At 20 lb/ac, as 1 lb/ac is no rate of grain; 15 turns of 10 ft are the course."""
    course = {"distance_per_turn": "10 ft", "turns": 15, "rows_caught": 1}
    ran = run(
        {**BASE, **course, "target": "20 lb/ac", "row_spacing": f"{inches} in", "scale_step": "1 g"}
    )
    assert ran.value("target_catch_per_row") * 1000 / 20 == pytest.approx(grams, abs=0.005)


@pytest.mark.parametrize(("rows", "left_open"), [(4, 0.0716), (6, 0.0554)])
def test_the_program_tells_what_rows_not_caught_leave_open(rows: int, left_open: float) -> None:
    """Of 24 rows with CV 8 %: 1.96 x 8 % x root((1 - n/24) / n), worked by hand (no source)."""
    ran = run({**BASE, "rows_caught": rows, "usual_row_cv": "8 %", "trials": caught(rows)})
    assert ran.code == 0, ran.data["refused"]
    assert ran.value("usually_left_open") == pytest.approx(left_open, abs=5e-5)


def caught(rows: int) -> list[dict[str, str]]:
    """Two catches on target: 80 lb/ac wants 1.4032 lb from six rows."""
    return [{"catch_weight": f"{1.4032 * rows / 6:.2f} lb"}] * 2


@pytest.mark.parametrize(
    ("told", "really", "change"),
    [
        ({"distance_per_turn": "8 ft"}, {"distance_per_turn": "96.125 in"}, 0.0013),
        ({"turns": 30}, {"turns": 29}, -0.0333),
        ({"row_spacing": "7.5 in"}, {"row_spacing": "7 in"}, -0.0667),
    ],
)
def test_what_a_slip_of_the_tape_a_turn_or_a_spacing_does(
    told: dict[str, str | int], really: dict[str, str | int], change: float
) -> None:
    """An eighth of an inch on 8 ft, one turn of 30, 7 in for 7.5. Common practice, no source."""
    wanted, true = (run({**BASE, **each}).value("target_catch") for each in (told, really))
    assert true / wanted - 1 == pytest.approx(change, abs=5e-5)


@pytest.mark.parametrize(("width", "feet"), [(15, 145.2), (10, 217.8)])
def test_a_twentieth_of_an_acre_is_2178_square_feet(width: int, feet: float) -> None:
    """Southeast Farm Press, cover crop mixtures need a calibrated drill: 1/20 ac = 2,178 sq ft."""
    found = strip.strip_ground(
        rows_caught=float(2 * width), row_spacing=us("6", IN), strip_distance=us(str(feet), FT)
    )
    assert found.ground_covered == pytest.approx(us(2178, FT * FT), rel=1e-12)


def test_a_bag_and_its_acres() -> None:
    """University of Wisconsin Extension in Hay & Forage: a 50-lb bag at 15 lb/ac, about 3.3 ac."""
    found = weigh_out.weigh_out(seed_in=us(50, LB), seed_left=0.0, field_ground=us("3.33", AC))
    assert isinstance(found, weigh_out.WeighOut.Worked)
    assert found.weigh_out_rate == pytest.approx(us(15, LB_AC), abs=us("0.02", LB_AC))


@TARP
def test_alfalfa_seeds_on_a_tarp_through_the_program(pounds: int, seeds: int) -> None:
    """The same column, as a target told in pounds: seeds a square foot to be dropped."""
    seed = {"crop": "alfalfa", "seeds_per_weight": "220,000 seeds/lb"}
    ran = run({**BASE, **seed, "target": f"{pounds} lb/ac"})
    assert round(ran.value("seeds_per_area") / float(PER_FT2)) == seeds


@TARP
def test_alfalfa_seeds_on_a_tarp(pounds: int, seeds: int) -> None:
    """A forage column prints 15 to 18 lb/ac as 75 to 90 seeds a square foot: about, at 220,000."""
    size = us(220_000, PER_LB)
    wanted = target.seeds_from_rate(bulk_rate=us(pounds, LB_AC), seeds_per_weight=size)
    on_the_tarp = wanted.seeds_per_area / float(PER_FT2)
    assert round(on_the_tarp) == seeds
    counted = target.rate_from_seeds(seeds_per_area=wanted.seeds_per_area, seeds_per_weight=size)
    assert counted.bulk_rate == pytest.approx(us(pounds, LB_AC), rel=1e-12)
