"""One slip from each spelling: read or refused, and never shown as another value (a sample)."""

from __future__ import annotations

import random

from tests.answers.neighbours import assert_read_or_refused, neighbours, rows

EACH = 8


def test_a_slip_is_read_or_refused_and_shown_as_what_it_was_read_as() -> None:
    chance = random.Random(19)
    for question, typed in rows():
        for slipped in chance.sample(tuple(neighbours(typed)), EACH):
            assert_read_or_refused(question, slipped)
