"""What holds for any text: a reading always, never another value in silence, the same again."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.answers.expect import Doubt, Expect, Line, Refusal, Settled
from assistant.answers.line import read_line
from assistant.answers.read import judge, read
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import exact, join, si_value, spell
from assistant.quantities.show import show_settled
from tests.answers import questions as q
from tests.answers.test_table import TABLE, TARGETS

SCRAPS = (
    *(
        "24",
        "7 1/2",
        "7,5",
        "0.62",
        "1.250",
        "12,500",
        "6'",
        '9"',
        "½",
        "3/8",
        "1:3",
        "-",
        "1e3",
        "×",
    ),
    *(
        "lb",
        "lb/ac",
        "in",
        "ft",
        "kg/ha",
        "oz",
        "%",
        "k",
        "mil",
        "PLS",
        "plants",
        "per",
        "sq",
        "row",
    ),
    *(
        "rows",
        "germ",
        "at",
        "wheat",
        "ocho",
        "and",
        "a",
        "half",
        "about",
        "full",
        "empty",
        "dog",
        "?",
    ),
    *(
        "’",
        "/",
        ".",
        ",",
        "\t",
        "#",
        "+",
        "=",
        "each",
        "tkw",
        "lost",
        "de",
        "\u00a0",
        "9½”",
        "seis",
    ),
)
OTHERS = (q.TARGET, q.ROWS, q.SPACING, q.CAUGHT, q.GERM, q.HARD, q.LOT, q.FEED, q.TREATED)
QUESTIONS = (
    *((each,) for each in q.EVERY_KIND),
    *((q.ROWS, q.SPACING), (q.ROLLED, q.STRIP), (q.MARK, q.CATCH), (q.COUNTED, q.COUNTED_WEIGHT)),
    *((q.CROP, q.LOT), (q.CROP, q.LOT)),  # twice, for the many ways to part two names
)

UNITS = {
    "length": ("in", "ft", "m", "cm", "mm"),
    "row_spacing": ("in", "cm"),
    "distance_per_turn": ("in", "m"),
    "mass": ("oz", "g", "kg"),
    "mass_per_turn": ("oz", "g", "kg"),
    "turns_per_area": ("turn/ac", "turn/ha"),
    "turns_per_mass": ("turn/lb", "turn/kg"),
    "pulses_per_mass": ("pulse/lb", "pulse/kg"),
    "pulses_per_turn": ("pulse",),
    "time": ("s", "min"),
    "speed": ("mi/h", "km/h"),
    "turn_rate": ("turn/min",),
    "area": ("ac", "ha", "ft^2", "m^2"),
    "rate": ("lb/ac", "kg/ha"),
    "live_rate": ("lb/ac", "kg/ha"),
    "seeds_per_weight": ("seed/lb", "seed/kg", "g"),
    "seeds_per_area": ("seed/ft^2", "seed/m^2", "seed/ac", "seed/ha"),
    "plants_per_area": ("plant/ft^2", "plant/m^2"),
    "live_seeds_per_area": ("seed/ft^2", "seed/m^2"),
    "seeds_per_row_length": ("seed/ft", "seed/m"),
    "plants_per_row_length": ("plant/ft", "plant/m"),
    "bulk_density": ("lb/bu", "kg/hL"),
    "bushel_rate": ("bu/ac",),
    "share": ("%",),
    "emergence": ("%",),
    "seeds": ("",),
    "rows": ("",),
    "turns": ("",),
    "mark": ("",),
}

_numbers = st.one_of(
    st.integers(1, 99_999).map(Fraction),
    st.integers(1, 9_999).map(lambda n: Fraction(n, 4)),
    st.integers(1, 9_999).map(lambda n: Fraction(n, 100)),
    st.integers(1, 999).map(lambda n: Fraction(n, 3)),
)


@st.composite
def settled_values(draw: st.DrawFn) -> tuple[Expect, str]:
    kind = draw(st.sampled_from(sorted(UNITS)))
    number = draw(_numbers)
    if KINDS[kind].whole:
        number = Fraction(int(number) % 10_000 or 1)  # no drill has ten thousand rows
    if KINDS[kind].form == "percent":
        number = Fraction(int(number) % 101 or 1)
    return Expect("fact", kind), spell(number, draw(st.sampled_from(UNITS[kind])))


def any_line(chance: random.Random) -> str:
    scraps = [chance.choice(SCRAPS) for _ in range(chance.randint(1, 7))]
    return chance.choice((" ", " ", "")).join(scraps)


def assert_read_safely(question: tuple[Expect, ...], typed: str) -> None:
    line = read_line(question, typed, OTHERS)
    assert isinstance(line, Line)
    words_asked = question[0].kind == "choice"  # where all of a line may tell other facts
    assert line.found or line.doubts or line.refused or (words_asked and line.early), typed
    for fact, told in {**line.found, **line.early}.items():
        assert isinstance(told, Settled)
        asked = next(each for each in (*question, *OTHERS) if each.fact == fact)
        assert_value_of(asked, told)
    for doubt in line.doubts.values():
        assert 2 <= len(doubt.readings) <= 3


def assert_value_of(asked: Expect, told: Settled) -> None:
    by_name = {each.fact: each for each in (asked, *asked.variants)}
    kind = by_name[told.fact].kind
    assert told.value == si_value(kind, told.settled)
    judge(asked, told)  # never raises


@pytest.mark.parametrize("seed", range(2))
def test_3000_lines_are_read_or_refused_and_never_fail(seed: int) -> None:
    chance = random.Random(2024 + seed)
    for _ in range(1_500):
        assert_read_safely(chance.choice(QUESTIONS), any_line(chance))


@pytest.mark.campaign
@pytest.mark.parametrize("seed", range(100))
def test_a_million_lines_are_read_or_refused_and_never_fail(seed: int) -> None:
    chance = random.Random(seed)
    for _ in range(10_000):
        assert_read_safely(chance.choice(QUESTIONS), any_line(chance))


@given(st.text(max_size=40), st.sampled_from(q.EVERY_KIND))
def test_any_text_at_all_is_read_or_refused(typed: str, question: Expect) -> None:
    assert isinstance(read(question, typed), Settled | Doubt | Refusal)
    assert_read_safely((question,), typed)


def test_every_slip_of_one_key_in_the_table_is_read_or_refused() -> None:
    chance = random.Random(11)
    for question, typed, _ in [*TABLE, *TARGETS]:
        at = chance.randrange(len(typed) + 1)
        for slipped in (
            typed[:at] + typed[at + 1 :],
            typed[:at] + chance.choice("0.,'x/-") + typed[at:],
        ):
            assert isinstance(read(question, slipped), Settled | Doubt | Refusal)


@given(settled_values())
def test_a_settled_spelling_read_again_settles_to_the_same(value: tuple[Expect, str]) -> None:
    question, settled = value
    told = read(question, settled)
    assert isinstance(told, Settled), told
    assert told.settled == settled


@given(settled_values())
def test_what_is_shown_of_a_settled_value_reads_as_the_same(value: tuple[Expect, str]) -> None:
    question, settled = value
    shown = show_settled(question.kind, settled)
    if question.kind in ("live_rate", "live_seeds_per_area"):
        assert "PLS" in shown
    told = read(question, shown)
    assert isinstance(told, Settled), (shown, told)
    assert exact(question.kind, told.settled) == exact(question.kind, settled)


@given(st.lists(st.integers(1, 9_999).map(lambda n: Fraction(n, 10)), min_size=1, max_size=8))
def test_a_list_is_shown_so_that_it_reads_as_the_same(numbers: list[Fraction]) -> None:
    settled = join([spell(number, "g") for number in numbers])
    for typed in (settled, show_settled("mass", settled)):
        told = read(q.ROW_WEIGHTS, typed)
        assert isinstance(told, Settled)
        assert told.settled == settled


@given(st.integers(1, 999), st.integers(0, 999))
def test_a_comma_before_three_digits_is_never_taken_for_one_reading_in_silence(
    whole: int, part: int
) -> None:
    meanings = {Fraction(f"{whole}{part:03d}"), Fraction(f"{whole}.{part:03d}")}
    for mark in ",.":
        told = read(q.BAG, f"{whole}{mark}{part:03d} lb")
        assert isinstance(told, Doubt)
        assert {each.value for each in told.readings} == {
            float(exact("mass", spell(each, "lb"))) for each in meanings
        }


@given(st.integers(1, 40), st.integers(1, 15))
def test_pounds_with_a_point_are_asked_unless_ounces_come_to_nearly_the_same(
    pounds: int, ounces: int
) -> None:
    point, ounce = Fraction(f"{pounds}.{ounces}"), pounds + Fraction(ounces, 16)
    told = read(q.BAG, f"{pounds}.{ounces} lb")
    if abs(point - ounce) > Fraction(2, 100) * min(point, ounce):
        assert isinstance(told, Doubt)
    else:
        assert isinstance(told, Settled)
        assert not told.clear
    decimal_scale = replace(q.BAG, decimal=True)
    assert read(decimal_scale, f"{pounds}.{ounces} lb") == Settled(
        "bag", spell(point, "lb"), float(exact("mass", spell(point, "lb")))
    )


@given(st.sampled_from(TABLE), st.sampled_from(TABLE))
def test_the_order_of_reading_changes_nothing(one: object, other: object) -> None:
    assert isinstance(one, tuple)
    assert isinstance(other, tuple)
    first = read(one[0], one[1])
    read(other[0], other[1])
    assert read(one[0], one[1]) == first
