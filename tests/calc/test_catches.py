"""The seed of a catch, and which catches share one setting."""

import pytest

from assistant.calc.catches import (
    Scale,
    Tried,
    caught_in_this_stay,
    same_setting,
    seed_caught,
    settings_tried,
)
from assistant.calc.contract import Trial
from assistant.calc.setting import ByMark, ByOpening, final_setting, mark_by_opening
from tests.calc.rows import at_marks, at_openings

REPEAT = 0.025
WEIGHED_ALONE = Scale(0.0, 0.001)


@pytest.mark.parametrize(
    ("trial", "seed"),
    [
        (Trial(catch_weight=0.62), 0.62),
        (Trial(gross_weight=1.02), 0.62),
        (Trial(row_weights=(0.2, 0.22, 0.2)), 0.62),
        (Trial(gross_weight=0.4), 0.0),
        (Trial(seeds_caught=(300.0, 320.0)), 0.62),
        (Trial(seeds_caught=(0.0,)), 0.0),
    ],
)
def test_the_tub_comes_off_only_what_was_weighed_with_it(trial: Trial, seed: float) -> None:
    assert seed_caught(trial, Scale(0.4, 0.001)) == pytest.approx(seed, rel=1e-12)


def test_a_trial_without_a_weight_is_refused() -> None:
    with pytest.raises(ValueError, match="Trial"):
        seed_caught(Trial(opening=0.014), WEIGHED_ALONE)


@pytest.mark.parametrize(
    ("other", "alike"),
    [
        (Trial(opening=0.014, drive_range="low"), True),
        (Trial(opening=0.0145, drive_range="low"), False),
        (Trial(opening=0.014, drive_range="high"), False),
        (Trial(opening=0.014), False),
        (Trial(lever_mark=14.0, drive_range="low"), False),
    ],
)
def test_one_setting_is_one_opening_or_mark_in_one_range(other: Trial, *, alike: bool) -> None:
    assert same_setting(Trial(opening=0.014, drive_range="low"), other) is alike


@pytest.mark.parametrize(
    ("catches", "stay"),
    [
        ([(14.0, 0.3)], (0.3,)),
        ([(12.0, 0.2), (14.0, 0.3), (14.0, 0.31)], (0.3, 0.31)),
        ([(14.0, 0.3), (12.0, 0.2), (14.0, 0.31)], (0.31,)),
        ([(14.0, 0.3), (14.0, 0.0), (14.0, 0.31)], (0.31,)),
        ([(14.0, 0.3), (14.0, 0.0)], ()),
        ([(14.0, 0.3), (14.0, -0.1)], ()),
    ],
)
def test_a_stay_ends_where_the_setting_moved_or_nothing_came(
    catches: list[tuple[float, float]], stay: tuple[float, ...]
) -> None:
    assert caught_in_this_stay(at_openings(*catches), WEIGHED_ALONE) == stay


def test_settings_are_gathered_with_their_mean_and_their_visits() -> None:
    trials = at_openings((12.0, 0.2), (14.0, 0.3), (14.0, 0.32), (12.0, 0.22), (14.0, 0.34))
    found = settings_tried(trials, WEIGHED_ALONE, lambda trial: trial.opening, REPEAT)
    assert [each.setting for each in found] == [0.012, 0.014]
    assert [each.visits for each in found] == [2, 2]
    assert [each.catches for each in found] == [2, 3]
    assert [each.seed for each in found] == pytest.approx([0.21, 0.34], rel=1e-12)


@pytest.mark.parametrize(
    ("weights", "seed"),
    [
        ((0.3, 0.4, 0.301), 0.3005),  # the outlier is left out, as it is judged
        ((0.3, 0.4), 0.35),
        ((0.3, 0.301, 0.4), 1.001 / 3),  # none agrees with the last
    ],
)
def test_what_the_present_setting_brought_is_what_was_judged(
    weights: tuple[float, ...], seed: float
) -> None:
    trials = at_openings((12.0, 0.2), *((14.0, each) for each in weights))
    found = settings_tried(trials, WEIGHED_ALONE, lambda trial: trial.opening, REPEAT)
    assert found[-1].seed == pytest.approx(seed, rel=1e-12)


def test_the_present_setting_stands_last() -> None:
    trials = at_openings((12.0, 0.2), (14.0, 0.3), (12.0, 0.2))
    found = settings_tried(trials, WEIGHED_ALONE, lambda trial: trial.opening, REPEAT)
    assert found[-1] == Tried(0.012, 0.2, 2, 2)


def test_another_range_and_catches_of_nothing_do_not_count() -> None:
    trials = (
        *at_marks((4.0, 0.5), drive_range="high"),
        *at_marks((4.0, 0.0), (5.0, 0.3)),
    )
    found = settings_tried(trials, WEIGHED_ALONE, lambda trial: trial.lever_mark, REPEAT)
    assert found == (Tried(5.0, 0.3, 1, 1),)


@pytest.mark.parametrize(
    "trials",
    [(), at_openings((14.0, 0.0)), at_marks((4.0, 0.3)), at_openings((12.0, 0.3), (14.0, 0.0))],
)
def test_without_seed_at_the_present_setting_there_is_nothing_to_aim_from(
    trials: tuple[Trial, ...],
) -> None:
    with pytest.raises(ValueError, match=r"\(|Trial"):
        settings_tried(trials, WEIGHED_ALONE, lambda trial: trial.opening, REPEAT)


def test_the_final_setting_is_that_of_the_last_catch() -> None:
    assert final_setting(trials=at_openings((14.0, 0.3), (14.5, 0.31))) == ByOpening(0.0145)
    assert final_setting(trials=at_marks((4.0, 0.3), (4.5, 0.31))) == ByMark(4.5, "low")


@pytest.mark.parametrize("trial", [Trial(), Trial(lever_mark=4.0), Trial(drive_range="low")])
def test_a_mark_without_its_range_is_no_setting(trial: Trial) -> None:
    with pytest.raises(ValueError, match="Trial"):
        final_setting(trials=(trial,))


@pytest.mark.parametrize(("opens", "mark"), [("higher", 3.75), ("lower", 6.25)])
def test_about_where_a_lever_stands_at_the_last_opening(opens: str, mark: float) -> None:
    """15 of 40 mm, with mark 10 at one end: 10 x 15 / 40 = 3.75; from the other end 10 - 3.75."""
    trials = at_openings((14.0, 0.3), (15.0, 0.31))
    lever = {"widest_opening": 0.04, "lever_top": 10.0}
    found = mark_by_opening(trials=trials, lever_opens=opens, **lever)
    assert found.expected_mark == pytest.approx(mark)


def test_a_mark_has_no_opening_to_tell_another_mark_by() -> None:
    lever = {"widest_opening": 0.04, "lever_top": 10.0}
    with pytest.raises(ValueError, match="Trial"):
        mark_by_opening(trials=at_marks((4.0, 0.3)), lever_opens="higher", **lever)
