"""What a meter drops of other seed: the same room, so another weight and another count."""

from dataclasses import astuple
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import foretold, room
from tests.calc.rows import at_marks, at_openings
from tests.calc.us import AC, BU, IN, LB, LB_AC, PER_LB, us

POSITIVE = st.floats(0.01, 100)


def room_of(weights: tuple[float, ...]) -> object:
    return room.room_by_tubs(
        tub_weights=weights, weighed_within=0.05, room_least=0.5, room_most=2.0
    )


def foretell(**changed: float) -> room.Foretold.Worked:
    plain = {
        "last_rate": us(80, LB_AC),
        "last_spacing": us("7.5", IN),
        "last_distance": us("81.5", IN),
        "row_spacing": us("7.5", IN),
        "distance_per_turn": us("81.5", IN),
        "density_ratio": 1.0,
    }
    return room.foretell_rate(**{**plain, **changed})


def test_lighter_seed_gives_fewer_pounds_and_smaller_seed_more_seeds() -> None:
    """80 lb/ac of 60-lb seed is 76 of 57-lb seed; 12,500 and 15,000 a pound: 1.00 to 1.14 million.

    That drills meter by volume: North Dakota State University, AE-1144. The sums are by hand.
    """
    ratio = room.room_by_test_weight(
        last_test_weight=us(60, LB / BU), test_weight=us(57, LB / BU), weighed_within=0.05
    )
    told = foretell(density_ratio=ratio.density_ratio)
    assert told.foretold_rate == pytest.approx(us(76, LB_AC))
    assert told.weight_change == pytest.approx(-0.05)
    seeds = room.foretell_seeds(
        last_rate=us(80, LB_AC),
        foretold_rate=told.foretold_rate,
        last_seed_size=us(12_500, PER_LB),
        seeds_per_weight=us(15_000, PER_LB),
    )
    assert isinstance(seeds, room.Seeds.FewerPounds)
    assert seeds.last_seeds == pytest.approx(us(1_000_000, 1 / AC))
    assert seeds.foretold_seeds == pytest.approx(us(1_140_000, 1 / AC))


@pytest.mark.parametrize(
    ("rate", "size", "outcome"),
    [
        (0.95, 1.2, "FewerPounds"),
        (1.05, 0.8, "MorePounds"),
        (0.95, 0.8, "Together"),
        (0.95, 1.04, "Together"),  # 0.95 x 1.04 = 0.988: both fall
        (1.05, 1.2, "Together"),
        (1.0, 1.2, "Together"),
    ],
)
def test_only_opposite_ways_are_called_so(rate: float, size: float, outcome: str) -> None:
    seeds = room.foretell_seeds(
        last_rate=1.0, foretold_rate=rate, last_seed_size=100.0, seeds_per_weight=100 * size
    )
    assert type(seeds).__name__ == outcome


@pytest.mark.parametrize(
    ("weights", "ratio"), [((2.1, 2.0), 2.0 / 2.1), ((1.0, 1.0), 1.0), ((0.5, 0.6), 1.2)]
)
def test_two_level_tubs_give_their_ratio(weights: tuple[float, ...], ratio: float) -> None:
    told = room_of(weights)
    assert isinstance(told, room.Room.Worked)
    assert astuple(told) == pytest.approx((ratio, 0.05))


@pytest.mark.parametrize("weights", [(), (2.0,), (2.0, 2.0, 2.0), (0.0, 2.0), (2.0, 0.0)])
def test_anything_but_two_weights_is_asked_again(weights: tuple[float, ...]) -> None:
    assert room_of(weights) == room.NotTwo()


@pytest.mark.parametrize(
    ("weights", "odd"),
    [((2.0, 1.0), False), ((2.0, 0.9), True), ((1.0, 2.0), False), ((1.0, 2.1), True)],
)
def test_weights_too_far_apart_for_seed_are_a_slip(
    weights: tuple[float, ...], *, odd: bool
) -> None:
    assert isinstance(room_of(weights), room.Odd) is odd


def test_other_crops_go_by_their_trade_bushels_and_less_surely() -> None:
    """Oats 32 and wheat 60 pounds: University of Missouri G4020."""
    told = room.room_by_trade(
        last_crop_weight=us(60, LB / BU), crop_weight=us(32, LB / BU), by_crop_within=0.2
    )
    assert astuple(told) == pytest.approx((32 / 60, 0.2))


def test_a_spacing_or_a_wheel_that_changed_is_taken_along() -> None:
    """The same room on less ground is a higher rate: 80 x 7.5 / 6 = 100; 80 x 81.5 / 80 = 81.5."""
    assert foretell(row_spacing=us(6, IN)).foretold_rate == pytest.approx(us(100, LB_AC))
    assert foretell(distance_per_turn=us(80, IN)).foretold_rate == pytest.approx(us("81.5", LB_AC))


