"""Openings that are turned: against a Monte Carlo of the same drills, and by cases."""

from __future__ import annotations

from math import log
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, stats

from assistant.calc import judging, openings, turned
from assistant.calc.assumed import CLEAR, DEAD_ZONES
from assistant.calc.beliefs import Repeats, Told, guesses, noise_of
from assistant.calc.catch_examples import TURNED
from assistant.calc.contract import Trial
from assistant.calc.deciding import (
    Case,
    Marks,
    band,
    chance_within,
    foretold_catch,
    heard,
    sure_within,
)
from assistant.calc.turned_catches import Catches

TARGET, STEP, TURNS, TOLERANCE, GROUND = 0.3, 0.001, 40.0, 0.05, 36.0
DRAWS = 400_000
Seen = tuple[tuple[float, float], ...]
WHOLE: Seen = ((14, 1.0), (14, 1.02))


def facts(*catches: tuple[float, float], **given_: Any) -> Catches:
    """What the calculations take after catches of (opening in mm, seed over what is wanted).

    Nothing is known of the drill from before.
    """
    trials = tuple(Trial(opening=mm / 1000, catch_weight=ratio * TARGET) for mm, ratio in catches)
    taken: dict[str, Any] = {**TURNED, "repeats_told": 0.0, "trials": trials, **given_}
    return Catches(**taken)


def judged(*catches: tuple[float, float], **given_: Any) -> Any:
    """What the last catch means."""
    return turned.judge_opening(catches=facts(*catches, **given_), ground_covered=GROUND)


def aimed(*catches: tuple[float, float], **given_: Any) -> Any:
    """Where to set it next."""
    seen = facts(*catches, **given_)
    return turned.aim_opening(catches=seen, ground_covered=GROUND, sure=0.95)


def case(tolerance: float = TOLERANCE) -> Case:
    """The same for all catches here."""
    noise = noise_of(TURNS, 1.0, STEP, TARGET)
    return Case(band(tolerance, 0.98), Marks(0.5, 3.0, 40.0), noise, 0.5)


def told(*catches: tuple[float, float]) -> list[Told]:
    """The catches as the rule hears them."""
    found: list[Told] = []
    for at, (mm, ratio) in enumerate(catches):
        anew = at == 0 or catches[at - 1][0] != mm
        found.append(Told(mm, log(ratio), anew, first=at == 0))
    return found


Numbers = npt.NDArray[np.float64]


def drawn(catches: Seen, opening: float | None = None) -> tuple[Numbers, Numbers]:
    """Drills drawn from the population, each weighed by how well it fits the catches.

    How each stands, or what a catch brings with the lever set to an opening, and its weight.
    """
    random = np.random.default_rng(5)
    dead = random.choice([-1.75, 0.75, 3.25], DRAWS)
    weight = np.exp(-(((dead - 1) / 2) ** 2) / 2)
    repeat = random.choice([0.006, 0.0125, 0.020], DRAWS)
    play = random.choice([0.08, 0.15, 0.27], DRAWS)
    short = random.random(DRAWS) < 0.1
    law = random.normal(-np.log(catches[0][0] - dead), 0.3)
    noise = (0.5 / TURNS) ** 2 + (STEP / TARGET) ** 2 / 6 + 0.02 / TURNS**2
    stands, last = np.zeros(DRAWS), None
    for number, (mm, ratio) in enumerate(catches):
        if mm != last:
            open_by, last = mm - dead, mm
            stands = random.normal(law + np.log(open_by), play / open_by)
        first = short & (number == 0)
        spread = np.sqrt(repeat**2 + noise + np.where(first, 0.04**2, 0))
        weight = weight * stats.norm.pdf(log(ratio), stands - np.where(first, 0.09, 0), spread)
    if opening is not None:
        open_by = opening - dead
        stands = random.normal(law + np.log(open_by), play / open_by)
        stands = random.normal(stands, np.sqrt(repeat**2 + noise))
    return stands, weight / np.sum(weight)


SEEN: list[Seen] = [
    ((14, 1.0),),
    ((14, 1.04),),
    WHOLE,
    ((14, 1.045), (14, 1.04)),
    ((20, 1.2), (17, 1.02)),
    ((14, 0.93), (14, 1.0), (14, 1.01)),
    ((10, 0.8), (12.5, 1.03), (12, 1.0), (12, 0.99)),
]


@pytest.mark.parametrize("catches", SEEN)
def test_how_sure_it_is_by_drawing_drills(catches: Seen) -> None:
    stands, weight = drawn(catches)
    inside = (stands > log(1 - TOLERANCE)) & (stands < log(1 + TOLERANCE))
    beliefs = heard(told(*catches), case()).beliefs
    assert chance_within(beliefs, case().wanted) == pytest.approx(np.sum(weight[inside]), abs=0.015)


