"""Weigh-out over known ground, and seed that is counted where there is no scale."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import counting, weigh_out
from tests.calc.us import AC, FT, IN, LB, LB_AC, PER_LB, us

EXACT = 1e-12
NUMBERS = st.integers(1, 100_000).map(lambda number: Fraction(number, 100))


def test_1250_pounds_in_and_182_left_on_13_4_acres() -> None:
    """1,068 lb / 13.4 ac = 79.7 lb/ac."""
    found = weigh_out.weigh_out(
        seed_in=us(1250, LB), seed_left=us(182, LB), field_ground=us("13.4", AC)
    )
    assert isinstance(found, weigh_out.WeighOut.Worked)
    assert found.seed_used == pytest.approx(us(1068, LB), rel=EXACT)
    assert found.weigh_out_rate / float(LB_AC) == pytest.approx(79.7, abs=0.005)


@pytest.mark.parametrize("left", [1250, 1251])
def test_no_seed_used_is_no_rate(left: int) -> None:
    found = weigh_out.weigh_out(
        seed_in=us(1250, LB), seed_left=us(left, LB), field_ground=us(13, AC)
    )
    assert found == weigh_out.WeighOut.NothingUsed()


def test_bags_and_pounds_are_told_together() -> None:
    found = weigh_out.seed_in_bags(bags=24.0, bag_weight=us(50, LB), loose_seed=us(50, LB))
    assert found.seed_in == pytest.approx(us(1250, LB), rel=EXACT)


def test_a_50_pound_bag_at_15_pounds_does_3_3_acres() -> None:
    """University of Wisconsin Extension, as reported in Hay & Forage, for alfalfa."""
    found = weigh_out.ground_for_seed(seed_in=us(50, LB), bulk_rate=us(15, LB_AC))
    assert found.seed_ground / float(AC) == pytest.approx(3.33, abs=0.005)


def test_acres_as_driven_and_of_the_field_differ_by_the_overlap() -> None:
    # 15 ft x 38,914 ft = 13.4 ac driven; 6 in lie double: 14.5 / 15 of it is field.
    found = weigh_out.ground_by_distance(
        driven_distance=us("38913.6", FT), working_width=us(15, FT), overlap=us(6, IN)
    )
    assert isinstance(found, weigh_out.Seeded.Worked)
    assert found.seeded_ground == pytest.approx(us("13.4", AC), rel=EXACT)
    assert found.field_ground == pytest.approx(us("13.4", AC) * 14.5 / 15, rel=EXACT)
    wide = weigh_out.ground_by_distance(driven_distance=1.0, working_width=4.0, overlap=4.0)
    assert wide == weigh_out.Seeded.OverlapTooWide()


@given(start=NUMBERS, left=NUMBERS, acres=NUMBERS)
def test_second_opinion_on_a_weigh_out(start: Fraction, left: Fraction, acres: Fraction) -> None:
    found = weigh_out.weigh_out(
        seed_in=us(str(start), LB), seed_left=us(str(left), LB), field_ground=us(str(acres), AC)
    )
    if start <= left:
        assert isinstance(found, weigh_out.WeighOut.NothingUsed)
    else:
        assert isinstance(found, weigh_out.WeighOut.Worked)
        expected = float((start - left) / acres * LB_AC)
        assert found.weigh_out_rate == pytest.approx(expected, rel=1e-7)


def test_soybeans_counted_from_three_rows() -> None:
    # 3 rows x 15 in x 50 ft = 187.5 sq ft; 636 beans: 3.392 a sq ft, 4.24 a foot of row,
    # 147,756 an acre; at 2,800 a pound 52.8 lb/ac.
    ground = us(3, 15 * IN * 50 * FT)
    found = counting.counted_catch(
        seeds_caught=(212.0, 205.0, 219.0), ground_covered=ground, row_spacing=us(15, IN)
    )
    assert isinstance(found, counting.Counted.Worked)
    assert found.caught_seeds_per_area * float(AC) == pytest.approx(147_755.52, abs=0.01)
    assert found.caught_seeds_per_row * float(FT) == pytest.approx(4.24, rel=EXACT)
    rate = counting.rate_by_count(
        caught_seeds_per_area=found.caught_seeds_per_area, seeds_per_weight=us(2800, PER_LB)
    )
    assert rate.counted_rate / float(LB_AC) == pytest.approx(52.77, abs=0.005)


def test_no_seed_counted_is_no_rate() -> None:
    for seeds in ((), (0.0, 0.0)):
        found = counting.counted_catch(seeds_caught=seeds, ground_covered=17.0, row_spacing=0.38)
        assert found == counting.Counted.NoSeeds()


@given(st.lists(st.integers(1, 5000), min_size=1, max_size=24), NUMBERS, NUMBERS)
def test_second_opinion_on_a_count(seeds: list[int], ground: Fraction, size: Fraction) -> None:
    found = counting.counted_catch(
        seeds_caught=tuple(map(float, seeds)), ground_covered=float(ground), row_spacing=0.38
    )
    assert isinstance(found, counting.Counted.Worked)
    per_area = Fraction(sum(seeds)) / ground
    assert found.caught_seeds_per_area == pytest.approx(float(per_area), rel=EXACT)
    rate = counting.rate_by_count(
        caught_seeds_per_area=found.caught_seeds_per_area, seeds_per_weight=float(size)
    )
    assert rate.counted_rate == pytest.approx(float(per_area / size), rel=EXACT)


@pytest.mark.parametrize(
    ("rate", "outcome"),
    [
        (105.0, weigh_out.Against.Agrees),
        (95.0, weigh_out.Against.Agrees),
        (105.1, weigh_out.Against.More),
        (94.9, weigh_out.Against.Less),
    ],
)
def test_a_field_is_held_against_the_card_within_the_tolerance(rate: float, outcome: type) -> None:
    found = weigh_out.against_card(weigh_out_rate=rate, card_rate=100.0, tolerance=0.05)
    assert type(found) is outcome
    assert found.field_off == pytest.approx(rate / 100 - 1)
