"""Seed mixes: shares, seeds of each species, sorting; and coating that is counted once."""

import random
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, stats

from assistant.calc import live_seed, mixes, plan, small_seed
from tests.calc.us import FT, IN, LB_AC, PER_LB, us

EXACT = 1e-9
OATS_PEAS_RADISH_CLOVER = tuple(us(pounds, LB_AC) for pounds in (30, 20, 3, 4))


def test_oats_peas_radish_and_clover_are_57_pounds() -> None:
    """30 + 20 + 3 + 4 lb/ac: 52.6, 35.1, 5.3 and 7.0 in 100 by weight."""
    found = mixes.mix_total(species_rates=OATS_PEAS_RADISH_CLOVER)
    assert isinstance(found, mixes.Mix.Worked)
    assert found.bulk_rate == pytest.approx(us(57, LB_AC), rel=EXACT)
    assert [round(100 * share, 1) for share in found.species_shares] == [52.6, 35.1, 5.3, 7.0]


def test_each_species_has_its_own_seeds_and_live_seeds() -> None:
    # 30 lb/ac x 14,000 / 43,560 = 9.64 a sq ft; 4 lb/ac x 230,000 / 43,560 = 21.12, live 18.38.
    found = mixes.mix_seeds(
        species_rates=(us(30, LB_AC), us(4, LB_AC)),
        species_seed_sizes=(us(14_000, PER_LB), us(230_000, PER_LB)),
        species_live_shares=(0.9, 0.87),
    )
    assert isinstance(found, mixes.MixSeeds.Worked)
    square_foot = float(FT * FT)
    assert found.species_seeds[0] * square_foot == pytest.approx(9.64, abs=0.005)
    assert found.species_seeds[1] * square_foot == pytest.approx(21.12, abs=0.005)
    assert found.species_live_seeds[1] * square_foot == pytest.approx(18.37, abs=0.01)


def test_pure_live_seed_of_each_species_is_its_own_sum() -> None:
    """10 lb PLS at 98 % x 85 % = 83.3 % is 12.0 lb out of the bag."""
    found = mixes.mix_from_live(
        species_live_rates=(us(10, LB_AC), us(2, LB_AC)), species_live_shares=(0.833, 0.5)
    )
    assert isinstance(found, mixes.MixBulk.Worked)
    assert found.species_rates[0] / float(LB_AC) == pytest.approx(12.0, abs=0.005)
    assert found.species_rates[1] / float(LB_AC) == pytest.approx(4.0, rel=EXACT)


def test_live_shares_are_purity_times_germination() -> None:
    found = mixes.mix_live_shares(species_purity=(0.98, 0.8), species_germination=(0.85, 0.625))
    assert isinstance(found, mixes.MixLive.Worked)
    assert found.species_live_shares == pytest.approx((0.833, 0.5), rel=EXACT)
    short = mixes.mix_live_shares(species_purity=(0.98, 0.8), species_germination=(0.85,))
    assert short == mixes.NotPaired()


def test_two_boxes_share_the_mix() -> None:
    """Radish and clover in the small box: 50 lb/ac and 7 lb/ac, 7 / 57 = 12.3 in 100."""
    found = mixes.two_boxes(species_rates=OATS_PEAS_RADISH_CLOVER, small_box_species=(3.0, 4.0))
    assert isinstance(found, mixes.Boxes.Worked)
    assert found.big_box_rate == pytest.approx(us(50, LB_AC), rel=EXACT)
    assert found.small_box_rate == pytest.approx(us(7, LB_AC), rel=EXACT)
    assert found.small_box_share == pytest.approx(7 / 57, rel=EXACT)


