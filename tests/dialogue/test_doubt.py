"""How far results may be off: against hand-worked sums, and against the Monte Carlo method.

JCGM 100 (GUM), 5.1.2: moves of independent readings add as squares. JCGM 101: the same by drawing
every reading at random and working all out again, which leans on no straight line.
"""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from scipy import stats

from assistant.dialogue.doubt import (
    COVERS,
    Doubt,
    Reading,
    doubts,
    how_sure,
    readings,
    worked_again,
)
from assistant.dialogue.job import State
from tests.calc.us import LB, us
from tests.stories.play import Played, calibrate, play
from tests.stories.story import FOLDER, read_story

DRAWS, NEAR = 1_500, 0.1
"""The width of so many draws is itself known to about 3 in 100."""


def after(name: str, lines: int) -> Played:
    """A story as far as so many of its lines."""
    story = read_story(FOLDER / f"{name}.txt")
    return play(replace(story, moves=story.moves[:lines]))


def state_after(name: str, lines: int) -> State:
    return after(name, lines).sitting.state


def test_a_normal_law_holds_95_in_100_so_far_out() -> None:
    assert stats.norm.ppf(0.975) == pytest.approx(COVERS, abs=1e-4)


def test_what_a_tape_can_miss_adds_as_squares_in_the_catch_that_is_wanted() -> None:
    """1.40324 lb of 7.5 in, an eighth off, and of 81.5 in, an eighth off."""
    found = doubts(calibrate(), state_after("fluted_pounds", 13))
    spacing, turn = Fraction(1, 8) / Fraction("7.5"), Fraction(1, 8) / Fraction("81.5")
    share = float(spacing**2 + turn**2) ** 0.5
    assert share == pytest.approx(0.016737, abs=1e-6)
    doubt = found["target_catch"]
    assert doubt.half == pytest.approx(share * us("1.40324", LB), rel=1e-3)
    assert [*doubt.by_fact()] == ["row_spacing", "distance_per_turn"]


def test_two_catches_tell_more_than_one_and_a_scale_its_step() -> None:
    """A catch scatters by 2 in 100: 95 of 100 within 3.92; and the scale by 0.01 of 1.40324 lb."""
    one, two = (
        doubts(calibrate(), state_after("fluted_pounds", n))["percent_off"] for n in (18, 19)
    )
    catch = ((1.96 * 0.02) ** 2 + (0.01 / 1.40324) ** 2) ** 0.5
    assert one.by_fact()["catch_weight"] == pytest.approx(catch, rel=0.01)
    assert two.by_fact()["catch_weight"] == pytest.approx(catch / 2**0.5, rel=0.01)


def test_germination_matters_most_where_seed_was_told_in_plants() -> None:
    """2 in 100 of 92 in 100: 2.174 in 100 of the rate."""
    found = doubts(calibrate(), state_after("fluted_plants", 12))["bulk_rate"]
    known = state_after("fluted_plants", 12).situation.known
    (share,) = found.by_fact().values()
    germination, rate = known["germination"].value, known["bulk_rate"].value
    assert isinstance(germination, float)
    assert isinstance(rate, float)
    assert share / rate == pytest.approx(0.02 / germination, rel=0.001)


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        ("fluted_pounds", 13),
        ("fluted_plants", 18),
        ("cup_probe", 20),
        ("fluted_pounds", 18),
    ],
)
def test_drawn_at_random_the_results_spread_as_wide(name: str, lines: int) -> None:
    state, chance = state_after(name, lines), random.Random(7)
    told = [*readings(calibrate(), state.situation)]
    drawn = [
        worked_again(calibrate(), state, {r: chance.gauss(0, r.misses / COVERS) for r in told})
        for _ in range(DRAWS)
    ]
    found = {n: d for n, d in doubts(calibrate(), state).items() if calibrate().fact(n).main}
    assert found
    for fact, doubt in found.items():
        values = sorted(each[fact] for each in drawn)
        width = values[int(0.975 * DRAWS)] - values[int(0.025 * DRAWS)]
        assert doubt.half == pytest.approx(width / 2, rel=NEAR), fact


def test_it_is_told_in_words_with_what_matters_most() -> None:
    said = how_sure(calibrate(), state_after("fluted_pounds", 13)).text
    # 1.40324 - 0.02349 and + 0.02349; with half of the spacing's part: 0.01189
    assert said.split("\n") == [
        "The catch should weigh: about 1.38 lb to 1.43 lb.",
        "What matters most: Row spacing.",
        "With that known twice as well: 1.39 lb to 1.42 lb.",
    ]


def test_a_guess_is_named() -> None:
    state = next(
        each
        for each in reversed(play(read_story(FOLDER / "dont_know_everywhere.txt")).states)
        if "target_catch" in each.situation.known
    )
    assert "It rests on a guess: " in how_sure(calibrate(), state).text


def test_before_anything_is_worked_out_that_is_said() -> None:
    said = how_sure(calibrate(), state_after("fluted_pounds", 3)).text
    assert said == calibrate().word("sure.nothing")


def test_a_catch_that_weighs_less_than_it_can_miss_does_no_harm() -> None:
    """4 g, weighed to 5 g: less 5 g there is no catch to tell anything."""
    story = read_story(FOLDER / "fluted_pounds.txt")
    state = play(
        replace(story, moves=(*story.moves[:17], (">", "0.004 lb"), (">", "1")))
    ).sitting.state
    assert state.situation.rows["trials"]
    assert doubts(calibrate(), state)["caught_rate"].half > 0


def test_taken_twice_as_well_the_largest_part_is_halved() -> None:
    wide, narrow = Reading("a", 4.0), Reading("b", 3.0)
    doubt = Doubt(((narrow, 3.0), (wide, 4.0)))
    assert doubt.half == pytest.approx(5)
    assert doubt.with_better(2) == pytest.approx((2**2 + 3**2) ** 0.5)


def test_the_rows_of_a_series_count_together() -> None:
    rows = tuple((Reading("catch", 1.0, "trials", row), 3.0) for row in range(4))
    assert Doubt(rows).by_fact() == {"catch": pytest.approx(6)}


def test_a_result_that_is_a_reading_is_told_apart() -> None:
    assert Doubt(((Reading("opening", 0.5), 0.5),)).is_reading
    assert not Doubt(((Reading("opening", 0.5), 0.4),)).is_reading
    assert not Doubt(((Reading("a", 3.0), 3.0), (Reading("b", 4.0), 4.0))).is_reading
