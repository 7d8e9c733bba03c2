"""The practice drill itself: its law, its scatter, and what a habit does to a catch."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from statistics import fmean, stdev

import pytest

from assistant.practice.drill import DRAWN, TOOLS, Truth, Yard, caught_rows, drawn, other_rows
from assistant.practice.population import LEVELS, ROWS

EVEN = Truth(
    power=1.0,
    dead_zone=0.002,
    needed=0.012,
    play=0.0001,
    repeat=0.01,
    pulse=0.5,
    lost=0.0,
    short=0.10,
    chart=0.2,
    squat=0.02,
    distance=2.0,
    rows=(1.0,) * ROWS,
    plugged=None,
)
PLANNED = 90 * 0.45359237 / 4046.8564224 * 0.1905 * 2.0
"""Seed of a row in a turn, in kg: 90 lb/ac on 7.5 in and 2 m."""


def yard(truth: Truth = EVEN, seed: int = 1) -> Yard:
    return Yard(truth, TOOLS["us"], Random(seed))


@pytest.mark.parametrize(
    ("power", "opening", "share"),
    [
        (1.0, 0.012, 1.0),
        (1.0, 0.007, 0.5),  # half of the 10 mm above the dead zone
        (2.0, 0.007, 0.25),
        (1.0, 0.022, 2.0),
        (1.0, 0.001, 0.0),  # under the dead zone nothing comes
    ],
)
def test_what_an_opening_throws(power: float, opening: float, share: float) -> None:
    assert replace(EVEN, power=power).share(opening) == pytest.approx(share)


def test_a_plugged_row_takes_its_part_from_the_rows_that_are_caught() -> None:
    truth = replace(EVEN, rows=(0.15, *(1.0,) * (ROWS - 1)), plugged=0)
    assert truth.share(0.012, truth.rows[:4]) == pytest.approx(3.15 / 4)
    assert truth.share(0.012) == pytest.approx(23.15 / 24)


def test_a_row_that_is_cleared_throws_as_it_did_before_it_was_plugged() -> None:
    hidden = yard(replace(EVEN, rows=(0.15, *(1.0,) * (ROWS - 1)), plugged=0))
    assert hidden.hides(6)
    hidden.mend(6)
    assert not hidden.hides(6)
    assert hidden.rows == pytest.approx((1.0,) * ROWS)
    assert hidden.truth.rows[0] == 0.15


def test_only_a_row_that_is_caught_can_be_found_plugged() -> None:
    middle = replace(EVEN, rows=(*(1.0,) * 12, 0.15, *(1.0,) * 11), plugged=12)
    hidden = yard(middle)
    hidden.mend(6)  # rows 0, 5, 9, 14, 18 and 23
    assert hidden.rows == middle.rows


def test_both_ends_and_the_middle_are_caught() -> None:
    assert caught_rows(1) == [0]
    assert caught_rows(2) == [0, 23]
    assert caught_rows(6) == [0, 5, 9, 14, 18, 23]
    assert caught_rows(99) == list(range(24))


@pytest.mark.parametrize("count", [1, 2, 4, 6, 8, 12])
def test_other_rows_are_as_many_and_none_of_the_first(count: int) -> None:
    assert len(other_rows(count)) == count
    assert not set(other_rows(count)) & set(caught_rows(count))


def test_catches_scatter_about_the_law_by_repeat_and_pulse() -> None:
    """1,000 catches of 30 turns at one setting: sd of 1 % and 0.5/30 added in quadrature."""
    drill = yard(replace(EVEN, play=0.0))
    drill.prime()
    shares = [drill.turn(0.012, 30, caught_rows(6)) / (6 * 30 * PLANNED) for _ in range(1000)]
    scatter = (0.01**2 + (0.5 / 30) ** 2) ** 0.5
    assert abs(fmean(shares) - 1) < 3 * scatter / 1000**0.5
    assert stdev(shares) == pytest.approx(scatter, rel=0.08)  # sd of an sd: 1 in sqrt(2,000)


def test_the_lever_lands_anew_only_when_it_is_set() -> None:
    drill = yard()
    places = []
    for opening in (0.012, 0.012, 0.013, 0.012):
        drill.turn(opening, 30, caught_rows(6))
        places.append(drill.stands_at)
    assert places[0] == places[1]
    assert len(set(places)) == 3
    assert all(
        abs(at - to) < 0.0005 for at, to in zip(places, (0.012, 0.012, 0.013, 0.012), strict=True)
    )


@pytest.mark.parametrize(
    ("before", "shuts", "stands_at"),
    [
        (0.011, False, 0.012),  # it comes up: the slack is out
        (0.013, False, 0.0125),  # it comes down: half a millimetre stays
        (0.013, True, 0.012),
        (0.012, False, 0.012),  # not touched
    ],
)
def test_slack_stays_in_a_lever_that_comes_down_to_a_mark(
    before: float, stands_at: float, *, shuts: bool
) -> None:
    drill = yard(replace(EVEN, play=0.0, slack=0.0005))
    drill.turn(before, 30, caught_rows(6))
    if shuts:
        drill.shut()
    drill.turn(0.012, 30, caught_rows(6))
    assert drill.stands_at == pytest.approx(stands_at)
    assert (drill.went_down, drill.came_down) == (before > 0.012, int(stands_at > 0.012))
    assert drill.slack_in == (stands_at > 0.012)
    assert drill.anew(6) == pytest.approx(1)  # back at 12 mm, from the shut side


def test_the_first_catch_is_short_only_where_nobody_primed() -> None:
    steady = replace(EVEN, play=0.0, repeat=0.0, pulse=0.0)
    planned = 6 * 30 * PLANNED
    drill = yard(steady)
    assert drill.turn(0.012, 30, caught_rows(6)) == pytest.approx(0.9 * planned)
    assert drill.turn(0.012, 30, caught_rows(6)) == pytest.approx(planned)
    primed = yard(steady)
    primed.prime()
    assert primed.turn(0.012, 30, caught_rows(6)) == pytest.approx(planned)
    assert (drill.primed_first, primed.primed_first) == (False, True)


@pytest.mark.parametrize("level", LEVELS)
def test_each_drill_lies_in_its_population_and_needs_an_opening_on_its_scale(level: int) -> None:
    of = LEVELS[level]
    for seed in range(200):
        truth = drawn(Random(seed), LEVELS[level])
        for name in (*DRAWN, "lies", "slack"):
            least, most = getattr(of, name)
            assert least <= getattr(truth, name) <= most, name
        well = [row for at, row in enumerate(truth.rows) if at != truth.plugged]
        assert len(truth.rows) == ROWS
        assert max(well) < 1.5
        if truth.plugged is not None:
            assert truth.rows[truth.plugged] < 0.3
            assert truth.plugged in caught_rows(6)
        else:
            assert fmean(truth.rows) == pytest.approx(1)


def test_the_scale_of_a_lever_tells_the_opening_or_lies_by_so_much() -> None:
    true, liar = yard(), yard(replace(EVEN, lies=0.002))
    for each in (true, liar):
        each.turn(0.012, 30, caught_rows(6))
    assert true.mark == pytest.approx(3.0)  # 12 of 40 mm, of 10 marks
    assert liar.mark == pytest.approx(3.5)


def test_only_at_the_last_level_levers_lie() -> None:
    lies = {level: {drawn(Random(s), LEVELS[level]).lies for s in range(50)} for level in LEVELS}
    assert lies[1] == lies[2] == {0.0}
    assert len(lies[3]) == 50


def test_only_the_last_level_has_plugged_rows() -> None:
    plugged = {
        level: sum(drawn(Random(seed), LEVELS[level]).plugged is not None for seed in range(200))
        for level in LEVELS
    }
    assert plugged[1] == plugged[2] == 0
    assert 120 <= plugged[3] <= 160  # 7 in 10
