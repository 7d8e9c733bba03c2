"""Values of several kinds, told by name in any order, and both figures of a tag in pairs."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.answers.expect import Expect, Refusal, Settled
from assistant.answers.in_order import in_order, kinds_of
from assistant.answers.line import read_line
from assistant.answers.read import read

KINDS = ("oats", "peas", "radish", "red clover")
MIX = Expect("mix_of", "text")
RATES = Expect("rates", "rate", bare=("lb/ac",), many=True, order=KINDS, order_of="mix_of")
PURITY = Expect("purity", "share", many=True, order=KINDS, order_of="mix_of")
GERMINATION = replace(PURITY, fact="germination")
TOLD = "30 lb/ac; 20 lb/ac; 3 lb/ac; 4 lb/ac"


def settled(expect: Expect, text: str) -> str:
    reading = read(expect, text)
    assert isinstance(reading, Settled), reading
    return reading.settled


@pytest.mark.parametrize(
    "form", ["{0} {1}", "{0}: {1}", "{0} = {1} lb/ac", "{1} {0}", "{1} of {0}"]
)
@pytest.mark.parametrize("parted", [", ", "; ", " and "])
def test_rates_are_told_by_name_in_any_order(form: str, parted: str) -> None:
    pairs = list(zip(KINDS, ("30", "20", "3", "4"), strict=True))
    for order in permutations(pairs):
        assert settled(RATES, parted.join(form.format(*pair) for pair in order)) == TOLD


def test_rates_without_names_stand_in_the_order_of_the_mix() -> None:
    assert settled(RATES, "30 20 3 4") == settled(RATES, "30, 20, 3, 4 lb/ac") == TOLD


@pytest.mark.parametrize(
    "typed", ["oats 30, peas 20", "oats 30, oats 20, radish 3, red clover 4", "oats 30, vetch 20"]
)
def test_names_that_are_not_those_of_the_mix_order_nothing(typed: str) -> None:
    assert in_order(KINDS, typed) == typed
    assert isinstance(read(RATES, typed), Refusal)


@pytest.mark.parametrize(
    ("typed", "kinds", "rates"),
    [
        ("oats 30, peas 20", "oats, peas", "30 lb/ac; 20 lb/ac"),
        ("30 lb oats and 20 lb of field peas", "oats, field peas", "30 lb/ac; 20 lb/ac"),
        ("Oats: 30; hairy vetch: 12.5", "oats, hairy vetch", "30 lb/ac; 12.5 lb/ac"),
    ],
)
def test_kinds_and_rates_in_one_line(typed: str, kinds: str, rates: str) -> None:
    line = read_line((MIX,), typed, (RATES,))
    assert line.found["mix_of"].settled == kinds
    assert line.early["rates"].settled == rates


@pytest.mark.parametrize(
    "typed", ["4", "2 kinds", "oats 30", "60 % oats", "oats 30 peas 20", "peas 99/88, oats 98/85"]
)
def test_numbers_that_stand_otherwise_are_no_kinds(typed: str) -> None:
    line = read_line((MIX,), typed, (RATES,))
    assert line.refused["mix_of"].code == "kinds"


def test_kinds_are_parted_by_commas_else_by_spaces() -> None:
    assert kinds_of("oats peas") == kinds_of("Oats, peas") == kinds_of("oats y peas")
    assert kinds_of("oats and hairy vetch") == ("oats", "hairy vetch")
    assert kinds_of("") == ()


def test_kinds_alone_are_kinds_and_another_text_may_hold_numbers() -> None:
    assert read_line((MIX,), "oats and peas", (RATES,)).found["mix_of"].settled == "oats and peas"
    lot = read_line((replace(MIX, fact="lot"),), "B7 12", (RATES,))
    assert lot.found["lot"].settled == "B7 12"


@given(st.lists(st.tuples(st.integers(50, 100), st.integers(50, 100)), min_size=4, max_size=4))
def test_both_figures_of_a_tag_are_told_in_pairs(figures: list[tuple[int, int]]) -> None:
    pure, alive = ("; ".join(f"{pair[place]} %" for pair in figures) for place in (0, 1))
    slashed = " ".join(f"{one}/{other}" for one, other in figures)
    named = ", ".join(f"{kind} {a} {b}" for kind, (a, b) in zip(KINDS, figures, strict=True))
    for typed in (slashed, slashed.replace(" ", ", "), slashed.replace("/", "% / "), named):
        line = read_line((PURITY, GERMINATION), typed)
        assert line.found["purity"].settled == pure
        assert line.found["germination"].settled == alive


def test_two_lists_are_no_pairs() -> None:
    line = read_line((PURITY, GERMINATION), "98 99, 85 88")
    assert line.found["purity"].settled == "98 %; 99 %"
    assert line.found["germination"].settled == "85 %; 88 %"


def test_one_figure_of_each_kind_with_no_comma_is_the_first_list_alone() -> None:
    lists = tuple(Expect(name, "share", many=True, as_many=2) for name in ("purity", "germination"))
    line = read_line(lists, "98 99")
    assert {fact: each.settled for fact, each in line.found.items()} == {"purity": "98 %; 99 %"}
    assert set(read_line(lists, "98, 90").found) == {"purity", "germination"}
