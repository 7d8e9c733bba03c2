"""Coating in a mix is taken off once, whichever seed was counted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import mix_coating, mixes, small_seed
from tests.calc.us import FT, LB_AC, PER_LB, us

EXACT = 1e-9
RATES = (us(30, LB_AC), us(4, LB_AC))
PURITY, LIVE, COATING = (0.98, 0.65), (0.882, 0.585), (0.0, 0.34)


def counted(sizes: tuple[float, ...], live: tuple[float, ...]) -> mixes.MixSeeds.Worked:
    found = mixes.mix_seeds(species_rates=RATES, species_seed_sizes=sizes, species_live_shares=live)
    assert isinstance(found, mixes.MixSeeds.Worked)
    return found


def uncoated(
    live: tuple[float, ...], purity: tuple[float, ...], coating: tuple[float, ...]
) -> tuple[float, ...]:
    found = mix_coating.mix_live_uncoated(
        species_live_shares=live, species_purity=purity, species_coating=coating
    )
    assert isinstance(found, mix_coating.MixUncoated.Worked)
    return found.species_live_uncoated


def in_bag(sizes: tuple[float, ...], coating: tuple[float, ...]) -> tuple[float, ...]:
    found = mix_coating.mix_coated_sizes(bare_seed_sizes=sizes, species_coating=coating)
    assert isinstance(found, mix_coating.MixSizes.Worked)
    return found.coated_seed_sizes


def test_oats_beside_clover_with_a_third_of_coating() -> None:
    """4 lb/ac at 180,000 in the bag: 16.529 a sq ft; 0.65 x 0.90 / 0.66 = 0.88636 live: 14.651."""
    found = counted((us(14_000, PER_LB), us(180_000, PER_LB)), uncoated(LIVE, PURITY, COATING))
    square_foot = float(FT * FT)
    assert found.species_seeds[1] * square_foot == pytest.approx(16.529, abs=0.0005)
    assert found.species_live_seeds[1] * square_foot == pytest.approx(14.651, abs=0.0005)
    assert found.species_live_seeds[0] * square_foot == pytest.approx(8.504, abs=0.0005)


@given(
    coating=st.floats(0.01, 0.9),
    clean=st.floats(0.1, 1),
    germination=st.floats(0.05, 1),
    bare=st.floats(1e3, 1e7),
)
def test_bag_and_bare_counts_of_one_lot_come_to_the_same(
    coating: float, clean: float, germination: float, bare: float
) -> None:
    """Of a bag all but the coating is seed and chaff, of which `clean` is pure."""
    purity = (0.98, (1 - coating) * clean)
    live, coated = (0.882, purity[1] * germination), (0.0, coating)
    sizes = (30_000.0, bare)
    found = counted(in_bag(sizes, coated), uncoated(live, purity, coated))
    of_bare = counted(sizes, live)
    assert found.species_live_seeds == pytest.approx(of_bare.species_live_seeds, rel=EXACT)
    assert found.mixed_seed_sizes == pytest.approx((30_000, bare * (1 - coating)), rel=EXACT)
    assert found.species_seeds[1] == pytest.approx(
        of_bare.species_seeds[1] * (1 - coating), rel=EXACT
    )
    twice = counted(in_bag(sizes, coated), live)
    assert twice.species_live_seeds[1] < of_bare.species_live_seeds[1]


def test_each_kind_needs_its_figures_and_no_bag_holds_more_than_itself() -> None:
    def of(coating: tuple[float, ...]) -> object:
        return mix_coating.mix_live_uncoated(
            species_live_shares=LIVE, species_purity=PURITY, species_coating=coating
        )

    assert of((0.34,)) == mixes.NotPaired()
    assert of((0.0, 0.0)) == mix_coating.MixUncoated.AllBare()
    assert of((0.0, 0.36)) == mix_coating.MixUncoated.Over_100()
    assert of((0.03, 0.34)) == mix_coating.MixUncoated.Over_100()
    short = mix_coating.mix_coated_sizes(bare_seed_sizes=(1.0, 2.0), species_coating=(0.1,))
    assert short == mixes.NotPaired()


def test_one_small_kind_is_enough_to_ask_for_coating() -> None:
    """Clover has some 270,000 seeds a pound, oats 14,000. Common practice, no source."""
    oats, clover, limit = us(14_000, PER_LB), us(270_000, PER_LB), us(150_000, PER_LB)
    small = mix_coating.kinds_often_coated(species_seed_sizes=(oats, clover), coated_from=limit)
    assert isinstance(small, small_seed.Size.Small)
    large = mix_coating.kinds_often_coated(species_seed_sizes=(oats, oats), coated_from=limit)
    assert isinstance(large, small_seed.Size.Large)
