"""A book that was cut short or lost a byte is told as damaged, or reads as it was written.

A sample of the cuts and of the bytes; the campaign takes every cut and ten thousand flips.
"""

import random
import re
from collections import Counter
from pathlib import Path

import pytest

from assistant.book.book import Book
from tests.book.damage import READERS, flipped, judge, sample, truth

CUTS, FLIPS, HEADER = 150, 150, 100


def test_the_sample_has_something_for_every_reader() -> None:
    assert all(len(part) > 0 for part in truth())
    assert len(truth()) == len(READERS)


def test_a_book_cut_short_is_told(tmp_path: Path) -> None:
    chance = random.Random("cuts")
    size = len(sample())
    ends = [*chance.sample(range(1, size), CUTS), *range(1, 20), *range(4096, size, 4096)]
    told = {judge(tmp_path / "book.db", sample()[:end]) for end in ends}
    assert told == {"damaged", "not_a_database"}


@pytest.mark.parametrize("seed", range(2))
def test_a_flipped_byte_is_told_or_does_no_harm(tmp_path: Path, seed: int) -> None:
    chance = random.Random(seed)
    places = [*chance.choices(range(len(sample())), k=FLIPS), *chance.sample(range(HEADER), 20)]
    judged = Counter(
        judge(tmp_path / "book.db", flipped(place, chance.randrange(1, 256))) for place in places
    )
    assert judged["damaged"] > 0
    assert judged["found"] > 0


@pytest.mark.parametrize("name", [b"Old green", b"wheat", b"bin 4"])
def test_a_name_with_another_capital_is_told_in_the_card_and_in_its_index(
    tmp_path: Path, name: bytes
) -> None:
    places = [found.start() for found in re.finditer(re.escape(name), sample())]
    assert len(places) >= 6  # three cards, and their places in the index
    judged = {judge(tmp_path / "book.db", flipped(place, 0x20)) for place in places}
    assert judged <= {"found", "damaged"}


def test_a_book_that_is_sound_is_judged_so(tmp_path: Path) -> None:
    assert judge(tmp_path / "book.db", sample()) == "unharmed"
    with Book.open(tmp_path / "book.db") as book:
        assert len(book.cards()) == 3
