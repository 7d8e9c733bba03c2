"""The table of cards: numbers stay numbers in the unit of their heading, text stays text."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.book.records import StoredCard
from assistant.card.table import DIGITS, FORMULA, MARK, table
from assistant.quantities.units import factor
from tests.book.samples import a_card, a_talk
from tests.stories.play import library, played
from tests.stories.story import FOLDER, read_story

Cells = list[str]


def read_back(cards: list[StoredCard], system: str = "us") -> tuple[Cells, list[Cells]]:
    """Heading and lines as the csv module reads them."""
    text = "".join(table(library(), cards, system))
    heading, *lines = csv.reader(io.StringIO(text, newline=""))
    return heading, lines


def with_facts(**values: Any) -> StoredCard:
    facts = {name: {"value": value} for name, value in values.items()}
    return a_card(a_talk(), facts=facts)


def undone(cell: str) -> str:
    """A text as it was before it was made safe."""
    return cell.removeprefix(MARK)


TEXTS = st.text(st.characters(codec="utf-8"), max_size=12)
STARTS = st.sampled_from(["", *FORMULA, '"', ",", ";", " ="])


@given(st.tuples(STARTS, TEXTS).map("".join), TEXTS, TEXTS)
def test_texts_come_back_exactly_and_none_starts_a_formula(drill: str, crop: str, lot: str) -> None:
    _, (line,) = read_back([a_card(a_talk(), drill, crop=crop, lot=lot)])
    assert [undone(cell) for cell in line[1:4]] == [drill, crop, lot]
    assert not any(cell.startswith(FORMULA[:-1]) for cell in line[1:4])


@given(st.floats(1e-6, 1e6), st.sampled_from(["us", "metric"]))
def test_numbers_come_back_in_the_unit_of_their_heading(value: float, system: str) -> None:
    card = with_facts(bulk_rate=value, final_opening=value, germination=value, turns=value)
    heading, (line,) = read_back([card], system)
    told = dict(zip(heading, line, strict=True))
    rate = "lb/ac" if system == "us" else "kg/ha"
    for label, unit in (
        (f"Seed to drop ({rate})", rate),
        ("Opening (mm)", "mm"),
        ("Germination (%)", "%"),
        ("Turns", ""),
    ):
        last = 10.0 ** (1 - DIGITS)
        assert float(told[label]) == pytest.approx(value / float(factor(unit)), rel=last / 2)
        assert float(f"{float(told[label]):.{DIGITS}g}") == float(told[label])


@pytest.mark.parametrize("value", [None, "fluted", [1.0, 2.0], True, {"a": 1}])
def test_what_is_no_number_leaves_its_cell_empty(value: object) -> None:
    heading, (line,) = read_back([with_facts(bulk_rate=value)])
    assert line[heading.index("Seed to drop (lb/ac)")] == ""


def test_negative_numbers_are_numbers_and_get_no_mark() -> None:
    heading, (line,) = read_back([with_facts(percent_off=-0.06)])
    assert line[heading.index("Off target (%)")] == "-6"


def test_a_real_card_with_two_halves() -> None:
    """Worked by hand in the story; the table shows the same values in full."""
    cards = played(read_story(FOLDER / "two_halves.txt")).book.cards()
    heading, (line,) = read_back(cards)
    told = dict(zip(heading, line, strict=True))
    facts: Any = cards[0].facts
    assert told["Number"] == cards[0].talk
    assert told["Outcome"] == "proven"
    for half, name in (("", "final_opening"), ("other_half.", "final_opening")):
        label = ("Other half: " if half else "") + "Opening (mm)"
        assert float(told[label]) == pytest.approx(facts[half + name]["value"] * 1000)


def test_a_setting_without_a_catch_is_told_from_a_proven_one() -> None:
    cards = played(read_story(FOLDER / "corrected_cup.txt")).book.cards()
    heading, lines = read_back(cards)
    told = [dict(zip(heading, line, strict=True)) for line in lines]
    assert [each["Outcome"] for each in told] == ["worked out, not caught", "proven"]
    assert [each["Lever mark"] for each in told] == ["5.5", "5"]
    assert [each["Drive range"] for each in told] == ["Low", "Low"]
    expected: Any = cards[0].facts["expected_rate"]
    rate = float(told[0]["It should drop there (lb/ac)"])
    assert rate == pytest.approx(expected["value"] / float(factor("lb/ac")))
    assert told[1]["It should drop there (lb/ac)"] == ""


def test_every_line_has_as_many_cells_as_the_heading_and_headings_differ() -> None:
    heading, lines = read_back([with_facts(), with_facts(turns=3.0)])
    assert {len(line) for line in lines} == {len(heading)} == {len(set(heading))}
