"""So many rows on a width: the spacing that this makes, where drills have such a one."""

import pytest

from assistant.answers.across import rows_across
from tests.answers import questions as q


@pytest.mark.parametrize(
    ("typed", "rows", "apart"),
    [
        ("15 ft wide 24 rows", "24", "7.5 in"),
        ("24 rows 15 ft wide", "24", "7.5 in"),
        ("15 foot drill with 24 rows", "24", "7.5 in"),
        ("24 row, 15 ft", "24", "7.5 in"),
        ("15' 24 rows", "24", "7.5 in"),
        ("40-ft 64 rows", "64", "7.5 in"),
        ("3 m, 20 rows", "20", "15 cm"),
        ("20 rows on 3 m", "20", "15 cm"),
    ],
)
def test_so_many_rows_on_a_width_tell_their_spacing(typed: str, rows: str, apart: str) -> None:
    line = rows_across((q.ROWS, q.SPACING), typed)
    assert line is not None
    assert {fact: each.settled for fact, each in line.found.items()} == {
        q.ROWS.fact: rows,
        q.SPACING.fact: apart,
    }
    assert not line.found[q.SPACING.fact].clear


@pytest.mark.parametrize("typed", ["15 ft 23 rows", "15 ft, 0 rows", "24 rows 7.5 in", "15 ft"])
def test_a_width_that_makes_no_usual_spacing_tells_none(typed: str) -> None:
    assert rows_across((q.ROWS, q.SPACING), typed) is None
