"""Which reading matters most: against differences worked from the formulas themselves.

On random jobs each reading is moved both ways by what its tool is said to miss, in exact fractions
and by formulas that are written once more below. What doubt says must be as wide and rank so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from math import hypot, pi
from random import Random
from typing import Any

import pytest

from assistant.dialogue.doubt import doubts, how_sure
from assistant.dialogue.job import State
from tests.calc.us import FT, IN, LB, LB_AC, PER_FT2, PER_LB
from tests.script.running import BASE, CUP, calibrate, run
from tests.stories.play import play
from tests.stories.story import FOLDER, read_story

CASES, IN_SUITE = 200, 60
GRAM = Fraction(1, 1000)
CATCH_SCATTERS, COVERS = Fraction(2, 100), Fraction(196, 100)
"""A standard deviation of a catch, as a share of what is wanted; so many hold 95 in 100."""
REPEATS_WITHIN = Fraction(25, 1000)
"""Half of near enough, 5 in 100: so near to the last lies a catch that counts with it."""
SET = {"fluted": {"opening": "14 mm"}, "cup": {"lever_mark": "5", "drive_range": "low"}}
DUST = 1e-9
"""What rounding alone may move a result by, as a share of it: no reading did."""

Numbers = Mapping[tuple[str, int], Fraction]
"""Readings in SI by fact and place in a row; a reading that stands alone has place 0."""


@dataclass
class Case:
    """A job as a facts file tells it, and what was read in it."""

    facts: dict[str, Any]
    read: dict[tuple[str, int], Fraction] = field(default_factory=dict)
    misses: dict[str, Fraction] = field(default_factory=dict)
    told: dict[str, Fraction] = field(default_factory=dict)

    def reads(self, fact: str, number: Fraction, unit: Fraction, misses: Fraction) -> None:
        """A reading that stands alone."""
        self.read[fact, 0], self.misses[fact] = number * unit, misses


def an_eighth(chance: Random, least: int, most: int) -> Fraction:
    """A length that a tape shows, in inches."""
    return Fraction(chance.randint(least * 8, most * 8), 8)


def drawn(chance: Random) -> Case:
    """A random job, up to its first catch or its second."""
    case = Case(dict(chance.choice((BASE, CUP))))
    spacing, rows, turns = an_eighth(chance, 5, 14), chance.randint(3, 10), chance.randint(20, 90)
    case.told = {"rows": Fraction(rows), "turns": Fraction(turns)}
    case.facts |= {"row_spacing": f"{float(spacing)} in", "rows_caught": rows, "turns": turns}
    case.reads("row_spacing", spacing, IN, IN / 8)
    chance.choice((taped, rolled, by_axle))(case, chance)
    chance.choice((by_weight, by_seeds, by_plants, by_counted_plants, by_row))(case, chance)
    weighed(case, chance)
    return case


def taped(case: Case, chance: Random) -> None:
    length = an_eighth(chance, 60, 120)
    case.facts["distance_per_turn"] = f"{float(length)} in"
    case.reads("distance_per_turn", length, IN, IN / 8)


def rolled(case: Case, chance: Random) -> None:
    turns = chance.randint(4, 20)
    feet = turns * chance.randint(5, 13) + chance.randint(-2, 2)
    del case.facts["distance_per_turn"]
    case.facts |= {"wheel_method": "rolled", "rolled_turns": turns, "rolled_distance": f"{feet} ft"}
    case.reads("rolled_distance", Fraction(feet), FT, IN)
    case.told["rolled_turns"] = Fraction(turns)


def by_axle(case: Case, chance: Random) -> None:
    height = an_eighth(chance, 9, 20)
    del case.facts["distance_per_turn"]
    case.facts |= {"wheel_method": "axle", "axle_height": f"{float(height)} in"}
    case.reads("axle_height", height, IN, IN / 8)


def by_weight(case: Case, chance: Random) -> None:
    rate = chance.randint(20, 160)
    case.facts["target"] = f"{rate} lb/ac"
    case.told["rate"] = rate * LB_AC


def by_seeds(case: Case, chance: Random) -> None:
    seeds = chance.randint(10, 40)
    case.facts["target"] = f"{seeds} seeds per sq ft"
    case.told["seeds"] = seeds * PER_FT2
    size_told(case, chance)


def size_told(case: Case, chance: Random) -> None:
    size = chance.randint(90, 180) * 100
    case.facts["seeds_per_weight"] = f"{size} seeds/lb"
    case.told["size"] = size * PER_LB


def by_plants(case: Case, chance: Random) -> None:
    size_told(case, chance)
    plants_told(case, chance)


def plants_told(case: Case, chance: Random) -> None:
    plants, sprout, rise = (chance.randint(*ends) for ends in ((10, 32), (70, 98), (60, 95)))
    case.facts |= {"target": f"{plants} plants per sq ft", "germination": f"{sprout} %"}
    case.facts["emergence"] = f"{rise} %"
    case.told |= {"plants": plants * PER_FT2, "rise": Fraction(rise, 100)}
    case.reads("germination", Fraction(sprout, 100), Fraction(1), Fraction(2, 100))


def by_counted_plants(case: Case, chance: Random) -> None:
    tenths = [chance.randint(30, 45) for _ in range(3)]
    plants_told(case, chance)
    case.facts["seeds_counted"] = "100 100 100"
    case.facts["counted_weight"] = " ".join(f"{each / 10} g" for each in tenths)
    # three lots on one scale, 0.1 g each: they are one answer, and miss together
    case.reads("counted_weight", Fraction(sum(tenths), 10), GRAM, 3 * GRAM / 10)


def by_row(case: Case, chance: Random) -> None:
    """Told along the row: the spacing leaves the catch."""
    seeds = chance.randint(8, 30)
    case.facts["target"] = f"{seeds} seeds per foot of row"
    case.told["row_seeds"] = seeds / FT
    size_told(case, chance)


def weighed(case: Case, chance: Random) -> None:
    """The catches, near what is wanted or not, with the tub or without."""
    shown, step = chance.choice((("0.01 lb", LB / 100), ("0.02 lb", LB / 50), ("5 g", 5 * GRAM)))
    tub, name = chance.choice(((0, "catch_weight"), (chance.randint(20, 90), "gross_weight")))
    case.facts |= {"scale_step": shown, "tare": f"{tub / 100} lb"}
    if tub:
        case.reads("tare", Fraction(tub, 100), LB, step)
    case.told["step"] = step
    wanted = worked(case, case.read)["target_catch"]
    spread = [Fraction(chance.randint(-6, 6), 1000) for _ in range(chance.choice((1, 2)))]
    near = 1 + Fraction(chance.randint(-15, 15), 100)
    pounds = [round(wanted * (near + each) / LB, 2) + Fraction(tub, 100) for each in spread]
    case.facts["trials"] = [{**SET[case.facts["feed"]], name: f"{float(n):.2f} lb"} for n in pounds]
    for place, each in enumerate(pounds):
        case.read[name, place] = each * LB
    case.misses[name] = Fraction(hypot(step, COVERS * CATCH_SCATTERS * wanted))


def worked(case: Case, read: Numbers) -> dict[str, Fraction]:
    """The results by the formulas, from readings in SI."""
    told = case.told
    spacing = read["row_spacing", 0]
    ground = told["rows"] * told["turns"] * spacing * distance(case, read)
    found = {"ground_covered": ground}
    if "rate" in told:
        found["bulk_rate"] = told["rate"]
    else:
        found["seeds_per_area"] = seeds_on_area(case, read)
        found["seeds_per_row_length"] = found["seeds_per_area"] * spacing
        if ("counted_weight", 0) in read:
            found["seeds_per_weight"] = 300 / read["counted_weight", 0]
        size = told["size"] if "size" in told else found["seeds_per_weight"]
        found["bulk_rate"] = found["seeds_per_area"] / size
    found["target_catch"] = found["bulk_rate"] * ground
    found["target_catch_per_row"] = found["target_catch"] / told["rows"]
    found["expected_reading"] = found["target_catch"] + read.get(("tare", 0), Fraction(0))
    if caught := catch_told(case, read):
        found["caught_rate"] = caught / ground
        found["percent_off"] = caught / found["target_catch"] - 1
    return found


def distance(case: Case, read: Numbers) -> Fraction:
    if ("axle_height", 0) in read:
        return 2 * Fraction(pi) * read["axle_height", 0]
    if ("rolled_distance", 0) in read:
        return read["rolled_distance", 0] / case.told["rolled_turns"]
    return read["distance_per_turn", 0]


def seeds_on_area(case: Case, read: Numbers) -> Fraction:
    told = case.told
    if "seeds" in told:
        return told["seeds"]
    if "row_seeds" in told:
        return told["row_seeds"] / read["row_spacing", 0]
    return told["plants"] / (read["germination", 0] * told["rise"])


def catch_told(case: Case, read: Numbers) -> Fraction | None:
    """All catches as one; where a mark was set, the last and those before it that agree with it."""
    tub = read.get(("tare", 0), Fraction(0))
    seed = [n - tub for (fact, _), n in read.items() if fact in {"catch_weight", "gross_weight"}]
    if not seed:
        return None
    last = seed[-1]
    by_mark = case.facts["feed"] == "cup"
    within = REPEATS_WITHIN if by_mark else Fraction(1)
    agreed = [each for each in seed if abs(each - last) <= within * (each + last) / 2]
    return sum(agreed, Fraction(0)) / len(agreed)


def ranked(case: Case, result: str) -> dict[str, float]:
    """What each reading moves a result by, the most first: plain differences, both ways."""
    moved: dict[str, float] = {}
    for (fact, place), shown in case.read.items():
        ends = [{**case.read, (fact, place): shown + way * case.misses[fact]} for way in (1, -1)]
        up, down = (worked(case, each)[result] for each in ends)
        moved[fact] = hypot(moved.get(fact, 0), float(abs(up - down)) / 2)
    by_moves = dict(sorted(moved.items(), key=lambda each: -each[1]))
    return without_dust(by_moves, float(worked(case, case.read)[result]))


def without_dust(moved: Mapping[str, float], value: float) -> dict[str, float]:
    """Only what moves a result by more than rounding does."""
    return {fact: by for fact, by in moved.items() if by > DUST * abs(value)}


def tens() -> list[object]:
    """The cases by ten; the suite takes the first, the campaigns all."""
    marks = {True: [], False: [pytest.mark.campaign]}
    starts = range(0, CASES, 10)
    return [
        pytest.param(range(at, at + 10), id=f"{at}-{at + 9}", marks=marks[at < IN_SUITE])
        for at in starts
    ]


@cache
def told(seed: int) -> tuple[Case, State]:
    """A case, and the program's own state once it was told all of it."""
    case = drawn(Random(seed))
    ran = run(case.facts, as_json=False)
    assert ran.code == 0, ran.out
    return case, ran.sitting.state


