"""A crop and its lot in one line, parted by commas, with more told beside them."""

import pytest

from assistant.answers.line import read_line
from tests.answers import questions as q

OTHERS = (q.TREATED, q.TARGET)


@pytest.mark.parametrize(
    ("typed", "lot", "early", "unused"),
    [
        ("wheat, 4471, treated", "4471", {"treated": "yes"}, ""),
        ("wheat, treated, 4471", "4471", {"treated": "yes"}, ""),
        ("wheat, treated, lot 7", "7", {"treated": "yes"}, ""),
        ("wheat lot 4471, treated", "4471", {"treated": "yes"}, ""),
        ("wheat, lot B 12, 80 lb/ac", "B 12", {"target": "80 lb/ac"}, ""),
        ("wheat; 4471; 80 lb/ac; treated", "4471", {"target": "80 lb/ac", "treated": "yes"}, ""),
        ("wheat lot 4471, no", "4471", {}, "no"),
        ("rye, 12, no", "12", {}, "no"),
        ("rye, lot 9, the good one", "9", {}, "the good one"),
        ("rye, 12, 13", "12", {}, "13"),
    ],
)
def test_each_part_between_commas_is_used_or_named(
    typed: str, lot: str, early: dict[str, str], unused: str
) -> None:
    line = read_line((q.CROP, q.LOT), typed, OTHERS)
    assert line.found["lot"].settled == lot
    assert line.found["crop"].settled == typed.split(maxsplit=1)[0].strip(",;")
    assert {fact: each.settled for fact, each in line.early.items()} == early
    assert line.unused == unused


@pytest.mark.parametrize("typed", ["wheat, no", "wheat, 80 lb/ac", "wheat, treated"])
def test_what_tells_something_else_is_no_lot(typed: str) -> None:
    assert "lot" not in read_line((q.CROP, q.LOT), typed, OTHERS).found


@pytest.mark.parametrize("typed", [",", " ; ", "\u200b, 4471"])
def test_a_comma_behind_no_name_is_refused(typed: str) -> None:
    line = read_line((q.CROP, q.LOT), typed, OTHERS)
    assert "crop" not in line.found
    assert line.refused["crop"].code == "not_understood"


def test_a_join_word_before_a_comma_is_part_of_a_name() -> None:
    line = read_line((q.CROP, q.LOT), "and 3/8 each wheat lost 12,500", OTHERS)
    assert line.found["crop"].settled == "and 3/8 each wheat lost 12"
