"""Corners of the reading that no larger test tells apart: each was changed once, and nobody saw."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from assistant.answers.asked import Asked
from assistant.answers.compound import bare_pair, with_units
from assistant.answers.convert import converted
from assistant.answers.evidence import early
from assistant.answers.expect import Choice, Doubt, Expect, Refusal, Settled
from assistant.answers.fitting import likely_unit
from assistant.answers.likeness import stem
from assistant.answers.line import read_line
from assistant.answers.number import MOST_DIGITS, readings
from assistant.answers.number_words import in_digits
from assistant.answers.passing import corrected_part, without
from assistant.answers.phrase import Phrase, phrase
from assistant.answers.read import read
from assistant.answers.text import without_control
from tests.answers import questions as q


def settled(expect: Expect, text: str) -> str:
    found = read(expect, text)
    assert isinstance(found, Settled), (text, found)
    return found.settled


def refused(expect: Expect, text: str) -> Refusal:
    found = read(expect, text)
    assert isinstance(found, Refusal), (text, found)
    return found


def test_pasted_lines_lose_their_marks_and_keep_their_ends() -> None:
    assert without_control("\x1b[200~1.42\r\n1.44\x1b[201~\x07") == ("1.42\n1.44", 1)


def test_what_a_question_is_about_is_told_in_its_words() -> None:
    asked = Asked({"bags": {"about": "Lifting bags", "asked": ["lift"]}}, {"opens": []})
    assert asked.about("bags") == "Lifting bags"


# -- two numbers that are one -----------------------------------------------------------------


def test_two_numbers_with_a_space_are_no_pounds_and_ounces() -> None:
    assert bare_pair(q.CATCH, "1 3") == []
    assert [each.spelled() for each in bare_pair(q.CATCH, "1-3")] == ["19 oz"]


def test_nothing_and_some_ounces_are_no_pair() -> None:
    assert bare_pair(q.CATCH, "0-3") == []


def test_several_turns_over_a_length_in_one_unit() -> None:
    assert settled(q.ONE_TURN, "10 turns = 66 ft") == "6.6 ft"


def test_a_full_tub_that_is_two_weights_is_refused() -> None:
    assert refused(q.CATCH, "2 lb 3 lb full 1.4 empty").code == "two_numbers"


def test_the_longest_number_of_feet_is_still_read() -> None:
    (longest,) = with_units(q.STRIP, f"{'9' * MOST_DIGITS} ft 3 in")
    assert longest.number == int("9" * MOST_DIGITS) * 12 + 3


def test_an_empty_tub_that_weighs_more_than_a_full_one_is_refused() -> None:
    assert refused(q.CATCH, "full 1.4 empty 2.1").code == "two_numbers"


def test_one_word_is_enough_to_tell_full_from_empty() -> None:
    assert settled(q.CATCH, "2.1 1.4 empty") == "0.7 lb"


# -- units -----------------------------------------------------------------------------------


def test_each_row_has_its_spacing() -> None:
    assert settled(q.SPACING, "7.5 in each") == "7.5 in"


def test_bushels_where_none_are_asked_are_called_so() -> None:
    assert refused(q.RATE, "1.5 bu/ac").code == "bushels"
    assert refused(q.RATE, "1.5 bu/ft").code == "unit_of_another_kind"


@pytest.mark.parametrize("text", ["80 lb/foo", "80 foo/ac"])
def test_an_unknown_unit_is_called_so_over_and_under_the_line(text: str) -> None:
    assert refused(q.RATE, text).code == "unknown_unit"


def test_a_unit_alone_is_a_number_that_is_missing() -> None:
    found = refused(q.CATCH, "pounds")
    assert (found.code, found.about) == ("no_number", (("unit", "pounds"),))


def test_a_weight_each_is_told_of_no_question_that_it_does_not_name() -> None:
    assert isinstance(read(q.ROW_WEIGHTS, "12 g each"), Settled)
    assert early((q.ROW_WEIGHTS,), "12 g each") is None


def test_a_unit_that_is_nearly_one_of_ours_is_taken_for_it() -> None:
    slip = Refusal("unknown_unit", "40 tuns", (("unit", "tuns"),))
    found = likely_unit(q.usual(q.TURNS, "10", "100"), slip)
    assert found is not None
    assert found.settled == "40"
    assert likely_unit(q.usual(q.TURNS, "1", "10"), slip) is None


def test_live_seed_is_told_beside_what_stands_over_and_under_the_line() -> None:
    live = Phrase(("lb",), "ac", live=True)
    assert [phrase("lbs pls per acre"), phrase("lb of pls per acre")] == [live, live]
    assert phrase("libras de pls por acre") == live


def test_a_wish_for_a_unit_that_is_none_is_answered_only_where_it_is_said_to_be_one() -> None:
    assert converted("what is 19 cm in foos") is None
    wish = converted("convert 19 cm to foos")
    assert wish is not None
    assert wish.shown == ""


# -- numbers ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "figures"),
    [
        ("one point two five", "1.25"),
        ("one point four two", "1.42"),
        ("seven point five", "7.5"),
        ("zero point oh six", "0.06"),
        ("point six", "0.6"),
        ("uno coma cero cinco", "1.05"),
    ],
)
def test_a_point_that_is_spoken(said: str, figures: str) -> None:
    assert in_digits(said) == (figures, True)


def test_groups_of_thousands_and_a_point() -> None:
    assert readings("1,234,567.5") == (Fraction("1234567.5"),)


def test_none_in_a_hundred_has_one_reading() -> None:
    none = read(q.HARD, "0")
    assert isinstance(none, Settled)
    assert (none.settled, none.clear) == ("0 %", True)


def test_a_part_that_is_counted_as_one() -> None:
    assert in_digits("two and one half") == ("2 1/2", True)


def test_a_thing_and_a_part_of_it_is_plainly_said() -> None:
    assert in_digits("a pound and a half") == ("1 1/2 pound", True)


def test_a_little_more_than_all_seed_is_refused() -> None:
    assert refused(q.GERM, "100.5 %").code == "percent_over_100"


def test_the_last_weight_gives_all_rows_their_unit() -> None:
    assert settled(q.ROW_WEIGHTS, "0.54 0.57 0.49 kg") == "0.54 kg; 0.57 kg; 0.49 kg"


def test_the_unit_of_a_range_is_told_with_it() -> None:
    about = refused(q.SPACING, "7 to 8 in").about
    assert about == (("low", "7"), ("high", "8"), ("unit", "in"))


# -- names and choices -----------------------------------------------------------------------


def test_the_longer_of_two_names_is_taken_off() -> None:
    wheel = replace(q.ONE_TURN, names=("wheel", "drive wheel"))
    assert settled(wheel, "80 in drive wheel") == "80 in"


def test_a_name_that_is_only_faintly_like_a_known_one_is_its_own() -> None:
    assert settled(q.CROP, "wheel") == "wheel"
    assert isinstance(read(q.CROP, "wheet"), Doubt)


def test_a_variant_is_taken_by_its_name_unless_full_and_empty_are_told() -> None:
    named = replace(
        q.SCALE,
        variants=(
            replace(q.CATCH, names=("net",)),
            Expect("gross_weight", "mass", bare=("lb",), names=("gross", "full")),
        ),
    )
    found = read(named, "gross 2.1")
    assert isinstance(found, Settled)
    assert found.fact == "gross_weight"
    less = read(named, "full 2.1 empty 1.4")
    assert isinstance(less, Settled)
    assert (less.fact, less.settled) == ("catch_weight", "0.7 lb")


def test_a_word_left_over_may_turn_a_choice_round() -> None:
    sides = Expect("halves", "choice", choices=(Choice("one"), Choice("two")))
    assert read_line((sides,), "one side").found == {}


def test_what_is_left_of_a_line_keeps_its_own_signs() -> None:
    assert without("lot X", ()) == "lot X"
    assert corrected_part("no, X7", ("no",), (), ()) == "X7"


TUB = Expect("tare", "mass", bare=("lb",), names=("tub", "tare", "empty"))


@pytest.mark.parametrize(
    "text", ["tub 0.3", "empty tub 0.3 lb", "the empty tub is 0.3", "the tub weighs 0.3"]
)
def test_a_fact_is_named_by_two_of_its_names(text: str) -> None:
    assert settled(TUB, text) == "0.3 lb"


@pytest.mark.parametrize("text", ["1.0 lb, tub 0.3 lb", "1.0 full 0.3 empty", "1.0 lb less 0.3 lb"])
def test_the_weight_of_a_tub_is_no_difference(text: str) -> None:
    """It was: of "0.6 lb, tub 0.3 lb" at the empty tub 0.3 lb was taken, of 1.0 lb 0.7."""
    assert refused(TUB, text).code == "two_numbers"


@pytest.mark.parametrize("text", ["germ 92", "92 germ"])
def test_a_fact_named_before_or_behind_its_value_is_told_early(text: str) -> None:
    told = early((q.GERM,), text)
    assert told is not None
    assert isinstance(told.reading, Settled)
    assert told.reading.value == float(Fraction(92, 100))


def test_a_silent_e_is_no_part_of_a_stem_and_a_first_one_is() -> None:
    assert (stem("weighe"), stem("evenly")) == ("weigh", "evenly")


def test_a_length_names_no_crop() -> None:
    assert refused(q.CROP, '7.5"').code == "not_understood"
    assert refused(q.CROP, "7'").code == "not_understood"


def test_a_thousand_seeds_a_pound_are_not_short_for_a_million() -> None:
    small_seed = replace(q.SEEDS_PER_LB, least=2000 / Fraction("0.45359237"))
    assert settled(small_seed, "1000") == "1000 seed/lb"
    assert settled(small_seed, "999") == "999000 seed/lb"