@pytest.mark.parametrize(
    ("places", "outcome"),
    [
        ((5.0,), mixes.Boxes.NoSuch),
        ((0.0,), mixes.Boxes.NoSuch),
        ((3.0, 3.0), mixes.Boxes.NoSuch),
        ((1.0, 2.0, 3.0, 4.0), mixes.Boxes.OneBox),
    ],
)
def test_places_that_no_two_boxes_have(places: tuple[float, ...], outcome: type) -> None:
    found = mixes.two_boxes(species_rates=OATS_PEAS_RADISH_CLOVER, small_box_species=places)
    assert isinstance(found, outcome)


def test_lists_of_unlike_length_are_not_paired() -> None:
    two, one = (0.003, 0.002), (0.9,)
    assert mixes.mix_from_live(species_live_rates=two, species_live_shares=one) == (
        mixes.NotPaired()
    )
    assert (
        mixes.mix_seeds(species_rates=two, species_seed_sizes=two, species_live_shares=one)
        == mixes.NotPaired()
    )


def test_a_single_species_is_a_mix_and_none_is_not() -> None:
    one = mixes.mix_from_live(species_live_rates=(0.003,), species_live_shares=(0.75,))
    assert not isinstance(one, mixes.NotPaired)
    none = mixes.mix_from_live(species_live_rates=(), species_live_shares=())
    assert isinstance(none, mixes.NotPaired)


def test_one_figure_is_no_mix() -> None:
    """It was one of 100 %, and then no kind was left for the other box."""
    assert mixes.mix_total(species_rates=(0.003,)) == mixes.Mix.OneKind()
    assert mixes.live_kinds(species_live_rates=(0.003,)) == mixes.Mix.OneKind()
    assert mixes.live_kinds(species_live_rates=(0.003, 0.002)) == mixes.Mix.Several()


@given(st.lists(st.integers(0, 10_000), min_size=2, max_size=9).filter(any))
def test_second_opinion_on_shares(parts: list[int]) -> None:
    found = mixes.mix_total(species_rates=tuple(map(float, parts)))
    assert isinstance(found, mixes.Mix.Worked)
    expected = [float(Fraction(part, sum(parts))) for part in parts]
    assert list(found.species_shares) == pytest.approx(expected, rel=EXACT)
    assert sum(found.species_shares) == pytest.approx(1, rel=EXACT)


@given(st.lists(st.integers(1, 999), min_size=2, max_size=6), st.integers(1, 300))
def test_second_opinion_on_parts_of_a_whole(parts: list[int], pounds: int) -> None:
    shares = tuple(float(Fraction(part, sum(parts))) for part in parts)
    found = mixes.mix_from_parts(species_parts=shares, mix_in_all=float(pounds), parts_within=0.02)
    assert isinstance(found, mixes.MixBulk.Worked)
    expected = [float(Fraction(part * pounds, sum(parts))) for part in parts]
    assert list(found.species_rates) == pytest.approx(expected, rel=EXACT)


def test_rounded_parts_make_the_whole_and_others_do_not() -> None:
    """A third each as 33 %: 50 lb/ac are still 50, in three like parts."""
    thirds = mixes.mix_from_parts(
        species_parts=(0.33, 0.33, 0.33), mix_in_all=us(50, LB_AC), parts_within=0.02
    )
    assert isinstance(thirds, mixes.MixBulk.Worked)
    assert thirds.species_rates == pytest.approx([us(50 / 3, LB_AC)] * 3, rel=EXACT)
    short = mixes.mix_from_parts(species_parts=(0.6, 0.3), mix_in_all=0.006, parts_within=0.02)
    assert isinstance(short, mixes.MixParts.NotAll)
    assert short.parts_in_all == pytest.approx(0.9)


# -- sorting ----------------------------------------------------------------------------------

SIZES = (33_000.0, 4_400.0, 500_000.0)
RULE = {"sorting_least": 0.2, "sorting_sure": 0.95, "seeds_least": 5.0, "one_seed": 1.0}


def sorting(first: tuple[float, ...], second: tuple[float, ...]) -> object:
    return mixes.mix_sorting(
        first_sample=first, second_sample=second, species_seed_sizes=SIZES, **RULE
    )


