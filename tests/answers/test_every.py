"""One pass in so many, as people say it; a count that says no such thing stays as it is."""

import pytest

from assistant.answers.expect import Expect, Refusal, Settled
from assistant.answers.read import read

PASSES = Expect("passes", "count", least=None)


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("every 3rd", "3"),
        ("Every third pass", "3"),
        ("every other", "2"),
        ("every second pass", "2"),
        ("every 4", "4"),
        ("one in three", "3"),
        ("1 in 5", "5"),
        ("one pass in 3", "3"),
        ("each sixth time", "6"),
        ("22nd", "22"),
        ("cada tercera pasada", "3"),
        ("una de cada 4", "4"),
        ("uno de cada cuatro", "4"),
    ],
)
def test_one_in_so_many_is_that_number(typed: str, number: str) -> None:
    reading = read(PASSES, typed)
    assert isinstance(reading, Settled)
    assert reading.settled == number


@pytest.mark.parametrize("typed", ["every now and then", "third", "every 3rd lb", "in three"])
def test_what_says_no_such_thing_is_refused(typed: str) -> None:
    assert isinstance(read(PASSES, typed), Refusal)


def test_a_length_keeps_its_own_words() -> None:
    length = Expect("distance", "length", bare=("ft",))
    assert isinstance(read(length, "every 3rd"), Refusal)
