"""Whatever people type, no walk loses its way (V10)."""

from __future__ import annotations

import pytest

from tests.histories.talk import STARTS
from tests.histories.wandering import to_the_end, walked

JOBS = pytest.mark.parametrize("name", sorted(STARTS))
EACH = 50


@JOBS
@pytest.mark.parametrize("seed", range(5))
def test_a_random_walk_is_always_asked_something_and_can_reach_an_end(name: str, seed: int) -> None:
    talk = walked(name, seed)
    to_the_end(talk)
    assert talk.ended


@JOBS
@pytest.mark.campaign
@pytest.mark.parametrize("block", range(34))
def test_ten_thousand_random_walks_can_reach_an_end(name: str, block: int) -> None:
    """Seeds 100 to 1,800 of each of six jobs: 10,200 walks. A failure names its seed."""
    for seed in range(100 + block * EACH, 100 + block * EACH + EACH):
        try:
            to_the_end(walked(name, seed))
        except Exception as trouble:
            raise AssertionError(seed) from trouble
