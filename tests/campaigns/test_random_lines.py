"""A million random lines at random questions."""

from __future__ import annotations

import pytest

from tests.bad_input.random_lines import walk

CHUNKS, LINES = 1000, 1000


@pytest.mark.parametrize("seed", range(1000, 1000 + CHUNKS))
def test_random_lines_get_an_answer_in_plain_words(seed: int) -> None:
    walk(seed, LINES)
