"""A double run: the two nearest sprockets by their teeth, and what each misses by."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assistant.calc.double_run import Taken, Teeth, nearest_teeth, teeth_taken

EXACT = 1e-9
TEETH = st.integers(8, 60)
RATES = st.floats(0.002, 0.05)


def test_more_teeth_on_the_driver_give_more() -> None:
    # 15 teeth bring 86 for 114: 19.884 wanted. 18 is 9.47 light, 20 is 0.58 heavy.
    found = nearest_teeth(
        teeth_offered=(15.0, 18.0, 20.0, 24.0),
        teeth=15.0,
        swapped_sprocket="driver",
        caught_rate=0.0086,
        bulk_rate=0.0114,
    )
    assert isinstance(found, Teeth.Between)
    assert (found.lighter_teeth, found.heavier_teeth) == (18.0, 20.0)
    assert found.lighter_off == pytest.approx(18 * 86 / (15 * 114) - 1, rel=EXACT)
    assert found.heavier_off == pytest.approx(20 * 86 / (15 * 114) - 1, rel=EXACT)


def test_more_teeth_on_the_driven_one_give_less() -> None:
    # 24 teeth bring 70 for 108: 15.56 wanted, so 18 is light, and it is the nearest on offer.
    found = nearest_teeth(
        teeth_offered=(18.0, 20.0),
        teeth=24.0,
        swapped_sprocket="driven",
        caught_rate=0.0070,
        bulk_rate=0.0108,
    )
    assert isinstance(found, Teeth.OneSide)
    assert found.next_teeth == pytest.approx(18.0, rel=EXACT)
    assert found.next_off == pytest.approx(24 * 70 / (18 * 108) - 1, rel=EXACT)


def test_the_nearest_of_all_that_are_light_may_be_in_already() -> None:
    found = nearest_teeth(
        teeth_offered=(18.0, 20.0),
        teeth=18.0,
        swapped_sprocket="driven",
        caught_rate=0.0095,
        bulk_rate=0.0108,
    )
    assert isinstance(found, Teeth.AsNear)


def test_one_may_bring_just_the_target() -> None:
    found = nearest_teeth(
        teeth_offered=(20.0, 30.0),
        teeth=15.0,
        swapped_sprocket="driver",
        caught_rate=0.006,
        bulk_rate=0.008,
    )
    assert isinstance(found, Teeth.Meets)
    assert found.next_teeth == pytest.approx(20.0, rel=EXACT)


@given(
    offered=st.lists(TEETH, min_size=1, max_size=8),
    teeth=TEETH,
    swapped=st.sampled_from(("driver", "driven")),
    caught=RATES,
    wanted=RATES,
)
def test_no_sprocket_lies_between_the_two(
    offered: list[int], teeth: int, swapped: str, caught: float, wanted: float
) -> None:
    """By trying each sprocket in turn: what it would drop, and how far that is off."""
    found = nearest_teeth(
        teeth_offered=tuple(map(float, offered)),
        teeth=float(teeth),
        swapped_sprocket=swapped,
        caught_rate=caught,
        bulk_rate=wanted,
    )
    faster = {each: each / teeth if swapped == "driver" else teeth / each for each in offered}
    off = {each: caught * times / wanted - 1 for each, times in [*faster.items(), (teeth, 1.0)]}
    assume(all(abs(each) > 1e-6 for each in off.values()))
    light, heavy = ([o for o in off.values() if (o > 0) is side] for side in (False, True))
    if isinstance(found, Teeth.Between):
        assert found.lighter_off == pytest.approx(max(light), rel=1e-6)
        assert found.heavier_off == pytest.approx(min(heavy), rel=1e-6)
        assert off[round(found.lighter_teeth)] == pytest.approx(max(light), rel=1e-6)
        assert off[round(found.heavier_teeth)] == pytest.approx(min(heavy), rel=1e-6)
    else:
        assert not light or not heavy
        least = min(off.values(), key=abs)
        if isinstance(found, Teeth.OneSide):
            assert found.next_off == pytest.approx(least, rel=1e-6)
        else:
            assert isinstance(found, Teeth.AsNear)
            assert off[teeth] == pytest.approx(least, rel=1e-6)


@pytest.mark.parametrize(
    ("take", "comes_to"),
    [("lighter", Taken.Stays()), ("heavier", Taken.Changes(20.0))],
)
def test_what_is_taken_stays_or_changes(take: str, comes_to: object) -> None:
    taken = teeth_taken(take_teeth=take, teeth=18.0, lighter_teeth=18.0, heavier_teeth=20.0)
    assert taken == comes_to