def test_small_seed_gone_halfway_is_sorting() -> None:
    found = sorting((0.050, 0.030, 0.004), (0.050, 0.030, 0.002))
    assert isinstance(found, mixes.Sorting.Sorted)
    assert found.most_moved == 3.0
    assert found.share_at_first == pytest.approx(4 / 84, rel=EXACT)
    assert found.share_then == pytest.approx(2 / 82, rel=EXACT)
    assert found.species_moved[2] == pytest.approx((2 / 82) / (4 / 84) - 1, rel=EXACT)


@pytest.mark.parametrize(
    ("second", "outcome"),
    [
        ((0.050, 0.030, 0.004), mixes.Sorting.AsMixed),
        ((0.025, 0.015, 0.002), mixes.Sorting.AsMixed),
        ((0.050, 0.030, 0.0035), mixes.Sorting.AsMixed),  # surely less, but by too little
        ((0.050, 0.024, 0.004), mixes.Sorting.AsMixed),  # a sixth less, but of few peas
        ((0.050, 0.0, 0.004), mixes.Sorting.Sorted),
        ((0.0, 0.0, 0.0), mixes.Sorting.TooSmall),
        ((0.050, 0.030), mixes.NotPaired),
    ],
)
def test_a_share_must_move_by_more_than_chance_and_enough_to_matter(
    second: tuple[float, ...], outcome: type
) -> None:
    assert type(sorting((0.050, 0.030, 0.004), second)) is outcome


def test_a_species_that_came_new_has_moved() -> None:
    found = sorting((0.050, 0.0, 0.004), (0.050, 0.030, 0.004))
    assert isinstance(found, mixes.Sorting.Sorted)
    assert found.most_moved == 2.0


def test_second_opinion_on_sorting() -> None:
    chance = random.Random(11)
    seen = 0
    for _ in range(300):
        first = tuple(chance.uniform(0.5, 1) * part for part in (0.05, 0.03, 0.004))
        second = tuple(chance.uniform(0.5, 1) * part for part in (0.05, 0.03, 0.004))
        counts = [[w * s for w, s in zip(each, SIZES, strict=True)] for each in (first, second)]
        apart = stats.chi2_contingency(counts, correction=False).pvalue < 0.05
        shares = [[w / sum(each) for w in each] for each in (first, second)]
        large = max(abs(n / o - 1) for o, n in zip(*shares, strict=True)) >= 0.2
        assert isinstance(sorting(first, second), mixes.Sorting.Sorted) == (apart and large)
        seen += bool(apart and large)
    assert 50 < seen < 280


@pytest.mark.parametrize("kinds", [2, 3, 5])
@pytest.mark.parametrize("sure", [0.95, 0.99])
def test_sorting_begins_at_the_limit_of_chi_square_with_a_degree_less_than_kinds(
    kinds: int, sure: float
) -> None:
    """A sample of like weights; in the next some of the first kind is gone, and a hair more."""
    first = (0.01,) * kinds

    def then(gone: float) -> tuple[float, ...]:
        return (0.01 - gone, *first[1:])

    def beyond(gone: float) -> float:
        counts = [[10_000 * weight for weight in each] for each in (first, then(gone))]
        found = stats.chi2_contingency(counts, correction=False)
        return float(found.statistic - stats.chi2.ppf(sure, kinds - 1))

    def judged(gone: float) -> object:
        rule = {**RULE, "sorting_least": 0.0, "sorting_sure": sure}
        sizes = (10_000.0,) * kinds
        return mixes.mix_sorting(
            first_sample=first, second_sample=then(gone), species_seed_sizes=sizes, **rule
        )

    limit = float(optimize.brentq(beyond, 1e-6, 0.0099))
    assert isinstance(judged(limit * 0.999), mixes.Sorting.AsMixed)
    assert isinstance(judged(limit * 1.001), mixes.Sorting.Sorted)