@pytest.mark.parametrize("ten", tens())
def test_readings_rank_as_they_move_each_result(ten: range) -> None:
    for seed in ten:
        case, state = told(seed)
        found, known = doubts(calibrate(), state), state.situation.known
        for result, exact in worked(case, case.read).items():
            assert known[result].value == pytest.approx(float(exact)), (seed, result)
            parts = found[result].by_fact() if result in found else {}
            theirs, mine = without_dust(parts, float(exact)), ranked(case, result)
            assert [*theirs] == [*mine], (seed, result)
            assert theirs == pytest.approx(mine), (seed, result)


def test_the_first_of_them_is_named() -> None:
    """Where the rate caught is the last result but its share off, which tells no reading."""
    ends = [f"{calibrate().fact(name).label}: about" for name in ("caught_rate", "percent_off")]
    named = []
    for seed in range(20):
        case, state = told(seed)
        *about, most, _ = how_sure(calibrate(), state).text.split("\n")
        if all(line.startswith(end) for line, end in zip(about[-2:], ends, strict=True)):
            first = next(iter(ranked(case, "caught_rate")))
            assert most == f"What matters most: {calibrate().fact(first).label}.", seed
            named.append(first)
    assert len(named) >= 8


def test_what_a_meter_brought_was_weighed_and_moves_the_rate() -> None:
    ended = play(read_story(FOLDER / "air_ground.txt")).sitting
    assert "meter_catch" in doubts(ended.job, ended.state)["caught_rate"].by_fact()