@pytest.mark.parametrize(
    ("last", "foretold_rate", "wanted", "start"),
    [
        (20.0, "118.381", "102.612", 17.5),  # 17.34
        (14.0, "80", "80", 14.0),
        (14.0, "14", "40", 40.0),  # just as wide as it goes
    ],
)
def test_the_first_opening_is_in_proportion_on_the_ruler_and_inside(
    last: float, foretold_rate: str, wanted: str, start: float
) -> None:
    told = room.foretell_opening(
        last_opening=last / 1000,
        foretold_rate=us(foretold_rate, LB_AC),
        bulk_rate=us(wanted, LB_AC),
        opening_step=0.0005,
        widest_opening=0.04,
        narrowest_opening=0.003,
    )
    assert isinstance(told, room.FirstOpening.Worked)
    assert told.foretold_opening == pytest.approx(start / 1000)


@pytest.mark.parametrize(
    ("foretold_rate", "needed", "end"), [("8", 140.0, 40.0), ("800", 1.5, 3.0)]
)
def test_an_opening_out_of_reach_is_told_with_the_end_of_the_range(
    foretold_rate: str, needed: float, end: float
) -> None:
    told = room.foretell_opening(
        last_opening=0.014,
        foretold_rate=us(foretold_rate, LB_AC),
        bulk_rate=us("80", LB_AC),
        opening_step=0.0005,
        widest_opening=0.04,
        narrowest_opening=0.003,
    )
    assert isinstance(told, room.FirstOpening.OutOfReach)
    assert astuple(told) == pytest.approx((end / 1000, needed / 1000))


def test_a_mark_stays_and_is_told_how_far_off_it_should_be() -> None:
    told = room.foretell_mark(
        last_mark=5.0, last_range="low", foretold_rate=us(81, LB_AC), bulk_rate=us(90, LB_AC)
    )
    assert (told.start_mark, told.start_range) == (5.0, "low")
    assert told.foretold_off == pytest.approx(-0.1)


def test_the_other_half_moves_by_the_same_share() -> None:
    """15 x 17.5 / 14 = 18.75, nearest half millimetre 19."""
    told = room.opening_by_same_share(
        last_other_opening=0.015, last_opening=0.014, final_opening=0.0175, opening_step=0.0005
    )
    assert told.other_opening == pytest.approx(0.019)


@pytest.mark.parametrize(
    ("crop", "last", "same"),
    [("wheat", "wheat", True), ("Wheat", "wheat", True), ("oats", "wheat", False)],
)
def test_a_crop_is_the_same_whatever_its_capitals(crop: str, last: str, *, same: bool) -> None:
    assert isinstance(room.same_crop(crop=crop, last_crop=last), room.Same) is same


@given(last=POSITIVE, ratio=POSITIVE, spacing=POSITIVE, distance=POSITIVE)
def test_the_room_of_one_turn_and_row_never_changes(
    last: float, ratio: float, spacing: float, distance: float
) -> None:
    """By fractions: rate x spacing x distance / density before and after."""
    told = room.foretell_rate(
        last_rate=last,
        last_spacing=0.19,
        last_distance=2.0,
        row_spacing=spacing,
        distance_per_turn=distance,
        density_ratio=ratio,
    )
    before = Fraction(last) * Fraction(0.19) * Fraction(2)
    after = Fraction(told.foretold_rate) * Fraction(spacing) * Fraction(distance) / Fraction(ratio)
    assert float(after / before) == pytest.approx(1)


@pytest.mark.parametrize(
    ("opening", "caught", "near"),
    [
        (14.0, 0.30, True),
        (14.0, 0.33, True),  # just a tenth over is still near
        (14.0, 0.27, True),
        (14.0, 0.334, False),
        (14.0, 0.266, False),
        (28.0, 0.60, True),  # in proportion to the opening
        (28.0, 0.30, False),
    ],
)
def test_a_catch_far_from_what_was_foretold_asks_for_the_full_job(
    opening: float, caught: float, *, near: bool
) -> None:
    told = foretold.opening_as_foretold(
        trials=at_openings((opening, caught)),
        tare=0.0,
        catch_step=0.0,
        ground_covered=30.0,
        foretold_rate=0.01,
        last_opening=0.014,
        full_job_over=0.1,
    )
    assert isinstance(told, foretold.Near) is near
    if isinstance(told, foretold.Far):
        assert told.foretold_miss == pytest.approx(caught / (0.3 * opening / 14) - 1)


@pytest.mark.parametrize(("mark", "near"), [(5.0, False), (6.0, True)])
def test_only_at_the_old_mark_something_was_foretold(mark: float, *, near: bool) -> None:
    told = foretold.mark_as_foretold(
        trials=at_marks((mark, 0.2)),
        tare=0.0,
        catch_step=0.0,
        ground_covered=30.0,
        foretold_rate=0.01,
        last_mark=5.0,
        full_job_over=0.1,
    )
    assert isinstance(told, foretold.Near) is near
