"""A typed word to a choice, or the choice that it nearly is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.answers.choice import one_slip
from assistant.answers.expect import Choice, Doubt, Expect, Refusal, Settled
from assistant.answers.read import judge, read
from tests.answers import questions as q

CROPS = Expect(
    "crop", "choice", choices=(Choice("wheat"), Choice("winter_rye"), Choice("winter_barley"))
)


CROPS_TOLD = Expect("crop", "choice", choices=(Choice("rye"), Choice("keep", ("keep it",))))


@pytest.mark.parametrize(
    ("typed", "name"),
    [("fluted", "fluted"), ("Roller", "fluted"), ("double run", "double_run"), ("2", "double_run")],
)
def test_a_choice_is_named_in_full_by_another_word_or_by_number(typed: str, name: str) -> None:
    assert read(q.FEED, typed) == Settled("feed", name, name)


@pytest.mark.parametrize("typed", ["rye", "we rye it", "I rye", "rye it"])
def test_who_did_it_is_no_part_of_a_choice(typed: str) -> None:
    assert read(CROPS_TOLD, typed) == Settled("crop", "rye", "rye")


def test_the_beginning_of_one_choice_is_worth_a_read_back() -> None:
    assert read(q.FEED, "doub") == Settled("feed", "double_run", "double_run", clear=False)


@pytest.mark.parametrize("typed", ["wheat?", "1?", "wheat ?"])
def test_a_choice_that_is_asked_is_asked_back(typed: str) -> None:
    assert read(CROPS, typed) == Refusal("unknown_choice", typed, (("likely", "wheat"),))


@pytest.mark.parametrize("typed", ["yes", "no", "ok", "sí", "nope"])
def test_yes_and_no_are_no_names(typed: str) -> None:
    assert isinstance(read(q.LOT, typed), Refusal)


@pytest.mark.parametrize("typed", ["1", "81.5 in", "1.2 lb", "6'"])
def test_a_value_is_no_crop(typed: str) -> None:
    assert isinstance(read(q.CROP, typed), Refusal)


@pytest.mark.parametrize("typed", ["80#", "80 lb", "80 lb/ac", "80 lbs an acre", "90 kg", ".", "?"])
def test_a_weight_of_seed_or_no_letter_is_no_name(typed: str) -> None:
    assert isinstance(read(q.LOT, typed), Refusal)
    assert isinstance(read(q.CROP, typed), Refusal)


@pytest.mark.parametrize("typed", ["80", "204G", "A-12", "the 30 ft", "30 ft", "12 b"])
def test_what_looks_a_little_like_a_weight_may_be_a_name(typed: str) -> None:
    assert read(q.LOT, typed) == Settled("lot", typed, typed)


def test_the_beginning_of_two_choices_is_asked() -> None:
    asked = read(CROPS, "winter")
    assert isinstance(asked, Doubt)
    assert [each.settled for each in asked.readings] == ["winter_rye", "winter_barley"]


def test_two_letters_begin_nothing() -> None:
    assert isinstance(read(q.FEED, "fl"), Refusal)


@pytest.mark.parametrize("typed", ["weat", "whaet", "wheeat", "wheet", "wheats"])
def test_a_slip_of_one_letter_is_refused_with_the_likely_choice(typed: str) -> None:
    assert read(CROPS, typed) == Refusal("unknown_choice", typed, (("likely", "wheat"),))


@pytest.mark.parametrize("typed", ["some wheat", "wheat rye", "the wheat i think"])
def test_a_line_with_the_words_of_one_choice_is_refused_with_that_choice(typed: str) -> None:
    assert read(CROPS, typed) == Refusal("unknown_choice", typed, (("likely", "wheat"),))


@pytest.mark.parametrize("typed", ["maize", "9", "0", "no wheat", "wheat or barley", "wheatish"])
def test_a_word_that_is_no_choice_is_refused(typed: str) -> None:
    assert read(CROPS, typed) == Refusal("unknown_choice", typed)


@pytest.mark.parametrize(
    ("typed", "name"),
    [("yep", "yes"), ("sí", "yes"), ("nope", "no"), ("not sure", "not_sure"), ("👍", "yes")],
)
def test_yes_and_no_in_any_words_are_choices_where_yes_and_no_are(typed: str, name: str) -> None:
    assert read(q.TREATED, typed) == Settled("treated", name, name)


def test_a_name_is_kept_as_typed_and_a_known_one_is_recognised() -> None:
    assert read(q.LOT, "  A12 / b  ") == Settled("lot", "A12 / b", "A12 / b")
    assert read(q.CROP, "Winter Wheat") == Settled("crop", "wheat", "wheat")
    assert read(q.CROP, "sainfoin") == Settled("crop", "sainfoin", "sainfoin")
    assert read(q.LOT, "x" * 81) == Refusal("too_long", "x" * 37 + "...", (("most", "80"),))
    assert read(q.LOT, "x" * 301) == Refusal("too_long", "x" * 37 + "...", (("most", "300"),))


def test_a_name_with_a_slip_may_be_the_known_one_or_its_own() -> None:
    asked = read(q.CROP, "wheet")
    assert isinstance(asked, Doubt)
    assert [each.settled for each in asked.readings] == ["wheat", "wheet"]


def test_of_a_unit_that_does_not_fit_the_unit_is_told_back() -> None:
    other = read(q.CATCH, "5 acres")
    assert isinstance(other, Refusal)
    assert (other.code, other.about) == ("unit_of_another_kind", (("unit", "acres"),))


def test_of_an_about_the_number_is_told_back() -> None:
    about = read(q.TURNS, "about 30")
    assert isinstance(about, Refusal)
    assert about.about == (("value", "30"),)


def test_words_are_never_judged() -> None:
    assert judge(q.LOT, Settled("lot", "A12", "A12")) is None


def test_what_is_heard_can_not_drive_a_terminal() -> None:
    refusal = read(q.CATCH, "\x1b]0;title\x07 \u202e7\nlb")
    assert refusal == Refusal("control", "]0;title 7 lb")


@pytest.mark.parametrize(
    ("one", "other", "slip"),
    [("rye", "rye", False), ("wheat", "what", True), ("oat", "oats", True), ("pe", "pea", False)],
)
def test_one_slip_is_one_letter(one: str, other: str, slip: bool) -> None:
    assert one_slip(one, other) is slip
    assert one_slip(other, one) is slip


def test_variants_of_one_kind_go_to_the_first_unless_a_list_is_told() -> None:
    first = read(q.SCALE, "0.73 lb")
    assert isinstance(first, Settled)
    assert first.fact == "catch_weight"
    rows = read(q.SCALE, "0.54 0.57 0.49")
    assert isinstance(rows, Settled)
    assert rows.settled == "0.54 lb; 0.57 lb; 0.49 lb"
    either = read(q.SCALE, "54,57 lb")
    assert isinstance(either, Doubt)
    assert [each.fact for each in either.readings] == ["catch_weight", "row_weights"]
    tub_first = replace(q.SCALE, variants=q.SCALE.variants[1:])
    gross = read(tub_first, "0.73 lb")
    assert isinstance(gross, Settled)
    assert gross.fact == "gross_weight"


def test_of_the_variants_refusals_the_clearest_is_given() -> None:
    assert read(q.TARGET, "-80 lb") == Refusal("negative", "-80 lb")
    assert read(q.TARGET, "2 quintales") == Refusal(
        "unit_varies", "2 quintales", (("unit", "quintales"),)
    )
    none_live = replace(q.TARGET, variants=q.TARGET.variants[:2])
    assert read(none_live, "10 lb PLS/ac") == Refusal("unit_of_another_kind", "10 lb PLS/ac")
