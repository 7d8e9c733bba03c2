"""Killed in the middle of a story, the program loses nothing that it has answered."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.campaigns.killing import goes_on_after
from tests.script.test_answers import STORY

FIVE = sorted(random.Random(20260414).sample(range(1, len(STORY)), 5))


@pytest.mark.parametrize("lines", FIVE)
def test_killed_after_a_line_the_next_start_names_the_job_and_goes_on(
    lines: int, tmp_path: Path
) -> None:
    goes_on_after(lines, tmp_path)
