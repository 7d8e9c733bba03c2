"""From the target to the seed to drop: worked by hand in US units, and a second opinion."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import bushels, live_seed, target
from tests.calc.us import AC, BU, FT, HA, IN, LB, LB_AC, PER_FT2, PER_LB, us

EXACT = 1e-12
NUMBERS = st.integers(1, 1_000_000).map(lambda number: Fraction(number, 1000))
SHARES = st.integers(1, 1000).map(lambda number: Fraction(number, 1000))


def test_a_target_as_told_stays_what_it_is() -> None:
    assert target.rate_as_told(target_weight=0.009).bulk_rate == 0.009
    assert target.seeds_as_told(target_seeds=320.0).seeds_per_area == 320.0
    assert target.plants_as_told(target_plants=280.0).plants_per_area == 280.0


@pytest.mark.parametrize(
    ("per_foot", "spacing", "per_square_foot"),
    [("18", "7.5", "28.8"), ("15", "6", "30"), ("5", "15", "4"), ("1", "12", "1")],
)
def test_seeds_and_plants_along_a_row_against_those_on_a_square_foot(
    per_foot: str, spacing: str, per_square_foot: str
) -> None:
    row_spacing = us(spacing, IN)
    along, on_area = us(per_foot, 1 / FT), us(per_square_foot, PER_FT2)
    seeds = target.row_seeds_to_area(target_row_seeds=along, row_spacing=row_spacing)
    plants = target.row_plants_to_area(target_row_plants=along, row_spacing=row_spacing)
    seeds_along = target.seeds_on_the_row(seeds_per_area=on_area, row_spacing=row_spacing)
    plants_along = target.plants_on_the_row(plants_per_area=on_area, row_spacing=row_spacing)
    assert seeds.seeds_per_area == pytest.approx(on_area, rel=EXACT)
    assert plants.plants_per_area == pytest.approx(on_area, rel=EXACT)
    assert seeds_along.seeds_per_row_length == pytest.approx(along, rel=EXACT)
    assert plants_along.plants_per_row_length == pytest.approx(along, rel=EXACT)


def test_plants_to_seeds_takes_both_shares_once() -> None:
    # 100 seeds, 92 germinate, 85 of 100 of those come up: 78.2 plants.
    wanted = target.seeds_for_plants(plants_per_area=78.2, germination=0.92, emergence=0.85)
    assert wanted.seeds_per_area == pytest.approx(100.0, rel=EXACT)


def test_a_metric_grain_target_worked_by_hand() -> None:
    # 300 plants/m2, 44 g, germination 94 %, emergence 85 %: 165 kg/ha; without germination 155.
    wanted = target.seeds_for_plants(plants_per_area=300.0, germination=0.94, emergence=0.85)
    rate = target.rate_from_seeds(
        seeds_per_area=wanted.seeds_per_area, seeds_per_weight=1000 / 0.044
    )
    assert rate.bulk_rate * float(HA) == pytest.approx(165.2, abs=0.05)


@pytest.mark.parametrize(
    ("per_square_foot", "per_pound", "pounds_per_acre"),
    [("30", "12000", "108.9"), ("35", "10000", "152.46"), ("28", "12500", "97.5744")],
)
def test_seeds_to_pounds_and_back(
    per_square_foot: str, per_pound: str, pounds_per_acre: str
) -> None:
    seeds, size = us(per_square_foot, PER_FT2), us(per_pound, PER_LB)
    rate = target.rate_from_seeds(seeds_per_area=seeds, seeds_per_weight=size)
    assert rate.bulk_rate == pytest.approx(us(pounds_per_acre, LB_AC), rel=EXACT)
    back = target.seeds_from_rate(bulk_rate=rate.bulk_rate, seeds_per_weight=size)
    assert back.seeds_per_area == pytest.approx(seeds, rel=EXACT)


def test_chaff_adds_to_the_pounds_when_seeds_were_counted_pure() -> None:
    pure = target.rate_from_pure_seeds(seeds_per_area=320.0, seeds_per_weight=32_000.0, purity=0.8)
    assert pure.bulk_rate == pytest.approx(0.0125, rel=EXACT)


@pytest.mark.parametrize(
    ("purity", "outcome"),
    [(1.0, target.Clean), (0.97, target.Clean), (0.9699, target.Low), (0.5, target.Low)],
)
def test_low_purity_starts_just_under_its_limit(purity: float, outcome: type) -> None:
    assert isinstance(target.purity_matters(purity=purity, purity_low=0.97), outcome)


@pytest.mark.parametrize(
    ("purity", "germination", "hard_seed", "share"),
    [(0.85, 0.75, 0.0, 0.6375), (0.96, 0.8, 0.11, 0.8736), (1.0, 1.0, 0.0, 1.0)],
)
def test_live_share_and_its_inverse(
    purity: float, germination: float, hard_seed: float, share: float
) -> None:
    found = live_seed.live_share(purity=purity, germination=germination, hard_seed=hard_seed)
    assert isinstance(found, live_seed.LiveShare.Worked)
    assert found.live_seed_share == pytest.approx(share, rel=EXACT)
    assert found.bulk_per_live_seed == pytest.approx(1 / share, rel=EXACT)


@pytest.mark.parametrize(
    ("purity", "germination", "hard_seed", "outcome"),
    [
        (0.96, 0.95, 0.06, live_seed.Over_100),
        (0.96, 0.9, 0.1, live_seed.LiveShare.Worked),
        (0.96, 0.7, 0.2 + 0.1, live_seed.LiveShare.Worked),
        (0.96, 0.0, 0.0, live_seed.NothingLive),
        (0.0, 0.9, 0.0, live_seed.NothingLive),
        (0.96, 0.0, 0.9, live_seed.LiveShare.Worked),
    ],
)
def test_a_tag_that_cannot_be_right_has_its_own_outcome(
    purity: float, germination: float, hard_seed: float, outcome: type
) -> None:
    found = live_seed.live_share(purity=purity, germination=germination, hard_seed=hard_seed)
    assert isinstance(found, outcome)


def test_pure_live_seed_by_weight_and_by_count() -> None:
    by_weight = target.rate_from_live_weight(target_live_weight=0.001, bulk_per_live_seed=1.25)
    assert by_weight.bulk_rate == pytest.approx(0.00125, rel=EXACT)
    by_count = live_seed.rate_from_live_seeds(
        target_live_seeds=400.0, bulk_per_live_seed=1.25, seeds_per_weight=500_000.0
    )
    assert by_count.seeds_per_area == pytest.approx(500.0, rel=EXACT)
    assert by_count.bulk_rate == pytest.approx(0.001, rel=EXACT)


@pytest.mark.parametrize(
    ("bushels_per_acre", "bushel", "pounds"),
    [("2", "38", "76"), ("2", "32", "64"), ("1.5", "60", "90")],
)
def test_bushels_to_pounds(bushels_per_acre: str, bushel: str, pounds: str) -> None:
    # The trade bushels, oats 32 and wheat 60 pounds: Ohio State University Extension AGF-503.
    rate = target.rate_from_bushels(
        target_bushels=us(bushels_per_acre, BU / AC), bushel_weight=us(bushel, LB / BU)
    )
    assert rate.bulk_rate == pytest.approx(us(pounds, LB_AC), rel=EXACT)


@pytest.mark.parametrize(
    ("lot", "trade", "outcome"),
    [
        ("38", "32", bushels.Different),
        ("32", "32", bushels.Same),
        ("60.6", "60", bushels.Same),
        ("59.4", "60", bushels.Same),
        ("60.7", "60", bushels.Different),
        ("59.3", "60", bushels.Different),
    ],
)
def test_two_bushels_are_the_same_within_one_in_a_hundred(
    lot: str, trade: str, outcome: type
) -> None:
    found = bushels.compare_bushels(
        target_bushels=us("2", BU / AC),
        test_weight=us(lot, LB / BU),
        trade_bushel=us(trade, LB / BU),
        bushel_agreement=0.01,
    )
    assert isinstance(found, outcome)
    assert found.rate_by_test_weight == pytest.approx(2 * us(lot, LB_AC), rel=EXACT)
    assert found.rate_by_trade_bushel == pytest.approx(2 * us(trade, LB_AC), rel=EXACT)


# -- a second opinion in exact fractions, from pounds, feet and acres ---------------------------


@given(plants=NUMBERS, germination=SHARES, emergence=SHARES, size=NUMBERS)
def test_second_opinion_on_plants_to_pounds(
    plants: Fraction, germination: Fraction, emergence: Fraction, size: Fraction
) -> None:
    """One acre: its plants, then its seeds, then its pounds."""
    plants_on_an_acre = plants * 43_560
    seeds_on_an_acre = plants_on_an_acre / germination / emergence
    pounds = seeds_on_an_acre / size
    seeds = target.seeds_for_plants(
        plants_per_area=us(str(plants), PER_FT2),
        germination=float(germination),
        emergence=float(emergence),
    ).seeds_per_area
    rate = target.rate_from_seeds(
        seeds_per_area=seeds, seeds_per_weight=us(str(size), PER_LB)
    ).bulk_rate
    assert seeds == pytest.approx(float(seeds_on_an_acre / AC), rel=EXACT)
    assert rate == pytest.approx(float(pounds * LB / AC), rel=EXACT)
    back = target.seeds_from_rate(bulk_rate=rate, seeds_per_weight=us(str(size), PER_LB))
    assert back.seeds_per_area == pytest.approx(seeds, rel=EXACT)


@given(per_foot=NUMBERS, spacing=NUMBERS)
def test_second_opinion_on_rows(per_foot: Fraction, spacing: Fraction) -> None:
    """A square foot holds 12 / spacing (in) feet of row."""
    on_square_foot = per_foot * 12 / spacing
    found = target.row_seeds_to_area(
        target_row_seeds=us(str(per_foot), 1 / FT), row_spacing=us(str(spacing), IN)
    )
    assert found.seeds_per_area == pytest.approx(us(str(on_square_foot), PER_FT2), rel=EXACT)


# -- what doubling does -----------------------------------------------------------------------


@given(st.floats(0.1, 1000.0), st.floats(0.1, 1000.0), st.floats(0.1, 0.9))
def test_doubling_an_input_does_what_the_formula_says(a: float, b: float, share: float) -> None:
    def seeds(plants: float, germination: float, emergence: float) -> float:
        return target.seeds_for_plants(
            plants_per_area=plants, germination=germination, emergence=emergence
        ).seeds_per_area

    once = seeds(a, share, share)
    assert seeds(2 * a, share, share) == pytest.approx(2 * once, rel=EXACT)
    assert seeds(a, share / 2, share) == pytest.approx(2 * once, rel=EXACT)
    assert seeds(a, share, share / 2) == pytest.approx(2 * once, rel=EXACT)

    def rate(seeds_per_area: float, size: float) -> float:
        return target.rate_from_seeds(
            seeds_per_area=seeds_per_area, seeds_per_weight=size
        ).bulk_rate

    assert rate(2 * a, b) == pytest.approx(2 * rate(a, b), rel=EXACT)
    assert rate(a, 2 * b) == pytest.approx(rate(a, b) / 2, rel=EXACT)

    def along(on_area: float, spacing: float) -> float:
        return target.seeds_on_the_row(
            seeds_per_area=on_area, row_spacing=spacing
        ).seeds_per_row_length

    assert along(2 * a, b) == along(a, 2 * b) == pytest.approx(2 * along(a, b), rel=EXACT)
