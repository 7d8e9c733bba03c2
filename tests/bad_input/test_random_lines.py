"""Random lines at random questions: never an exception, never a stray sign."""

from __future__ import annotations

import pytest

from tests.bad_input.random_lines import walk


@pytest.mark.parametrize("seed", range(1))
def test_random_lines_get_an_answer_in_plain_words(seed: int) -> None:
    walk(seed, 600)


@pytest.mark.campaign
@pytest.mark.parametrize("seed", range(1, 40))
def test_many_more_random_lines_get_one_too(seed: int) -> None:
    walk(seed, 600)
