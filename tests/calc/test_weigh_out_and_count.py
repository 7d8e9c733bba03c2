"""Weigh-out over known ground, and seed that is counted where there is no scale."""

import pytest

from assistant.calc import counting, weigh_out
from assistant.calc.catches import Scale, seed_caught
from assistant.calc.contract import Trial
from tests.calc.us import AC, FT, IN, LB, LB_AC, PER_LB, us

EXACT = 1e-12


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


def test_by_a_boundary_the_rows_dropped_29_of_30_parts_where_6_inches_of_15_feet_overlap() -> None:
    found = weigh_out.rows_gave(
        weigh_out_rate=us("79.7", LB_AC), card_rate=us(80, LB_AC), twice_per_swath=1 / 30
    )
    assert found.rows_rate / float(LB_AC) == pytest.approx(77.043, abs=0.0005)
    assert found.rows_off == pytest.approx(-0.03696, abs=0.000005)


def test_counts_by_row_are_let_differ_by_what_chance_does() -> None:
    # 1.96 / root 100 = 0.196: light under 0.75 x 0.804 = 0.603, heavy over 1.2 x 1.196 = 1.4352
    found = counting.counts_by_row(
        trials=counted(90.0, 110.0), catch_step=0.00016, plugged_under=0.75, hot_over=1.2, sure=0.95
    )
    assert found.counted_weights == pytest.approx((0.0144, 0.0176))
    assert found.counted_low == pytest.approx(0.603, abs=0.00005)
    assert found.counted_high == pytest.approx(1.4352, abs=0.00005)


def test_counts_of_hardly_a_seed_may_differ_by_all() -> None:
    found = counting.counts_by_row(
        trials=counted(1.0, 0.0), catch_step=0.00016, plugged_under=0.75, hot_over=1.2, sure=0.95
    )
    assert found.counted_low == 0


def counted(*seeds: float) -> tuple[Trial, ...]:
    return (Trial(opening=0.014, seeds_caught=seeds),)


def test_soybeans_counted_from_three_rows() -> None:
    # 3 rows x 15 in x 50 ft = 187.5 sq ft; 636 beans: 4.24 a foot of row. At 2,800 a pound one
    # bean is 1/2,800 lb; 636 of them 0.227 lb, on 187.5 / 43,560 ac 52.77 lb/ac.
    ground = us(3, 15 * IN * 50 * FT)
    found = counting.counted_catch(
        trials=counted(212.0, 205.0, 219.0),
        ground_covered=ground,
        row_spacing=us(15, IN),
        one_seed=1.0,
    )
    assert found.caught_seeds_per_row * float(FT) == pytest.approx(4.24, rel=EXACT)
    by_count = counting.count_for_scale(seeds_per_weight=us(2800, PER_LB), one_seed=1.0, no_tub=0.0)
    assert by_count.tare == 0
    seed = seed_caught(counted(212.0, 205.0, 219.0)[0], Scale(0.0, by_count.catch_step))
    assert seed / float(LB) == pytest.approx(636 / 2800, rel=EXACT)
    assert seed / ground / float(LB_AC) == pytest.approx(52.77, abs=0.005)


def test_the_ground_of_a_count_is_that_of_its_rows_so_what_was_weighed_is_refused() -> None:
    with pytest.raises(ValueError, match="Trial"):
        counting.counted_catch(
            trials=(Trial(opening=0.014, catch_weight=0.3),),
            ground_covered=17.0,
            row_spacing=0.38,
            one_seed=1.0,
        )


@pytest.mark.parametrize(
    ("seeds", "outcome"),
    [
        ((270.0, 280.0, 275.0, 271.0), counting.RowsCounted.EachRow()),
        ((1096.0,), counting.RowsCounted.InAll()),
        ((270.0, 280.0, 275.0), counting.RowsCounted.OtherNumber(3.0)),
        ((270.0,) * 5, counting.RowsCounted.OtherNumber(5.0)),
    ],
)
def test_a_row_left_out_of_a_count_is_seen(seeds: tuple[float, ...], outcome: object) -> None:
    found = counting.rows_counted(trials=counted(*seeds), rows_caught=4.0, one_row=1.0)
    assert found == outcome


PLANNED: dict[str, float] = {
    "row_spacing": us(15, IN),
    "distance_per_turn": us(82, IN),
    "rows_to_count": 4.0,
    "seeds_to_count": 400.0,
    "turns_to_count": 10.0,
    "turns_most": 200.0,
    "one_turn": 1.0,
}


@pytest.mark.parametrize(
    ("pounds", "per_pound", "drive_rows", "rows", "turns"),
    [
        # 4 x 15 x 82 in a turn = 34.167 sq ft = 0.000784359 ac
        (50, 2800, 12, 4, 10),  # 109.8 a turn: four do, but ten turns are the least
        (5, 2800, 12, 4, 37),  # 10.98 a turn: 36.4
        (50, 2800, 3, 3, 10),  # no more rows than the wheel turns
        (1, 1000, 12, 4, 200),  # 0.78 a turn: 510, more than the most
    ],
)
def test_a_count_is_planned_by_hand(
    pounds: int, per_pound: int, drive_rows: int, rows: int, turns: int
) -> None:
    found = counting.propose_count(
        bulk_rate=us(pounds, LB_AC),
        catch_step=float(LB) / per_pound,
        drive_rows=float(drive_rows),
        **PLANNED,
    )
    assert (found.proposed_rows_caught, found.proposed_turns) == (rows, turns)


def test_an_expected_count_is_seeds_in_all_and_in_each_row() -> None:
    # 0.39218 lb at 2,800 a pound = 1,098.1; a quarter of it 274.5; 5 % either way 1,043.2, 1,153.0
    found = counting.expected_count(
        target_catch=us("0.39218", LB),
        catch_step=float(LB) / 2800,
        rows_caught=4.0,
        one_row=1.0,
        tolerance=0.05,
    )
    assert found.expected_seeds == pytest.approx(1098.104, rel=EXACT)
    assert found.expected_row_seeds == pytest.approx(274.526, rel=EXACT)
    assert found.count_low == pytest.approx(1043.1988, rel=EXACT)
    assert found.count_high == pytest.approx(1153.0092, rel=EXACT)


@pytest.mark.parametrize(
    ("seeds", "turns", "outcome"),
    [
        (200.0, 10.0, counting.Enough),
        (199.0, 10.0, counting.FewSeeds),
        (199.0, 5.0, counting.FewSeeds),
        (3000.0, 10.0, counting.Enough),
        (3001.0, 5.0, counting.TooMany),
        (1000.0, 9.0, counting.FewTurns),
    ],
)
def test_a_count_is_enough_and_not_too_much(seeds: float, turns: float, outcome: type) -> None:
    found = counting.enough_to_count(
        expected_seeds=seeds, turns=turns, turns_to_count=10.0, count_least=200.0, count_most=3000.0
    )
    assert type(found) is outcome


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
