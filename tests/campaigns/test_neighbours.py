"""Every text that is one slip of a key from a spelling of the table."""

from __future__ import annotations

import pytest

from tests.answers.neighbours import assert_read_or_refused, neighbours, rows

PARTS = 20


@pytest.mark.parametrize("part", range(PARTS))
def test_a_slip_is_read_or_refused_and_shown_as_what_it_was_read_as(part: int) -> None:
    for question, typed in rows()[part::PARTS]:
        for slipped in neighbours(typed):
            assert_read_or_refused(question, slipped)
