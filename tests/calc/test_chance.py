"""The reach of chance against scipy's quantiles, which are worked out another way."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from assistant.calc.chance import chi_square_reach, normal_reach, student_reach

SURE = st.floats(0.01, 0.9999)
DEGREES = st.integers(1, 120)
CLOSE = 1e-7


@given(SURE)
def test_second_opinion_on_the_normal_law(sure: float) -> None:
    assert normal_reach(sure) == pytest.approx(stats.norm.ppf((1 + sure) / 2), rel=CLOSE)


@given(SURE, DEGREES)
def test_second_opinion_on_students_t(sure: float, degrees: int) -> None:
    expected = stats.t.ppf((1 + sure) / 2, degrees)
    assert student_reach(sure, degrees) == pytest.approx(expected, rel=CLOSE)


@given(SURE, DEGREES)
def test_second_opinion_on_chi_square(sure: float, degrees: int) -> None:
    assert chi_square_reach(sure, degrees) == pytest.approx(
        stats.chi2.ppf(sure, degrees), rel=CLOSE
    )


def test_the_figures_of_the_printed_tables() -> None:
    """NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7, from memory: to three places."""
    assert normal_reach(0.95) == pytest.approx(1.960, abs=0.0005)
    assert student_reach(0.95, 3) == pytest.approx(3.182, abs=0.0005)
    assert student_reach(0.95, 5) == pytest.approx(2.571, abs=0.0005)
    assert chi_square_reach(0.95, 3) == pytest.approx(7.815, abs=0.0005)


@pytest.mark.parametrize("sure", [0.0, 1.0, -0.1, 1.5])
def test_no_reach_holds_none_or_all(sure: float) -> None:
    with pytest.raises(ValueError, match=str(sure)):
        normal_reach(sure)
