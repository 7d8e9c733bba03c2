"""Possible and usual ranges, the slip that explains a value, and picking between readings."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.answers.expect import Doubt, Expect, Refusal, Settled, Unusual
from assistant.answers.pick import pick
from assistant.answers.rank import settled
from assistant.answers.read import judge, read
from tests.answers import questions as q

TURNS = q.usual(q.possible(q.TURNS, "1", "1000"), "3", "100")


def reading(question: Expect, typed: str) -> Settled:
    told = read(question, typed)
    assert isinstance(told, Settled)
    return told


def doubt(question: Expect, typed: str) -> Doubt:
    told = read(question, typed)
    assert isinstance(told, Doubt)
    return told


def test_a_usual_value_and_one_without_ranges_pass() -> None:
    assert judge(TURNS, reading(TURNS, "30")) is None
    assert judge(q.CATCH, reading(q.CATCH, "7000 lb")) is None
    assert judge(TURNS, reading(TURNS, "100")) is None


def test_a_value_that_can_not_be_is_refused_with_the_range_and_the_likely_slip() -> None:
    assert judge(TURNS, reading(TURNS, "3000")) == Refusal(
        "too_big", "3000", (("least", "1.0"), ("most", "1000.0"), ("likely", "30"))
    )
    assert judge(TURNS, reading(TURNS, "0.3")) == Refusal(
        "too_small", "0.3", (("least", "1.0"), ("most", "1000.0"), ("likely", "3"))
    )


def test_an_unusual_value_that_no_slip_explains_has_no_likely_reading() -> None:
    narrow = q.usual(q.ROWS, "24", "25")
    assert judge(narrow, reading(narrow, "31")) == Unusual(
        None, (("usual_least", "24.0"), ("usual_most", "25.0"))
    )


def test_nothing_at_all_is_no_slip_and_is_not_asked_about() -> None:
    some = q.usual(q.CATCH, "0.1 lb", "5 lb")
    assert judge(some, reading(some, "0")) is None
    assert isinstance(judge(some, reading(some, "0.001")), Unusual)


def test_a_whole_count_never_slips_to_a_part() -> None:
    narrow = q.usual(q.ROWS, "2", "3")
    judged = judge(narrow, reading(narrow, "25"))
    assert isinstance(judged, Unusual)
    assert judged.likely is None


def test_a_slip_over_unit_and_point_together_is_found_last() -> None:
    either = q.usual(Expect("row_spacing", "row_spacing", bare=("in", "cm")), "4 in", "15 in")
    judged = judge(either, settled(either, "75 cm"))
    assert isinstance(judged, Unusual)
    assert judged.likely == settled(either, "7.5 in", clear=False)


def test_another_number_of_values_than_is_wanted_is_asked_about() -> None:
    rows = replace(q.ROW_WEIGHTS, as_many=3)
    assert judge(rows, reading(rows, "54 57 49")) is None
    assert judge(rows, reading(rows, "160")) is None  # all of it together
    for typed, told in (("54 57", "2"), ("54 57 49 50", "4")):
        assert judge(rows, reading(rows, typed)) == Unusual(None, (("told", told), ("wanted", "3")))


def test_every_value_of_a_list_is_judged_and_a_list_has_no_likely_slip() -> None:
    rows = q.usual(q.possible(q.ROW_WEIGHTS, "1 g", "1 kg"), "10 g", "200 g")
    assert judge(rows, reading(rows, "54 57 49")) is None
    assert judge(rows, reading(rows, "54 570 49")) == Unusual(
        None, (("usual_least", "0.01"), ("usual_most", "0.2"))
    )
    refused = judge(rows, reading(rows, "54 5700 49"))
    assert isinstance(refused, Refusal)
    assert refused.code == "too_big"


def test_a_variant_is_judged_by_its_own_ranges() -> None:
    ranged = Expect("target", "one_of", variants=(q.usual(q.RATE, "1 lb/ac", "200 lb/ac"),))
    judged = judge(ranged, reading(ranged, "800 lb/ac"))
    assert isinstance(judged, Unusual)
    assert judged.likely is not None
    assert (judged.likely.fact, judged.likely.settled) == ("target_weight", "80 lb/ac")


@pytest.mark.parametrize(
    ("question", "typed", "answer", "picked"),
    [
        (q.WALK, "8", "1", "8 ft"),
        (q.WALK, "8", "2", "8 m"),
        (q.WALK, "8", "metros", "8 m"),
        (q.WALK, "8", "feet", "8 ft"),
        (q.WALK, "8", "8 m", "8 m"),
        (q.CATCH, "1.3", "1.3 lb", "1.3 lb"),
        (q.CATCH, "1.3", "1 lb 3 oz", "19 oz"),
        (q.CATCH, "1.3", "oz", "19 oz"),
        (q.TARGET, "25/ft2", "plants", "25 plant/ft^2"),
        (q.TARGET, "25/ft2", "25 seeds per sq ft", "25 seed/ft^2"),
        (q.GERM, "1", "100 %", "100 %"),
    ],
)
def test_a_reading_is_picked_by_number_by_unit_or_as_it_was_shown(
    question: Expect, typed: str, answer: str, picked: str
) -> None:
    chosen = pick(question, doubt(question, typed), answer)
    assert chosen is not None
    assert chosen.settled == picked


@pytest.mark.parametrize("answer", ["3", "0", "7 ft", "kg", "what", "", "\x1b", "8"])
def test_what_picks_no_reading_picks_none(answer: str) -> None:
    assert pick(q.WALK, doubt(q.WALK, "8"), answer) is None
