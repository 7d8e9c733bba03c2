"""A change shared out: the shares add up, and what did not change gets nothing."""

from __future__ import annotations

import math
from collections.abc import Mapping

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.sitting.sharing import Worth, shares, weight

NAMES = ("rate", "spacing", "turns", "distance", "rows")
Values = Mapping[str, float]
VALUES = st.fixed_dictionaries({name: st.floats(0.01, 1000) for name in NAMES})


def product(old: Values, new: Values) -> Worth:
    """Rate times spacing times turns times distance, by the rows."""

    def worth(taken: frozenset[str]) -> float:
        one = {name: (new if name in taken else old)[name] for name in NAMES}
        return one["rate"] * one["spacing"] * one["turns"] * one["distance"] / one["rows"]

    return worth


@settings(max_examples=500, deadline=None)
@given(old=VALUES, new=VALUES)
def test_the_shares_add_up_to_the_whole_change(old: Values, new: Values) -> None:
    worth = product(old, new)
    found = shares(NAMES, worth)
    ends = worth(frozenset()), worth(frozenset(NAMES))
    # The sums between may be larger than both ends; a float keeps 15 digits of the largest.
    largest = max(abs(share) for share in found.values()) + max(ends)
    assert math.fsum(found.values()) == pytest.approx(ends[1] - ends[0], abs=1e-9 * largest)


@settings(max_examples=200, deadline=None)
@given(old=VALUES, new=VALUES, same=st.sampled_from(NAMES))
def test_an_input_that_did_not_change_gets_nothing(old: Values, new: Values, same: str) -> None:
    found = shares(NAMES, product(old, {**new, same: old[same]}))
    assert found[same] == 0


@given(old=VALUES, new=VALUES)
def test_the_order_in_which_inputs_are_named_does_not_matter(old: Values, new: Values) -> None:
    worth = product(old, new)
    one, other = shares(NAMES, worth), shares(NAMES[::-1], worth)
    largest = max(map(abs, one.values()))
    for name in NAMES:
        assert one[name] == pytest.approx(other[name], abs=1e-9 * largest)


def test_a_product_of_two_by_hand() -> None:
    # 4 x 5 = 20 becomes 6 x 10 = 60. First alone adds 10, after the second 20: 15 on average.
    # Second alone adds 20, after the first 30: 25 on average.
    worths = {(): 20.0, ("a",): 30.0, ("b",): 40.0, ("a", "b"): 60.0}
    assert shares(("a", "b"), lambda taken: worths[tuple(sorted(taken))]) == {"a": 15, "b": 25}


def test_a_sum_gives_each_its_own_change() -> None:
    change = {"a": 2.0, "b": -5.0, "c": 0.5}
    assert shares(tuple(change), lambda taken: sum(change[each] for each in taken)) == change


def test_nothing_that_changed_has_no_shares() -> None:
    assert shares((), lambda _taken: 7.0) == {}


@pytest.mark.parametrize("count", range(1, 9))
def test_the_orders_are_all_counted_once(count: int) -> None:
    orders = sum(math.comb(count - 1, before) * weight(before, count) for before in range(count))
    assert orders == pytest.approx(1)
