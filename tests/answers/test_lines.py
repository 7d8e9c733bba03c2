"""Several facts in one line: for the question asked, told early, or handed back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

import pytest

from assistant.answers.expect import Expect, Line, Settled
from assistant.answers.line import MOST_WORDS, read_line
from tests.answers import questions as q

LATER = (q.TARGET, q.ROWS, q.SPACING, q.CAUGHT, q.GERM, q.HARD, q.PURITY, q.LOT, q.FEED, q.TREATED)
SPREAD = frozenset({"turns", "rows_caught"})


def told(found: Mapping[str, Settled]) -> dict[str, str]:
    return {fact: each.settled for fact, each in found.items()}


def asked(line: Line) -> set[str]:
    return {*line.found, *line.doubts, *line.refused}


def test_an_old_hand_starts_with_one_line() -> None:
    line = read_line((q.CROP,), "wheat 80 lb 24 at 7 1/2 caught 6", LATER)
    assert told(line.found) == {"crop": "wheat"}
    assert told(line.early) == {
        "target": "80 lb/ac",
        "row_count": "24",
        "row_spacing": "7.5 in",
        "rows_caught": "6",
    }
    assert line.early["target"].fact == "target_weight"
    assert not line.unused


@pytest.mark.parametrize(
    ("typed", "crop", "early"),
    [
        ("winter wheat lot A12", "wheat", {"lot": "A12"}),
        ("wheat, treated, germ 92", "wheat", {"treated": "yes", "germination": "92 %"}),
        ("wheat fluted 28 plants/sq ft", "wheat", {"feed": "fluted", "target": "28 plant/ft^2"}),
        ("wheat treated no", "wheat", {"treated": "no"}),
        ("sainfoin 40 lb/ac", "sainfoin", {"target": "40 lb/ac"}),
        ("north field 12", "north field 12", {}),
        ("wheat 24 rows", "wheat", {"row_count": "24"}),
        ("rye", "rye", {}),
        ("@ 12", "@ 12", {}),
    ],
)
def test_a_name_at_the_head_of_a_line_may_be_followed_by_what_names_its_fact(
    typed: str, crop: str, early: dict[str, str]
) -> None:
    line = read_line((q.CROP,), typed, LATER)
    assert told(line.found) == {"crop": crop}
    assert told(line.early) == early
    assert not line.unused


def test_after_a_known_name_what_tells_nothing_is_handed_back() -> None:
    line = read_line((q.CROP,), "rye dog 3", LATER)
    assert (told(line.found), line.unused) == ({"crop": "rye"}, "dog 3")


@pytest.mark.parametrize(
    ("typed", "found", "early"),
    [
        ("germ 92", {}, {"germination": "92 %"}),
        ("lot A12, germ 92, fluted", {"feed": "fluted"}, {"lot": "A12", "germination": "92 %"}),
        ("rye, fluted", {"feed": "fluted"}, {"crop": "rye"}),
    ],
)
def test_where_words_are_asked_a_tag_may_be_read_out_before_the_answer(
    typed: str, found: dict[str, str], early: dict[str, str]
) -> None:
    line = read_line((q.FEED,), typed, [q.CROP, *LATER])
    assert (told(line.found), told(line.early), line.unused) == (found, early, "")


@pytest.mark.parametrize("typed", ["92 fluted", "7,5 lb", "12 in cup"])
def test_where_words_are_asked_no_number_without_its_name_comes_first(typed: str) -> None:
    assert not read_line((q.FEED,), typed, LATER).early


@pytest.mark.parametrize(
    ("typed", "found", "unused"),
    [
        ("80 lb dog 3", {"target": "80 lb/ac"}, "dog 3"),
        ("80 lb 7.5 in", {"target": "80 lb/ac"}, "7.5 in"),
        ("80 lb, and 2 ft", {"target": "80 lb/ac"}, "2 ft"),
        ("80 lb lot a b", {"target": "80 lb/ac"}, "lot a b"),
    ],
)
def test_what_tells_nothing_is_handed_back(typed: str, found: dict[str, str], unused: str) -> None:
    line = read_line((q.TARGET,), typed, LATER[1:])
    assert (told(line.found), line.unused) == (found, unused)


@pytest.mark.parametrize(
    ("question", "typed", "code"),
    [
        (q.GERM, "92 dog 3", "two_numbers"),
        (q.CATCH, "2 lb 3 lb", "two_numbers"),
        (q.CATCH, "3 1/4 1/2", "two_numbers"),
        (q.CATCH, "11.7 fl oz", "volume"),
        (q.CATCH, "2 sacks germ 92 dog", "two_numbers"),
        (q.GERM, "110 %", "percent_over_100"),
        (q.CATCH, "germ 92", "not_a_number"),
        (q.CATCH, "1\n2", "many_lines"),
        (q.CATCH, "7 " * (MOST_WORDS + 1), "list"),
    ],
)
def test_a_line_whose_first_piece_does_not_fit_is_refused_whole(
    question: Expect, typed: str, code: str
) -> None:
    line = read_line((question,), typed, (q.GERM,) if question != q.GERM else ())
    assert line.refused[question.fact].code == code
    assert asked(line) == {question.fact}


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("30, 6", {"turns": "30", "rows_caught": "6"}),
        ("30 6", {"turns": "30", "rows_caught": "6"}),
        ("caught 6, 30 turns", {"turns": "30", "rows_caught": "6"}),
        ("6 caught, 30", {"turns": "30", "rows_caught": "6"}),
        ("caught 6 turns 30", {"turns": "30", "rows_caught": "6"}),
        ("6 rows 30 turns", {"turns": "30", "rows_caught": "6"}),
        ("30", {"turns": "30"}),
        ("6 rows", {"rows_caught": "6"}),
        ("caught 6", {"rows_caught": "6"}),
        ("29 1/2 6", {"turns": "29.5", "rows_caught": "6"}),
        ("30, 6 de", {"turns": "30", "rows_caught": "6"}),
        ("30,5 turns 6", {"turns": "30.5", "rows_caught": "6"}),
    ],
)
def test_a_pair_is_told_in_order_or_by_name(typed: str, found: dict[str, str]) -> None:
    line = read_line((q.TURNS, q.CAUGHT), typed, (), SPREAD)
    assert told(line.found) == found
    assert not line.refused


def test_a_second_name_ends_at_a_comma() -> None:
    line = read_line((q.CROP, q.LOT), "wheat, lot 9, rows 20")
    assert told(line.found) == {"crop": "wheat", "lot": "9"}
    assert line.unused == "rows 20"


def test_a_second_name_that_is_said_to_be_missing_is_none() -> None:
    line = read_line((q.CROP, q.LOT), "winter wheat, i dont have a lot number")
    assert told(line.found) == {"crop": "wheat"}


def test_a_single_value_goes_to_the_one_without_a_proposal() -> None:
    proposed = frozenset({"lever_mark"})
    assert told(read_line((q.MARK, q.CATCH), "0.62", (), proposed).found) == {
        "catch_weight": "0.62 lb"
    }
    both = read_line((q.MARK, q.CATCH), "12 0.62", (), proposed)
    assert told(both.found) == {"lever_mark": "12", "catch_weight": "0.62 lb"}
    named = read_line((q.MARK, q.CATCH), "mark 12", (), proposed)
    assert told(named.found) == {"lever_mark": "12"}


def test_of_a_pair_the_good_one_stays_when_the_other_is_misread() -> None:
    line = read_line((q.ROWS, q.SPACING), "24 at foo")
    assert told(line.found) == {"row_count": "24"}
    assert line.refused["row_spacing"].code == "not_a_number"


def test_half_of_a_pair_leaves_the_other_to_be_asked() -> None:
    assert told(read_line((q.ROWS, q.SPACING), "7.5 in").found) == {"row_spacing": "7.5 in"}
    assert told(read_line((q.ROWS, q.SPACING), "24").found) == {"row_count": "24"}


@pytest.mark.parametrize(
    ("typed", "rows", "spacing"),
    [
        ("15 ft on 7.5 in", 24, "7.5 in"),  # 15 x 12 / 7.5
        ("15 foot drill on 7 1/2", 24, "7.5 in"),
        ("15' at 7.5", 24, "7.5 in"),
        ("20-ft @ 6 in", 40, "6 in"),  # 20 x 12 / 6
        ("6 m at 15 cm", 40, "15 cm"),  # 600 / 15
    ],
)
def test_a_width_and_a_spacing_tell_the_rows_and_are_read_back(
    typed: str, rows: int, spacing: str
) -> None:
    line = read_line((q.ROWS, q.SPACING), typed)
    assert told(line.found) == {"row_count": str(rows), "row_spacing": spacing}
    assert not any(each.clear for each in line.found.values())


@pytest.mark.parametrize("typed", ["15 ft on 7 in", "2 ft on 12 in", "15 ft", "15 ft on dirt"])
def test_a_width_that_holds_no_whole_rows_tells_nothing(typed: str) -> None:
    assert "row_count" not in read_line((q.ROWS, q.SPACING), typed).found


def test_a_doubt_in_a_pair_leaves_the_clear_one_found() -> None:
    line = read_line((q.ROWS, q.SPACING_EITHER), "24 at 19")
    assert told(line.found) == {"row_count": "24"}
    assert [each.settled for each in line.doubts["row_spacing"].readings] == ["19 in", "19 cm"]


def test_two_numbers_with_a_comma_between_are_asked_or_read_as_two() -> None:
    asked_about = read_line((q.TURNS, q.CAUGHT), "30,6")
    assert [each.settled for each in asked_about.doubts["turns"].readings] == ["30.6", "30"]
    two = read_line((q.ROWS, q.CAUGHT), "24,6")
    assert told(two.found) == {"row_count": "24", "rows_caught": "6"}
    assert not two.found["row_count"].clear
    none = read_line((q.ROWS, q.FEED), "24,6")
    assert none.refused["row_count"].code == "not_whole"


def test_a_pair_refused_whole_blames_the_question_without_a_proposal() -> None:
    line = read_line((q.MARK, q.CATCH), "heavy", (), frozenset({"lever_mark"}))
    assert line.refused["catch_weight"].code == "not_a_number"
    long = read_line((q.ROWS, q.SPACING), "24 " * (MOST_WORDS + 1))
    assert long.refused["row_count"].code == "list"
    many = read_line((q.COUNTED, q.COUNTED_WEIGHT), "24 " * (MOST_WORDS + 1))
    assert len(told(many.found)["seeds_counted"].split("; ")) == MOST_WORDS + 1


def test_a_doubt_at_a_single_question_is_a_doubt() -> None:
    line = read_line((q.WALK,), "8")
    assert [each.settled for each in line.doubts["walk"].readings] == ["8 ft", "8 m"]


@pytest.mark.parametrize(
    "typed", ["10 turns 24.5", "10 turns, 24.5", "10 turns = 24.5 ft", "10 24.5 ft", "24.5 ft 10"]
)
def test_a_unit_belongs_to_the_number_before_it(typed: str) -> None:
    line = read_line((q.TURNS, replace(q.WALK, bare=("ft",))), typed)
    assert told(line.found) == {"turns": "10", "walk": "24.5 ft"}


@pytest.mark.parametrize("parted", [" ", ", ", "; ", " and ", " / "])
@pytest.mark.parametrize("many", range(2, 13))
def test_weights_of_rows_leave_the_setting_before_them_as_it_is(parted: str, many: int) -> None:
    weights = [str(26 + row % 5) for row in range(many)]
    if parted == " / " and many == 2:
        return
    rows = replace(q.ROW_WEIGHTS, fact="row_weights", as_many=many)
    pair = (q.OPENING_MM, replace(q.CATCH_G, fact="catch", variants=(q.CATCH_G, rows)))
    line = read_line(pair, parted.join(weights), (), frozenset({"opening"}))
    assert told(line.found) == {"catch": "; ".join(f"{each} g" for each in weights)}
    moved = read_line(pair, f"16 mm, {parted.join(weights)} g", (), frozenset({"opening"}))
    assert told(moved.found) == {"opening": "16 mm", **told(line.found)}
    assert line.found["catch"].fact == moved.found["catch"].fact == "row_weights"


def test_an_opening_and_one_weight_are_no_two_rows() -> None:
    rows = replace(q.ROW_WEIGHTS, as_many=6)
    pair = (q.OPENING_MM, replace(q.CATCH_G, fact="catch", variants=(q.CATCH_G, rows)))
    for typed in ("16, 636 g", "16 636", "16 mm 636"):
        line = read_line(pair, typed, (), frozenset({"opening"}))
        assert told(line.found) == {"opening": "16 mm", "catch": "636 g"}


@pytest.mark.parametrize("typed", ["5, 26 g", "5 26", "5 mm 26"])
def test_where_two_rows_are_caught_two_numbers_far_apart_are_a_setting_and_a_weight(
    typed: str,
) -> None:
    rows = replace(q.ROW_WEIGHTS, as_many=2)
    pair = (q.OPENING_MM, replace(q.CATCH_G, fact="catch", variants=(q.CATCH_G, rows)))
    line = read_line(pair, typed, (), frozenset({"opening"}))
    assert told(line.found) == {"opening": "5 mm", "catch": "26 g"}
    near = read_line(pair, "24, 26 g", (), frozenset({"opening"}))
    assert told(near.found) == {"catch": "24 g; 26 g"}
    assert not near.found["catch"].clear


def test_two_numbers_of_which_one_is_no_usual_weight_are_a_setting_and_a_weight() -> None:
    """They were two rows of 5 g and 12 g, and asked about as such."""
    least, most = Fraction(10, 1000), Fraction(90, 1000)
    rows = replace(q.ROW_WEIGHTS, as_many=2, usual_least=least, usual_most=most)
    pair = (q.OPENING_MM, replace(q.CATCH_G, fact="catch", variants=(q.CATCH_G, rows)))
    line = read_line(pair, "5, 12 g", (), frozenset({"opening"}))
    assert told(line.found) == {"opening": "5 mm", "catch": "12 g"}


@pytest.mark.parametrize("typed", ["8 x 75 g", "8 x 75", "8 times 75 g", "75 g each", "75 a row"])
def test_so_many_of_one_weight_are_rows_and_no_setting(typed: str) -> None:
    rows = replace(q.ROW_WEIGHTS, as_many=8, bare=("g",))
    pair = (q.OPENING_MM, replace(q.CATCH_G, fact="catch", variants=(q.CATCH_G, rows)))
    line = read_line(pair, typed, (), frozenset({"opening"}))
    assert told(line.found) == {"catch": "; ".join(["75 g"] * 8)}


def test_lists_in_a_pair_are_parted_by_their_units_or_a_comma() -> None:
    pair = (q.COUNTED, q.COUNTED_WEIGHT)
    for typed in ("312 318 305, 11.4 11.6 11.2", "312 318 305 11.4 g 11.6 g 11.2 g"):
        assert told(read_line(pair, typed).found) == {
            "seeds_counted": "312; 318; 305",
            "counted_weight": "11.4 g; 11.6 g; 11.2 g",
        }
    uneven = read_line((q.COUNTED, replace(q.COUNTED, fact="other")), "98, 90 88")
    assert told(uneven.found) == {"seeds_counted": "98;", "other": "90; 88"}
    single = read_line(pair, "312 seeds, 11.4 g")
    assert told(single.found) == {"seeds_counted": "312;", "counted_weight": "11.4 g;"}


@pytest.mark.parametrize(
    ("typed", "early"),
    [
        ("24 at 7 1/2", {"row_spacing": "7.5 in"}),
        ("24 x 7.5", {"row_spacing": "7.5 in"}),
        ("24 rows at 7,5 in", {"row_spacing": "7.5 in"}),
        ("24 rows 80 lb/ac", {"target": "80 lb/ac"}),
        ("24 rows spacing 7.5", {"row_spacing": "7.5 in"}),
        ("24 rows fluted", {"feed": "fluted"}),
        ("24 rows lot B", {"lot": "B"}),
    ],
)
def test_after_the_rows_more_is_told_early(typed: str, early: dict[str, str]) -> None:
    line = read_line((q.ROWS,), typed, (q.TARGET, q.SPACING, q.LOT, q.FEED))
    assert (told(line.found), told(line.early), line.unused) == ({"row_count": "24"}, early, "")


@pytest.mark.parametrize(
    ("typed", "others"),
    [
        ("24 rows 7.5 in", (q.SPACING, q.OPENING)),
        ("24 rows 90 %", (q.GERM, q.PURITY)),
        ("24 rows spacing 19", (q.SPACING_EITHER,)),
        ("24 rows 80 lb", (q.RATE,)),
        ("24 rows 80 lb/ac", (q.RATE, q.TARGET)),
        ("24 rows lot", (q.LOT,)),
        ("24 rows at 7.5", (q.SPACING, q.SPACING_EITHER)),
        ("24 rows 7 smoots", (q.SPACING,)),
    ],
)
def test_what_could_be_more_than_one_fact_is_never_told_early(
    typed: str, others: Sequence[Expect]
) -> None:
    line = read_line((q.ROWS,), typed, others)
    assert told(line.found) == {"row_count": "24"}
    assert not line.early
    assert line.unused


def test_rows_and_spacing_early_need_a_fact_for_each() -> None:
    line = read_line((q.TARGET,), "80 lb 24 at 7.5", (q.SPACING,))
    assert line.unused == "24 at 7.5"


def test_a_named_value_is_no_answer_to_another_question() -> None:
    line = read_line((q.ROWS, q.SPACING), "germ 92 lot 12", (q.LOT, q.GERM))
    assert "row_count" not in line.found
    both = read_line((q.ROWS, q.SPACING), "germ 92 lot 12, 24 rows 7.5", (q.LOT, q.GERM))
    assert told(both.found) == {"row_count": "24", "row_spacing": "7.5 in"}
    assert told(both.early) == {"germination": "92 %", "lot": "12"}


def test_a_fact_is_told_early_only_once() -> None:
    line = read_line((q.TARGET,), "80 lb germ 92, germ 95", (q.GERM,))
    assert told(line.early) == {"germination": "92 %"}
    assert line.unused == "germ 95"
    spaced = read_line((q.TARGET,), "80 lb spacing 7, 24 at 7.5", (q.ROWS, q.SPACING))
    assert told(spaced.early) == {"row_count": "24", "row_spacing": "7.5 in"}
    assert spaced.unused == "spacing 7"


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("wheat, lot 4471", {"crop": "wheat", "lot": "4471"}),
        ("wheat lot A12", {"crop": "wheat", "lot": "A12"}),
        ("winter wheat 7b", {"crop": "wheat", "lot": "7b"}),
        ("sainfoin; 4471", {"crop": "sainfoin", "lot": "4471"}),
        ("sainfoin", {"crop": "sainfoin"}),
        ("sainfoin 12", {"crop": "sainfoin 12"}),
        ("wheat,", {"crop": "wheat"}),
        ("lot 5", {"crop": "lot 5"}),
    ],
)
def test_two_names_are_parted_by_a_comma_by_a_name_or_by_a_known_name(
    typed: str, found: dict[str, str]
) -> None:
    assert told(read_line((q.CROP, q.LOT), typed).found) == found


def test_a_second_name_that_is_too_long_leaves_the_line_as_one() -> None:
    line = read_line((q.CROP, q.LOT), "wheat, " + "x" * 81)
    assert line.refused["crop"].code == "too_long"


@pytest.mark.parametrize("typed", ["wheat germ 92, lot 9", "wheat, lot 9 germ 92"])
def test_what_is_told_between_two_names_or_after_them_is_taken_early(typed: str) -> None:
    line = read_line((q.CROP, q.LOT), typed, (q.GERM,))
    assert told(line.found) == {"crop": "wheat", "lot": "9"}
    assert told(line.early) == {"germination": "92 %"}


@pytest.mark.parametrize(
    ("typed", "slow", "fast"),
    [
        ("4-6 mph", "4 mi/h", "6 mi/h"),
        ("4 to 6", "4 mi/h", "6 mi/h"),
        ("from 8 to 10 km/h", "8 km/h", "10 km/h"),
        ("5 1/2 - 6 mph", "5.5 mi/h", "6 mi/h"),
        ("4 6", "4 mi/h", "6 mi/h"),
    ],
)
def test_two_speeds_may_be_told_as_from_one_to_the_other(typed: str, slow: str, fast: str) -> None:
    speed = Expect("slowest", "speed", bare=("mi/h",))
    line = read_line((speed, replace(speed, fact="fastest")), typed)
    assert told(line.found) == {"slowest": slow, "fastest": fast}


def test_a_range_is_no_two_values_of_other_kinds() -> None:
    assert told(read_line((q.ROWS, q.SPACING), "20-24").found) == {}


def test_a_pair_in_the_order_asked_with_a_doubt_is_not_turned_round() -> None:
    turns = Expect("meter_turns", "turns")
    catch = Expect("meter_catch", "mass", bare=("lb",))
    line = read_line((turns, catch), "20, 3.12", (), frozenset({"meter_turns"}))
    assert told(line.found) == {"meter_turns": "20"}
    assert [each.settled for each in line.doubts["meter_catch"].readings] == ["3.12 lb", "60 oz"]


@pytest.mark.parametrize("typed", ["6 rows, approx 30", "6 rows, about 30 turns", "6, roughly 30"])
def test_a_rough_count_in_a_line_is_refused_as_it_is_alone(typed: str) -> None:
    """The word was left unused, and the number taken as counted."""
    line = read_line((q.ROWS, q.TURNS), typed)
    assert told(line.found) == {"row_count": "6"}
    assert line.refused["turns"].code == "about"
