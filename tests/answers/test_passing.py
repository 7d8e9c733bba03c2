"""What is meant in a line that puts an answer right, or supposes another one."""

import pytest

from assistant.answers.passing import (
    corrected_part,
    longest,
    supposed_part,
    without,
    without_opening,
)

OPENS = ("no", "no wait", "i meant", "sorry")
TURNS = ("should be", "i typed")
FILLS = ("it", "the wheel is", "is")


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("20 not 21", "20"),
        ("20, not 21", "20"),
        ("20, not sure", ""),
        ("40 not known", ""),
        ("wheat not barley", "wheat"),
        ("20 NOT 21 not 22", "20"),
        ("no, 20", "20"),
        ("no wait, I meant 20.", "20"),
        ("No: sorry - 20!", "20"),
        ("no; it should be 24 rows", "24 rows"),
        ("24 rows, I typed 42", "24 rows"),
        ("24 rows, i typed 42, i typed 43", "24 rows"),
        ("it should be the wheel is 81,", "81"),
        ("  sorry   7   in  ", "7 in"),
        ("20", ""),
        ("north field", ""),
        ("no", ""),
        ("nothing 20", ""),
    ],
)
def test_what_is_put_in_place_stands_alone(line: str, meant: str) -> None:
    assert corrected_part(line, OPENS, TURNS, FILLS) == meant


@pytest.mark.parametrize(
    ("line", "supposed"),
    [
        ("what if I had 8 rows?", "8 rows"),
        ("What if  we take 20 do?!", "20"),
        ("what if, .I had, 8 rows, do", "8 rows"),
        ("suppose 7 in.", "7 in"),
        ("suppose I had", "had"),
        ("suppose 8 undo", "8 undo"),
        ("8 rows", ""),
        ("supposed 8", ""),
    ],
)
def test_what_is_supposed_stands_alone(line: str, supposed: str) -> None:
    opens, fills = ("what if", "suppose"), ("i had", "we take", "i")
    assert supposed_part(line, opens, ("do", "happens"), fills) == supposed


def test_words_go_wherever_they_stand_but_only_as_whole_words() -> None:
    assert without("it 20 IT, it's 5, ", ("it", "is")) == "20 IT, it's 5"
    assert without(", the wheel is 8 , ", ("is", "the wheel is")) == "8"


def test_the_longest_opening_goes_and_a_line_is_never_only_that() -> None:
    assert longest(("no", "no wait"), "No wait: 20") == "no wait"
    assert longest(("no",), "no") == ""
    assert longest(("no",), "nope 20") == ""
    assert without_opening(" .I  had, 8 rows!, ", ("i", "i had")) == "8 rows"
    assert without_opening("8 rows", ("i",)) == "8 rows"
