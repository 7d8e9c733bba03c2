"""Every length that a book can be cut to, and ten thousand flipped bytes."""

import random
from pathlib import Path

import pytest

from tests.book.damage import flipped, judge, sample

CHUNKS, FLIPS = 20, 500


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_a_book_cut_anywhere_is_told(tmp_path: Path, chunk: int) -> None:
    for end in range(1 + chunk, len(sample()), CHUNKS):
        assert judge(tmp_path / "book.db", sample()[:end]) in {"damaged", "not_a_database"}


@pytest.mark.parametrize("seed", range(CHUNKS))
def test_a_byte_flipped_anywhere_is_told_or_does_no_harm(tmp_path: Path, seed: int) -> None:
    chance = random.Random(f"campaign {seed}")
    for _ in range(FLIPS):
        place, mask = chance.randrange(len(sample())), chance.randrange(1, 256)
        judge(tmp_path / "book.db", flipped(place, mask))