@pytest.mark.parametrize("catches", SEEN)
def test_what_another_mark_brings_by_drawing_drills(catches: Seen) -> None:
    brings, weight = drawn(catches, 15.0)
    mean = float(np.sum(weight * brings))
    spread = float(np.sqrt(np.sum(weight * (brings - mean) ** 2)))
    foretold = foretold_catch(heard(told(*catches), case()).beliefs, Told(15, 0, set_anew=True))
    assert foretold.mean == pytest.approx(mean, abs=0.004)
    assert foretold.variance**0.5 == pytest.approx(spread, rel=0.06)


@pytest.mark.parametrize("catches", SEEN)
def test_the_tolerance_that_is_sure_already_by_another_root_finder(catches: Seen) -> None:
    beliefs = heard(told(*catches), case()).beliefs

    def short_of(tolerance: float) -> float:
        return chance_within(beliefs, band(tolerance, 0.98)) - 0.98

    by_scipy = optimize.brentq(short_of, 0.001, 0.9)
    assert by_scipy <= sure_within(beliefs, 0.98) < by_scipy + 0.01


def test_the_edge_of_the_tolerance_proves_nothing() -> None:
    assert isinstance(judged((14, 1.05), (14, 1.05)), turned.Sure.NearHeavy)
    assert isinstance(judged((14, 1.2), (14, 1.2)), judging.Heavy)
    assert isinstance(judged((14, 0.8), (14, 0.8)), judging.Light)


def test_more_catches_more_turns_and_a_wider_tolerance_make_it_surer() -> None:
    def chance(times: int, **given_: Any) -> float:
        found: float = judged(*[(14, 1.015)] * times, **given_).on_target_chance
        return found

    assert chance(1) < chance(2) < chance(3)
    assert chance(2, turns=20.0) < chance(2)
    assert chance(1) < chance(1, tolerance=0.08)


def test_one_catch_within_the_tolerance_is_not_proven() -> None:
    assert isinstance(judged((14, 1.0)), turned.Sure.OnTarget)


def test_a_catch_as_the_first_one_foretold_is_the_second_that_agrees() -> None:
    assert isinstance(judged((14, 0.85), (16.5, 1.0)), turned.Sure.Proven)


@pytest.mark.parametrize("unlike", [0.72, 1.35])
def test_a_catch_that_can_not_be_is_made_again_and_put_aside(unlike: float) -> None:
    odd = ((14, 1.0), (14, unlike))
    assert isinstance(judged(*odd), turned.Sure.PutAside)
    aside = turned.catches_aside(catches=facts(*odd))
    assert isinstance(aside, judging.OneOdd)
    assert aside.odd_catch == pytest.approx(unlike * TARGET)
    again = judged(*odd, (14, 1.01))
    assert isinstance(again, turned.Sure.Proven)
    assert again.percent_off == pytest.approx(0.005)


def test_at_a_new_mark_too_a_catch_that_can_not_be_is_made_again() -> None:
    odd = ((14, 1.14), (12.5, 1.21))
    assert isinstance(judged(*odd), turned.Sure.PutAside)
    again = judged(*odd, (12.5, 1.0))
    assert isinstance(again, turned.Sure.Proven)
    assert again.percent_off == pytest.approx(0.0, abs=1e-9)


def test_two_that_can_not_be_but_agree_begin_anew() -> None:
    """Then the first was wrong, or a gate has moved: from these two the law is learnt again."""
    again = judged((14, 1.0), (14, 0.75), (14, 0.76))
    assert isinstance(again, judging.Light)
    assert again.percent_off == pytest.approx(-0.245)
    aim = aimed((14, 1.0), (14, 0.75), (14, 0.76))
    assert 14 / 0.755 - 1.5 < aim.next_opening * 1000 < 14 / 0.755 + 0.5
    seen = facts((14, 1.0), (14, 0.75), (14, 0.76))
    assert isinstance(turned.catches_aside(catches=seen), judging.OneOdd)


def test_a_short_first_catch_is_put_aside_once_it_shows() -> None:
    catches = ((14, 0.91), (14, 1.0), (14, 1.0))
    assert judged(*catches).percent_off == pytest.approx(0.0, abs=1e-9)
    assert isinstance(turned.catches_aside(catches=facts(*catches)), judging.OneOdd)


def test_a_catch_that_brought_nothing_tells_nothing() -> None:
    assert isinstance(judged((14, 0.0)), judging.NothingCaught)
    assert judged((14, 0.0), *WHOLE) == judged(*WHOLE)


def test_a_new_opening_that_brought_nothing_at_first_is_a_new_one_still() -> None:
    """14 mm, then 20 mm with no seed, then 20 mm again: one catch there, of two settings."""
    found = judged((14, 1.0), (20, 0.0), (20, 1.0))
    assert found.caught_rate == pytest.approx(judged((20, 1.0)).caught_rate)
    assert found == judged((14, 1.0), (20, 1.0))


def test_where_one_mark_is_worth_more_than_the_tolerance_the_same_one_is_set_again() -> None:
    narrow = ((5.0, 0.97),)
    assert isinstance(judged(*narrow, tolerance=0.01), turned.Sure.SameMark)
    assert isinstance(aimed(*narrow, tolerance=0.01), openings.Foreseen.SetAgain)


