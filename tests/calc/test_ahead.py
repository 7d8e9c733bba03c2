"""A setting worked out from earlier catches: where they tell it, and with what it should drop."""

from dataclasses import astuple

import pytest

from assistant.calc import ahead
from assistant.calc.catalogue import CATALOGUE
from assistant.calc.catch_examples import FORESEEN, TURNED
from tests.calc.rows import at_marks, at_openings, with_tub


def opening(
    *catches: tuple[float, float],
    target: float = 100.0,
    widest: float = 40.0,
    tub: float = 0.0,
    tolerance: float = 0.0,
) -> object:
    return ahead.opening_ahead(
        trials=with_tub(at_openings(*catches), tub),
        tare=tub,
        catch_step=0.0,
        target_catch=target,
        ground_covered=50.0,
        opening_step=0.0005,
        widest_opening=widest / 1000,
        narrowest_opening=0.003,
        repeat_tolerance=0.025,
        tolerance=tolerance,
    )


def mark(*catches: tuple[float, float], target: float = 100.0, tub: float = 0.0) -> object:
    return ahead.mark_ahead(
        trials=with_tub(at_marks(*catches), tub),
        tare=tub,
        catch_step=0.0,
        target_catch=target,
        ground_covered=50.0,
        lever_step=0.5,
        lever_top=10.0,
        lever_lowest=0.0,
        probe=0.2,
        lever_opens="higher",
        repeat_tolerance=0.025,
    )


def test_an_opening_is_moved_in_proportion_and_told_what_it_should_drop() -> None:
    """14 x 100 / 85 = 16.47, so 16.5; there 85 / 50 x 16.5 / 14 = 2.0036 a square metre."""
    told = opening((14.0, 85.0))
    assert isinstance(told, ahead.OpeningAhead.Set)
    assert astuple(told) == pytest.approx((0.0165, 2.00357, 0.014, 1.7, -0.15), rel=1e-5)


def test_catches_at_one_opening_count_by_their_mean() -> None:
    told = opening((14.0, 80.0), (14.0, 90.0))
    assert isinstance(told, ahead.OpeningAhead.Set)
    assert told.caught_rate == pytest.approx(1.7)


@pytest.mark.parametrize("tub", [0.0, 2.0])
@pytest.mark.parametrize(
    ("catches", "outcome"),
    [
        ([(14.0, 99.0)], ahead.OpeningAhead.AsNear),
        ([(14.0, 30.0)], ahead.OffScale),
        ([(4.0, 300.0)], ahead.OffScale),
        ([], ahead.NoCatch),
        ([(14.0, 0.0)], ahead.NoCatch),
        ([(14.0, 111.0), (12.5, 118.0)], ahead.Against),
    ],
)
def test_where_the_catches_tell_no_opening_it_is_said_why(
    catches: list[tuple[float, float]], outcome: type, tub: float
) -> None:
    assert isinstance(opening(*catches, tub=tub), outcome)


def test_while_a_box_runs_empty_no_opening_is_worked_out() -> None:
    falling = at_openings((14.0, 0.27), (16.0, 0.285), (17.0, 0.276))
    taken = {**TURNED, **FORESEEN, "trials": falling}
    assert CATALOGUE["opening_ahead_by_all"].run(taken) == ahead.Odd()


def test_where_it_is_near_enough_the_setting_stays() -> None:
    told = opening((14.0, 96.0), tolerance=0.05)
    assert isinstance(told, ahead.OpeningAhead.NearEnough)
    assert astuple(told) == pytest.approx((0.014, 1.92, -0.04))


def test_no_opening_lies_past_the_widest() -> None:
    assert isinstance(opening((14.0, 96.0), widest=14.0), ahead.OffScale)


@pytest.mark.parametrize("tub", [0.0, 2.0])
@pytest.mark.parametrize(
    ("catches", "outcome"),
    [
        ([(4.0, 80.0)], ahead.OneMark),
        ([(4.0, 80.0), (6.0, 90.0)], ahead.OneMark),
        ([(10.0, 80.0)], ahead.OffScale),
        ([(0.0, 120.0)], ahead.OffScale),
        ([(4.0, 95.0), (4.5, 101.0)], ahead.MarkAhead.AsNear),
        ([], ahead.NoCatch),
        ([(4.0, 0.0)], ahead.NoCatch),
    ],
)
def test_where_the_catches_tell_no_mark_it_is_said_why(
    catches: list[tuple[float, float]], outcome: type, tub: float
) -> None:
    assert isinstance(mark(*catches, tub=tub), outcome)


def test_a_mark_between_two_lies_on_their_line() -> None:
    """(4, 80) and (6, 120): 5; at 85 wanted 4.25, so 4.5, where the line says 90."""
    told = mark((4.0, 80.0), (6.0, 120.0))
    assert isinstance(told, ahead.MarkAhead.Set)
    mark_there, drive_range, *numbers = astuple(told)
    assert (mark_there, drive_range) == (5.0, "low")
    assert numbers == pytest.approx([2.0, 6.0, 2.4, 0.2])
    told = mark((4.0, 80.0), (6.0, 120.0), target=85.0)
    assert isinstance(told, ahead.MarkAhead.Set)
    assert told.final_lever_mark == pytest.approx(4.5)
    assert told.expected_rate == pytest.approx(90 / 50)


def test_the_last_mark_of_several_is_told_with_what_was_caught_there() -> None:
    told = mark((4.0, 80.0), (5.0, 90.0), (6.0, 120.0))
    assert isinstance(told, ahead.MarkAhead.Set)
    assert (told.caught_mark, told.caught_rate) == (6.0, 120 / 50)
    assert told.percent_off == pytest.approx(0.2)


def test_a_lever_that_opens_the_other_way_is_followed_as_the_catches_show_it() -> None:
    """(4, 120) and (6, 80), told higher: 5 again, where the line says 100."""
    told = mark((4.0, 120.0), (6.0, 80.0))
    assert isinstance(told, ahead.MarkAhead.Set)
    assert told.final_lever_mark == pytest.approx(5.0)
    assert told.expected_rate == pytest.approx(100 / 50)


def test_the_range_of_the_last_catch_goes_with_the_mark() -> None:
    told = ahead.mark_ahead(
        trials=(
            *at_marks((4.0, 80.0), (5.0, 90.0)),
            *at_marks((4.0, 80.0), (6.0, 120.0), drive_range="high"),
        ),
        tare=0.0,
        catch_step=0.0,
        target_catch=100.0,
        ground_covered=50.0,
        lever_step=0.5,
        lever_top=10.0,
        lever_lowest=0.0,
        probe=0.2,
        lever_opens="higher",
        repeat_tolerance=0.025,
    )
    assert isinstance(told, ahead.MarkAhead.Set)
    assert told.final_range == "high"