# -- small seed -------------------------------------------------------------------------------


def test_15_pounds_from_12_rows_over_200_feet_are_234_grams() -> None:
    ground = plan.ground(
        rows_caught=12.0, row_spacing=us("7.5", IN), turns=1.0, distance_per_turn=us(200, FT)
    ).ground_covered
    catch = plan.expected_catch(bulk_rate=us(15, LB_AC), ground_covered=ground, rows_caught=12.0)
    assert catch.target_catch * 1000 == pytest.approx(234.3, abs=0.05)


@pytest.mark.parametrize(
    ("rate", "step", "turns"),
    [
        # 200 ft / 81.5 in = 29.4 turns; a turn of 15 lb/ac drops 7.96 g.
        (15, "0.0001", 30.0),
        (15, "0.005", 63.0),
        (3, "0.001", 63.0),
    ],
)
def test_small_seed_takes_more_rows_and_more_ground(rate: int, step: str, turns: float) -> None:
    found = small_seed.propose_small_catch(
        bulk_rate=us(rate, LB_AC),
        row_spacing=us("7.5", IN),
        distance_per_turn=us("81.5", IN),
        scale_step=float(step),
        drive_rows=24.0,
        marks_wanted=100.0,
        small_rows_wanted=12.0,
        small_distance=us(200, FT),
        even_turns=1.0,
        tolerance=0.05,
        one_row=1.0,
        one_turn=1.0,
        turns_most=200.0,
    )
    assert (found.proposed_rows_caught, found.proposed_turns) == (12.0, turns)


def test_coating_is_taken_off_once_whichever_seed_was_counted() -> None:
    """Live seeds in a kg of the bag: 66 of 100 are seed, all of it pure, 90 of 100 of it live."""
    bare, purity, coating, germination = 480_000.0, 0.66, 0.34, 0.9
    by_bare = live_seed.live_share(purity=purity, germination=germination, hard_seed=0.0)
    assert isinstance(by_bare, live_seed.LiveShare.Worked)
    by_coated = small_seed.live_share_uncoated(
        live_seed_share=by_bare.live_seed_share, purity=purity, coating=coating
    )
    assert isinstance(by_coated, small_seed.Uncoated.Worked)
    assert by_coated.live_share_uncoated * by_coated.seeds_per_live_seed == pytest.approx(1)
    coated = small_seed.coated_seed_size(bare_seeds_per_weight=bare, coating=coating)
    one = bare * by_bare.live_seed_share
    other = coated.coated_seed_size * by_coated.live_share_uncoated
    assert one == pytest.approx(other, rel=EXACT)
    assert one == pytest.approx(480_000 * 0.66 * 0.9, rel=EXACT)
    twice = coated.coated_seed_size * by_bare.live_seed_share
    assert twice / one == pytest.approx(0.66, rel=EXACT)


def test_purity_and_coating_over_the_whole_bag_is_a_slip() -> None:
    found = small_seed.live_share_uncoated(live_seed_share=0.6, purity=0.7, coating=0.34)
    assert found == small_seed.Uncoated.Over_100()
    whole = small_seed.live_share_uncoated(live_seed_share=0.66, purity=0.66, coating=0.34)
    assert isinstance(whole, small_seed.Uncoated.Worked)
    assert whole.live_share_uncoated == pytest.approx(1.0, rel=EXACT)


def test_seed_as_small_as_clover_is_often_coated() -> None:
    """Clover has some 270,000 seeds a pound, canola 115,000. Common practice, no source."""
    for size, small in (("270000", True), ("150000", True), ("149999", False), ("115000", False)):
        found = small_seed.often_coated(
            seeds_per_weight=us(size, PER_LB), coated_from=us("150000", PER_LB)
        )
        assert isinstance(found, small_seed.Size.Small) is small
