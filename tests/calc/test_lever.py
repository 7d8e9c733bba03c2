"""The next lever mark: between two that were tried, or a probe; never multiplied."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import judging, lever
from assistant.calc.contract import Trial
from tests.calc.rows import at_marks

FLOW_CHOICES = ("higher", "lower")


def aimed(
    *catches: tuple[float, float],
    opens: str = "higher",
    top: float = 10.0,
    lowest: float = 0.0,
    step: float = 0.5,
    target: float = 100.0,
) -> object:
    return lever.next_lever_mark(
        trials=at_marks(*catches),
        tare=0.0,
        catch_step=0.0,
        target_catch=target,
        lever_step=step,
        lever_top=top,
        lever_lowest=lowest,
        probe=0.2,
        lever_opens=opens,
        repeat_tolerance=0.025,
    )


@pytest.mark.parametrize(
    ("catches", "opens", "expected"),
    [
        # One mark: a fifth of the scale towards more or less seed. Never 4 x 100 / 80 = 5.
        ([(4.0, 80.0)], "higher", lever.Probe(6.0)),
        ([(4.0, 120.0)], "higher", lever.Probe(2.0)),
        ([(4.0, 80.0)], "lower", lever.Probe(2.0)),
        ([(4.0, 120.0)], "lower", lever.Probe(6.0)),
        ([(4.0, 80.0), (4.0, 82.0)], "higher", lever.Probe(6.0)),
        # Just what is wanted tells as little as a light one.
        ([(4.0, 100.0)], "higher", lever.Probe(6.0)),
        # The end of the scale is near: to the end, and there it is over.
        ([(9.0, 80.0)], "higher", lever.Probe(10.0)),
        ([(10.0, 80.0)], "higher", lever.TooWide()),
        ([(0.0, 80.0)], "lower", lever.TooWide()),
        ([(0.0, 120.0)], "higher", lever.TooNarrow()),
        ([(10.0, 120.0)], "lower", lever.TooNarrow()),
        ([(10.0, 80.0), (6.0, 60.0)], "higher", lever.TooWide()),
        # Both on one side: another probe past them, not a line on through them.
        ([(4.0, 70.0), (6.0, 80.0)], "higher", lever.Probe(8.0)),
        ([(6.0, 80.0), (4.0, 70.0)], "higher", lever.Probe(8.0)),
        ([(6.0, 140.0), (4.0, 120.0)], "higher", lever.Probe(2.0)),
        # Two marks show that the lever opens the other way: that is asked about.
        ([(4.0, 80.0), (6.0, 70.0)], "higher", lever.OtherWay(6.0)),
        ([(4.0, 80.0), (6.0, 70.0)], "lower", lever.Probe(2.0)),
        ([(4.0, 70.0), (6.0, 80.0)], "lower", lever.OtherWay(6.0)),
        ([(4.0, 110.0), (6.0, 80.0)], "higher", lever.OtherWay(6.0)),
        # By less than two catches may differ, they show nothing.
        ([(4.0, 80.0), (6.0, 79.0)], "higher", lever.Probe(8.0)),
        ([(4.0, 80.0), (6.0, 80.0)], "higher", lever.Probe(8.0)),
        ([(4.0, 80.0), (6.0, 80.0)], "lower", lever.Probe(2.0)),
        # A light and a heavy one: the line between. 4 + 2 x 20 / 30 = 5.3.
        ([(4.0, 80.0), (6.0, 110.0)], "higher", lever.SetNext(5.5)),
        ([(4.0, 110.0), (6.0, 80.0)], "lower", lever.SetNext(4.5)),
        ([(2.0, 40.0), (8.0, 190.0), (4.0, 90.0), (5.0, 120.0)], "higher", lever.SetNext(4.5)),
        # Both neighbours came nearer than the mark between them: 4.5 + 0.5 x 11 / 19 = 4.8, so 5.
        ([(4.0, 93.0), (5.0, 108.0), (4.5, 89.0)], "higher", lever.SetNext(5.0)),
        # Neighbours on both sides: as near as it gets.
        ([(4.0, 94.0), (4.5, 106.5)], "higher", lever.SetNext(4.0)),
        ([(4.5, 106.5), (4.0, 94.0)], "higher", lever.AsNear(4.0)),
        ([(4.0, 93.0), (4.5, 106.0), (4.0, 94.5), (4.5, 106.0)], "higher", lever.AsNear(4.5)),
    ],
)
def test_where_to_go_from_what_was_caught(
    catches: list[tuple[float, float]], opens: str, expected: object
) -> None:
    assert aimed(*catches, opens=opens) == expected


def test_marks_start_at_the_lowest_and_stop_at_the_top() -> None:
    # Whole steps of 3 from 1: 1, 4, 7, 10; the top of 12 is none of them.
    assert aimed((4.0, 80.0), lowest=1.0, top=12.0, step=3.0) == lever.Probe(7.0)
    assert aimed((7.0, 80.0), lowest=1.0, top=12.0, step=3.0) == lever.Probe(10.0)
    assert aimed((10.0, 80.0), lowest=1.0, top=12.0, step=3.0) == lever.TooWide()


def test_a_probe_moves_at_least_one_mark() -> None:
    assert aimed((4.0, 80.0), step=4.0) == lever.Probe(8.0)


def test_only_catches_in_the_present_range_count() -> None:
    found = lever.next_lever_mark(
        trials=(
            *at_marks((8.0, 150.0), drive_range="high"),
            *at_marks((4.0, 80.0), drive_range="low"),
        ),
        tare=0.0,
        catch_step=0.0,
        target_catch=100.0,
        lever_step=0.5,
        lever_top=10.0,
        lever_lowest=0.0,
        probe=0.2,
        lever_opens="higher",
        repeat_tolerance=0.025,
    )
    assert found == lever.Probe(6.0)


@given(
    st.lists(st.tuples(st.integers(0, 20), st.floats(1.0, 300.0)), min_size=1, max_size=8),
    st.sampled_from(FLOW_CHOICES),
    st.floats(0.5, 2.0),
)
def test_whatever_was_caught_the_next_mark_is_one_of_the_lever(
    catches: list[tuple[int, float]], opens: str, scale: float
) -> None:
    halves = [(number / 2, seed) for number, seed in catches]
    found = aimed(*halves, opens=opens)
    if isinstance(found, lever.SetNext | lever.Probe | lever.AsNear):
        assert 0.0 <= found.next_lever_mark <= 10.0
        assert (2 * found.next_lever_mark).is_integer()
    if isinstance(found, lever.SetNext):
        marks = [mark for mark, _ in halves]
        assert min(marks) <= found.next_lever_mark <= max(marks)
    if isinstance(found, lever.Probe):
        assert found.next_lever_mark not in {mark for mark, _ in halves}
    scaled = aimed(
        *((mark, seed * scale) for mark, seed in halves), opens=opens, target=100 * scale
    )
    assert type(scaled) is type(found)


@pytest.mark.parametrize("opens", FLOW_CHOICES)
def test_every_loop_ends_whichever_way_the_lever_opens(opens: str) -> None:
    """A lever with marks that are not worth the same, and catches that repeat within 1 in 100."""
    chance = random.Random(7)
    for _ in range(300):
        bend, told = chance.uniform(0.7, 1.4), chance.choice(FLOW_CHOICES)
        mark, trials = chance.randrange(2, 19) / 2, list[Trial]()
        found: object = None
        while not isinstance(found, judging.Proven):
            share = mark / 10 if opens == "higher" else 1 - mark / 10
            truth = 40.0 + 160.0 * share**bend
            trials.extend(at_marks((mark, chance.gauss(truth, 0.01 * truth))))
            found = judging.judge(
                trials=tuple(trials),
                tare=0.0,
                target_catch=100.0,
                ground_covered=50.0,
                tolerance=0.05,
                repeat_tolerance=0.025,
                catch_step=0.1,
            )
            if isinstance(found, judging.Light | judging.Heavy):
                aim = aimed(
                    *((t.lever_mark or 0.0, t.catch_weight or 0.0) for t in trials), opens=told
                )
                if isinstance(aim, lever.OtherWay):
                    told = "lower" if told == "higher" else "higher"
                    continue
                if not isinstance(aim, lever.SetNext | lever.Probe):
                    break
                mark = aim.next_lever_mark
        assert len(trials) <= 15
        assert isinstance(found, judging.Proven) or isinstance(aim, lever.AsNear)


def test_a_lever_past_its_last_whole_step_is_not_led_back_for_more() -> None:
    """A top of 10 in steps of 0.6: the last whole step is 9.6, and the lever stands at the top.

    More seed is wanted and higher gives more, so there is nowhere to go; and from 9.6 the same
    9.6 is probed again.
    """
    assert aimed((10.0, 80.0), step=0.6) == lever.TooWide()
    assert aimed((10.0, 80.0), (9.6, 79.0), step=0.6) == lever.TooWide()
