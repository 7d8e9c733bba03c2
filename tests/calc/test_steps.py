"""Drives in steps: the two nearest sprockets with their misses."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import steps

EXACT = 1e-9
RATES = {"caught_rate": 0.0080, "bulk_rate": 0.0090}


def test_the_two_nearest_ratios_and_what_each_misses_by() -> None:
    # At ratio 1 it gives 80 for 90: 1.125 is wanted. 1.0 is 11.1 light, 1.2 is 6.7 heavy.
    found = steps.nearest_sprockets(
        sprocket_ratios=(1.5, 0.8, 1.2, 1.0), present_ratio=1.0, **RATES
    )
    assert isinstance(found, steps.Sprockets.Between)
    assert (found.light_ratio, found.heavy_ratio) == (1.0, 1.2)
    assert found.light_off == pytest.approx(-1 / 9, rel=EXACT)
    assert found.heavy_off == pytest.approx(1 / 15, rel=EXACT)


@pytest.mark.parametrize(
    ("ratios", "outcome"),
    [
        ((1.0, 1.125), steps.Sprockets.Meets),
        ((1.2, 1.5), steps.Sprockets.AllHeavy),
        ((0.8, 1.0), steps.Sprockets.AllLight),
        ((1.0,), steps.Sprockets.AllLight),
    ],
)
def test_a_target_on_a_step_or_past_the_last(ratios: tuple[float, ...], outcome: type) -> None:
    found = steps.nearest_sprockets(sprocket_ratios=ratios, present_ratio=1.0, **RATES)
    assert type(found) is outcome


@given(
    st.lists(st.fractions(Fraction(1, 4), 4, max_denominator=60), min_size=2, max_size=12),
    st.fractions(Fraction(1, 4), 4, max_denominator=60),
)
def test_second_opinion_on_the_nearest_two(ratios: list[Fraction], wanted: Fraction) -> None:
    found = steps.nearest_sprockets(
        sprocket_ratios=tuple(map(float, ratios)),
        present_ratio=float(wanted),
        caught_rate=0.009,
        bulk_rate=0.009,
    )
    below, above = [r for r in ratios if r < wanted], [r for r in ratios if r > wanted]
    if wanted in ratios:
        assert isinstance(found, steps.Sprockets.Meets)
    elif below and above:
        assert isinstance(found, steps.Sprockets.Between)
        assert found.light_ratio == float(max(below))
        assert found.heavy_ratio == float(min(above))
        assert found.light_off == pytest.approx(float(max(below) / wanted - 1), rel=1e-6)
        assert found.heavy_off == pytest.approx(float(min(above) / wanted - 1), rel=1e-6)
    else:
        assert isinstance(found, steps.Sprockets.AllLight if below else steps.Sprockets.AllHeavy)