def test_a_place_midway_between_two_marks_is_offered_where_it_is_worth_it() -> None:
    either_side = ((5.0, 1.06), (4.5, 0.93), (5.0, 1.07), (4.5, 0.94))
    aim = aimed(*either_side, tolerance=0.02)
    assert isinstance(aim, openings.Foreseen.SetBetween)
    assert aim.next_opening == pytest.approx(0.00475)


def test_past_the_ends_of_the_scale() -> None:
    assert isinstance(aimed((30, 0.3)), openings.TooWide)
    assert isinstance(aimed((5, 3.0)), openings.TooNarrow)


def test_half_a_step_past_the_widest_mark_is_past_the_scale() -> None:
    assert isinstance(aimed((39.0, 0.945), tolerance=0.01), openings.TooWide)


def test_after_many_catches_without_a_promise_the_nearest_mark_counts_only_if_it_is_unlikely() -> (
    None
):
    """Setting anew promises little, yet a mark near by is more likely on target than not."""
    catches = ((14.0, 0.947), (14.0, 1.0), (14.0, 1.007), (14.0, 1.015), (14.5, 0.984))
    assert isinstance(judged(*catches, tolerance=0.02), turned.Sure.OnTarget)
    assert isinstance(aimed(*catches, tolerance=0.02), openings.Foreseen.SetAgain)


def test_a_dead_zone_counts_up_to_the_opening_that_still_clears_it() -> None:
    zones = {each.dead_zone for each in guesses(DEAD_ZONES[1] + CLEAR, 0.0, 0.1, Repeats(0, 0))}
    assert zones == set(DEAD_ZONES[:2])


def test_what_lies_past_the_end_is_light_and_not_the_same_mark_again() -> None:
    assert isinstance(judged((40, 0.85), (40, 0.85)), judging.Light)
    assert isinstance(aimed((40, 0.85), (40, 0.85)), openings.TooWide)


one_catch = st.tuples(
    st.integers(6, 80).map(lambda half: half / 2), st.floats(0.3, 3.0, allow_subnormal=False)
)


@given(st.lists(one_catch, min_size=1, max_size=6), st.sampled_from([0.01, 0.03, 0.05, 0.1]))
def test_the_next_opening_is_on_the_scale_and_on_a_mark_or_midway(
    catches: list[tuple[float, float]], tolerance: float
) -> None:
    verdict = judged(*catches, tolerance=tolerance)
    assert -1 < verdict.percent_off < 2.1
    aim = aimed(*catches, tolerance=tolerance)
    if isinstance(aim, openings.TooWide | openings.TooNarrow):
        return
    quarters = aim.next_opening * 4000
    assert quarters == pytest.approx(round(quarters), abs=1e-6)
    assert 0.003 <= aim.next_opening <= 0.04
    if not isinstance(aim, openings.AsNear):
        assert aim.foreseen_within >= 0.01
        assert aim.foreseen_rate > 0


@given(st.lists(one_catch, min_size=1, max_size=5))
def test_who_is_told_to_give_more_is_given_a_wider_mark(
    catches: list[tuple[float, float]],
) -> None:
    verdict, aim = judged(*catches), aimed(*catches)
    if not isinstance(aim, openings.Foreseen.SetNext | openings.Foreseen.SetBetween):
        return
    wider = aim.next_opening > catches[-1][0] / 1000
    if isinstance(verdict, judging.Light | turned.Sure.NearLight):
        assert wider
    if isinstance(verdict, judging.Heavy | turned.Sure.NearHeavy):
        assert not wider


def test_what_is_foreseen_is_the_law_of_the_nearest_guess() -> None:
    """By hand: 0.85 at 14 mm; a feed that begins at 1 mm throws 0.85 x 15 / 13 at 16 mm."""
    aim = aimed((14, 0.85))
    assert aim.next_opening == pytest.approx(0.016)
    by_hand = 0.85 * 15 / 13 * TARGET / GROUND
    assert aim.foreseen_rate == pytest.approx(by_hand, rel=0.02)


@pytest.mark.parametrize("mark", [21.0, 21.5])
def test_what_is_heavy_is_told_so_on_every_mark_that_is_as_near_as_it_goes(mark: float) -> None:
    """0.0215 m over 0.001 m is a last bit less than 21.5."""
    heavy = tuple((mark, share) for share in (1.007, 0.973, 1.011, 1.031))
    assert isinstance(aimed(*heavy, tolerance=0.01), openings.AsNear)
    assert isinstance(judged(*heavy, tolerance=0.01), judging.Heavy)


def test_a_catch_again_where_it_is_as_near_as_it_goes_is_one_more_of_that_stay() -> None:
    """Nobody was told to set it again: the fifth catch stands beside the four before it."""
    four = ((12, 1.036), (12, 0.974), (12, 1.019), (12, 1.013))
    assert isinstance(aimed(*four, tolerance=0.01), openings.AsNear)
    seen = facts(*four, (12, 1.0), tolerance=0.01)
    assert not heard(seen.since_full.told, seen.case).stay[-1].set_anew
