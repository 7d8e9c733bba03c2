"""Mean, spread, median, root, rounding and comparing: by hand, by other libraries, with units."""

import statistics
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
import scipy.stats
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import figures
from assistant.quantities.registry import has_dimension, quantity

VALUES = st.lists(st.floats(0.001, 1000.0), min_size=2, max_size=12)


@given(VALUES)
def test_mean_spread_and_median_are_those_of_the_standard_library(values: list[float]) -> None:
    assert figures.mean(values) == pytest.approx(statistics.fmean(values), rel=1e-12)
    assert figures.median(values) == pytest.approx(statistics.median(values), rel=1e-12)
    assert figures.spread(values) == pytest.approx(statistics.stdev(values), rel=1e-9, abs=1e-9)


@given(VALUES)
def test_relative_spread_is_the_variation_of_scipy_with_divisor_n_minus_1(
    values: list[float],
) -> None:
    expected = float(scipy.stats.variation(values, ddof=1))
    assert figures.relative_spread(values) == pytest.approx(expected, rel=1e-9, abs=1e-9)


def test_a_spread_worked_by_hand() -> None:
    # Mean 5, squares 9 + 1 + 1 + 1 + 0 + 0 + 4 + 16 = 32, over 7.
    values = [2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0]
    assert figures.mean(values) == 5.0
    assert figures.spread(values) ** 2 == pytest.approx(32 / 7, rel=1e-12)


@pytest.mark.parametrize(
    ("values", "middle"),
    [([3.0], 3.0), ([9.0, 1.0], 5.0), ([5.0, 1.0, 9.0], 5.0), ([8.0, 1.0, 2.0, 4.0], 3.0)],
)
def test_the_median_is_the_middle_or_the_mean_of_the_middle_two(
    values: list[float], middle: float
) -> None:
    assert figures.median(values) == middle


@pytest.mark.parametrize(
    ("figure", "values"),
    [(figures.mean, []), (figures.median, []), (figures.spread, [1.0])],
)
def test_too_few_values_are_refused(
    figure: Callable[[list[float]], float], values: list[float]
) -> None:
    with pytest.raises(ZeroDivisionError):
        figure(values)


@pytest.mark.parametrize(
    ("value", "step", "nearest", "up", "down"),
    [
        (14.2, 0.5, 14.0, 14.5, 14.0),
        (14.25, 0.5, 14.5, 14.5, 14.0),
        (14.3, 0.5, 14.5, 14.5, 14.0),
        (14.5, 0.5, 14.5, 14.5, 14.5),
        (0.0, 0.5, 0.0, 0.0, 0.0),
        (-1.3, 0.5, -1.5, -1.0, -1.5),
        (0.3, 0.1, 0.3, 0.3, 0.3),
        (0.0145, 0.0005, 0.0145, 0.0145, 0.0145),
        (66.7, 1.0, 67.0, 67.0, 66.0),
    ],
)
def test_rounding_to_whole_steps(
    value: float, step: float, nearest: float, up: float, down: float
) -> None:
    assert figures.to_step(value, step) == nearest
    assert figures.up_to_step(value, step) == up
    assert figures.down_to_step(value, step) == down


@given(st.integers(0, 100_000), st.sampled_from([1.0, 0.5, 0.25, 0.1, 0.0005, 0.001]))
def test_dust_never_costs_a_whole_step(number: int, step: float) -> None:
    value = float(Fraction(number) * Fraction(str(step)))
    for dusty in (value, value * (1 + 1e-15), value * (1 - 1e-15)):
        rounded = {
            figures.to_step(dusty, step),
            figures.up_to_step(dusty, step),
            figures.down_to_step(dusty, step),
        }
        assert rounded == {value}


@given(st.floats(0.0, 1000.0), st.sampled_from([1.0, 0.5, 0.1]))
def test_a_rounded_value_lies_within_its_step(value: float, step: float) -> None:
    hair = 1e-6
    assert abs(figures.to_step(value, step) - value) <= step / 2 + hair
    assert -hair <= figures.up_to_step(value, step) - value < step + hair
    assert -hair <= value - figures.down_to_step(value, step) < step + hair


@pytest.mark.parametrize(
    ("value", "limit", "most", "least"),
    [
        (0.05, 0.05, True, True),
        (1.05 - 1, 0.05, True, True),
        (0.0501, 0.05, False, True),
        (0.0499, 0.05, True, False),
        (0.0, 0.0, True, True),
        (-0.1, 0.0, True, False),
    ],
)
def test_a_limit_includes_itself(value: float, limit: float, *, most: bool, least: bool) -> None:
    assert figures.at_most(value, limit) is most
    assert figures.at_least(value, limit) is least


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        (None, None, True),
        (None, 1.0, False),
        (1.0, None, False),
        ("low", "low", True),
        ("low", "high", False),
        (0.1 + 0.2, 0.3, True),
        (14.0, 14.5, False),
    ],
)
def test_two_settings_are_one_or_not(
    one: float | str | None, other: float | str | None, *, alike: bool
) -> None:
    assert figures.same(one, other) is alike


@pytest.mark.parametrize(
    ("taken", "of", "error"),
    [
        (4, 16, 0.05 * (12 / 16 / 4) ** 0.5),
        (12, 24, 0.05 / 24**0.5),  # half of all: 1 - 1/2, over 12
        (24, 24, 0),
    ],
)
def test_the_error_of_a_part_is_less_the_more_of_all_it_is(
    taken: float, of: float, error: float
) -> None:
    assert figures.error_of_part(0.05, taken, of) == pytest.approx(error)


def test_figures_keep_the_units_of_quantities() -> None:
    weights: list[Any] = [quantity(number, "kg") for number in (1.0, 2.0, 6.0)]
    assert figures.mean(weights) == quantity(3.0, "kg")
    assert figures.median(weights) == quantity(2.0, "kg")
    assert has_dimension(figures.spread(weights), "mass")
    assert has_dimension(figures.relative_spread(weights), "share")
    assert figures.root(weights[0] * weights[0]) == quantity(1.0, "kg")
    step: Any = quantity(0.5, "kg")
    assert figures.to_step(weights[1] / 3, step) == quantity(0.5, "kg")
    assert figures.up_to_step(weights[1] / 3, step) == quantity(1.0, "kg")
    assert figures.down_to_step(weights[1] / 3, step) == quantity(0.5, "kg")
    assert figures.same(weights[0], weights[0])
    assert figures.at_most(weights[0], weights[1])


@pytest.mark.parametrize(
    "mixing",
    [
        lambda kg, m: figures.mean([kg, m]),
        lambda kg, m: figures.spread([kg, m]),
        lambda kg, m: figures.median([kg, m]),
        figures.to_step,
        figures.up_to_step,
        figures.down_to_step,
        figures.at_most,
        figures.at_least,
        figures.same,
    ],
)
def test_figures_refuse_to_mix_dimensions(mixing: Callable[[Any, Any], object]) -> None:
    from pint import DimensionalityError

    with pytest.raises(DimensionalityError):
        mixing(quantity(1.0, "kg"), quantity(1.0, "m"))
