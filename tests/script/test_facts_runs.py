"""Named facts in, outcome and exit code out."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from assistant.dialogue.log import UNKNOWN
from tests.script.running import BASE, CUP, Facts, calibrate, run, without

LIGHT: Facts = {"catch_weight": "1.1 lb"}
ON_TARGET, AGREES = BASE["trials"]


def with_trials(*trials: Facts) -> Facts:
    return {**BASE, "trials": list(trials)}


# -- a whole job ------------------------------------------------------------------------------


@pytest.mark.parametrize("facts", [BASE, CUP], ids=["fluted", "cup"])
def test_a_whole_file_ends_proven(facts: Facts) -> None:
    ran = run(facts)
    assert (ran.code, ran.data["finished"], ran.data["outcome"]) == (0, True, "proven")
    assert ran.sitting.card


def test_the_order_of_a_file_does_not_matter() -> None:
    turned = {name: BASE[name] for name in reversed(list(BASE))}
    assert run(turned).data == run(BASE).data


# -- trials -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("trials", "outcome"),
    [
        ((LIGHT,), "light"),
        (({"catch_weight": "1.7 lb"},), "heavy"),
        ((ON_TARGET,), "on_target"),
        (({"catch_weight": "0 lb"},), "nothing_caught"),
        ((ON_TARGET, {"catch_weight": "1.75 lb"}), "put_aside"),
        ((ON_TARGET, {"catch_weight": "1.49 lb"}), "near_heavy"),
        (({"catch_weight": "1.335 lb"},), "near_light"),
    ],
)
def test_trials_used_up_after_a_judged_catch_are_a_result(
    trials: tuple[Facts, ...], outcome: str
) -> None:
    ran = run(with_trials(*trials))
    assert (ran.code, ran.data["finished"], ran.data["outcome"]) == (0, False, outcome)
    assert ran.data["needs"]["name"] == "catch_weight"
    assert len(ran.data["series"]["trials"]) == len(trials)


def test_trials_used_up_before_one_are_a_lack() -> None:
    ran = run(without(BASE, "trials"))
    assert (ran.code, ran.data["outcome"]) == (3, None)
    assert ran.data["needs"]["kind"] == "fact"
    assert ran.data["needs"]["name"] == "catch_weight"
    assert "scale show" in ran.data["needs"]["question"]


def test_a_row_without_its_catch_is_a_lack_even_after_a_judged_one() -> None:
    ran = run(with_trials(LIGHT, {"opening": "17 mm"}))
    assert (ran.code, ran.data["outcome"]) == (3, "light")
    assert ran.data["needs"]["name"] == "catch_weight"


def test_a_row_alone_means_that_it_was_set_as_proposed() -> None:
    ran = run(with_trials(LIGHT, {"catch_weight": "1.4 lb"}))
    first, second = ran.data["series"]["trials"]
    assert first["opening"]["value"] == pytest.approx(0.014)
    assert second["opening"]["value"] == pytest.approx(
        0.0175
    )  # by a feed that begins at 1 mm 1 + 13 x 1.4032 / 1.1


def test_what_was_set_otherwise_is_told_in_its_row() -> None:
    ran = run(with_trials(LIGHT, {"opening": "17.5 mm", "catch_weight": "1.4 lb"}))
    assert ran.data["series"]["trials"][1]["opening"]["shown"] == "17.5 mm"


@pytest.mark.parametrize(
    "weights", [["105 g", "106 g", "107 g", "104 g", "106 g", "105 g"], "105 106 107 104 106 105 g"]
)
def test_rows_may_be_a_list_or_one_line(weights: str | list[str]) -> None:
    ran = run(with_trials({"row_weights": weights}))
    assert ran.code == 0
    assert ran.facts["row_weights"]["value"] == pytest.approx(
        [0.105, 0.106, 0.107, 0.104, 0.106, 0.105]
    )
    assert ran.value("row_cv") == pytest.approx(0.009941, abs=1e-6)  # 1.0488 g of 105.5 g


def test_the_spread_of_rows_and_what_the_others_leave_open_are_those_of_scipy() -> None:
    weighed = np.array([105.0, 106, 107, 104, 106, 105])
    ran = run(with_trials({"row_weights": [f"{each} g" for each in weighed]}))
    spread = stats.variation(weighed, ddof=1)
    assert ran.value("row_cv") == pytest.approx(spread, rel=1e-12)
    # 6 of 24 rows; Cochran, Sampling Techniques, 2.6, from memory
    error = stats.sem(weighed, ddof=1) / weighed.mean() * np.sqrt(1 - 6 / 24)
    reach = stats.t.ppf(0.975, df=5) * error
    assert ran.value("rows_left_open") == pytest.approx(reach, rel=1e-6)


ODD_ROWS = {"row_weights": "80; 70; 82; 69; 79; 71 g"}


def test_odd_rows_wait_for_what_was_done_about_them() -> None:
    ran = run(with_trials(ODD_ROWS))
    assert (ran.code, ran.data["needs"]["name"]) == (3, "rows_mended")
    assert ran.data["needs"]["accepts"] == ["mended", "as_they_are"]


def test_odd_rows_that_stay_are_judged_by_their_sum() -> None:
    ran = run({**with_trials(ODD_ROWS), "rows_mended": "as_they_are"})
    assert ran.value("percent_off") == pytest.approx(451 / 636.4975577 - 1, abs=1e-6)
    assert ran.facts["light_rows"]["value"] == [2, 4, 6]


def test_a_gross_weight_loses_its_tub() -> None:
    weighed = {**with_trials({"gross_weight": "2.59 lb"}), "tare": "1.2 lb"}
    ran = run(weighed)
    assert ran.data["outcome"] == "on_target"
    assert ran.value("percent_off") == pytest.approx(1.39 / 1.40324 - 1, abs=1e-5)


def test_trials_left_over_at_the_end_are_noted() -> None:
    ran = run(with_trials(ON_TARGET, AGREES, LIGHT))
    assert ran.data["outcome"] == "proven"
    assert ran.data["notes"] == ["Given, but not asked on this road: trials."]


# -- the other half ---------------------------------------------------------------------------

OTHER: Facts = {
    "wheel_method": "taped",
    "distance_per_turn": "80 in",
    "rows_caught": 6,
    "turns": 30,
    "final_lever_mark": "5",
    "trials": [{"catch_weight": "1.37 lb"}, {"catch_weight": "1.38 lb"}],
}
HALVES: Facts = {**BASE, "drive_halves": "two", "other_half": OTHER}


def test_the_other_half_has_its_own_table_and_its_own_trials() -> None:
    ran = run(HALVES)
    assert (ran.code, ran.data["outcome"], ran.data["notes"]) == (0, "proven", [])
    # 80 lb/ac on 6 rows of 7.5 in, 30 turns of 80 in: 108,000 sq in = 750 sq ft
    ounce_free = 80 * 750 / 43_560 * 0.45359237
    assert ran.value("other_half.target_catch") == pytest.approx(ounce_free, rel=1e-9)
    assert [len(ran.data["series"][n]) for n in ("trials", "other_half.trials")] == [2, 2]
    assert set(ran.data["series"]["other_half.trials"][0]) == {"opening", "catch_weight"}


def test_without_trials_of_its_own_the_other_half_lacks_them() -> None:
    ran = run({**HALVES, "other_half": without(OTHER, "trials")})
    assert ran.code == 3
    assert ran.data["needs"]["name"] == "other_half.catch_weight"


# -- cautions ---------------------------------------------------------------------------------


def test_without_cautions_read_a_run_ends_at_the_first_one() -> None:
    ran = run(without(BASE, "cautions_read"))
    assert ran.code == 3
    needs = ran.data["needs"]
    assert (needs["kind"], needs["name"]) == ("caution", "raised_drill")
    assert needs["accepts"] == ["jack"]
    assert "fall" in needs["question"]


def test_treated_seed_has_its_caution_before_the_target() -> None:
    ran = run({**without(BASE, "cautions_read"), "treated": "not_sure"})
    assert ran.code == 3
    assert ran.data["needs"]["name"] == "treated_seed"
    assert "target" not in ran.facts


def test_a_caution_passed_by_a_line_leads_to_the_next_one() -> None:
    ran = run(without(BASE, "cautions_read"), ["jack"])
    assert ran.code == 3
    assert (ran.data["needs"]["kind"], ran.data["needs"]["accepts"]) == ("list", ["done"])
    ran = run(without(BASE, "cautions_read"), ["jack", "done"])
    assert (ran.data["needs"]["kind"], ran.data["needs"]["accepts"]) == ("caution", ["ok"])


def test_the_review_waits_where_cautions_were_not_read() -> None:
    lines = ["jack", "done", "ok", "done"]
    ran = run(without(BASE, "cautions_read"), lines)
    assert (ran.code, ran.data["finished"]) == (3, False)
    assert ran.data["needs"]["kind"] == "review"
    assert run(without(BASE, "cautions_read"), [*lines, ""]).data["finished"]


# -- what lacks -------------------------------------------------------------------------------


def test_a_fact_that_can_not_be_done_without_ends_the_run() -> None:
    ran = run(without(BASE, "target"))
    assert ran.code == 3
    assert (ran.data["needs"]["kind"], ran.data["needs"]["name"]) == ("fact", "target")
    assert "How much seed" in ran.data["needs"]["question"]
    assert ran.sitting.kept


def test_a_natural_pair_is_needed_as_a_list() -> None:
    ran = run(without(BASE, "row_count", "row_spacing"))
    assert ran.data["needs"]["name"] == ["row_count", "row_spacing"]
    ran = run(without(BASE, "row_count"))
    assert ran.data["needs"]["name"] == "row_count"


def test_a_choice_that_lacks_names_what_it_accepts() -> None:
    ran = run(without(BASE, "feed"))
    feeds = ["fluted", "cup", "cell", "small_seed", "agitated", "double_run"]
    assert ran.data["needs"]["accepts"] == feeds


def test_without_json_what_lacks_is_told_on_the_error_stream() -> None:
    ran = run(without(BASE, "target"), as_json=False)
    assert ran.err == "Needed to go on: target.\n"


# -- don't know -------------------------------------------------------------------------------


def test_a_guess_stands_in_and_is_marked() -> None:
    plants = {"target": "28 plants per sq ft", "seeds_per_weight": "12,500", "germination": "90 %"}
    ran = run({**BASE, **plants})
    assert ran.code == 0
    assert ran.value("emergence") == pytest.approx(0.85)
    assert ran.facts["emergence"]["guess"]
    assert ran.facts["emergence"]["from"] == "a guess"
    assert ran.facts["bulk_rate"]["from"] == calibrate().word("from.worked_out_guess")


def test_a_fact_that_can_be_gone_without_is_not_known() -> None:
    ran = run(without(BASE, "lot"))
    assert ran.code == 0
    assert ran.facts["lot"]["value"] is None
    assert ran.facts["lot"]["shown"] == "not known"


def test_a_way_to_find_out_is_entered_only_if_one_of_its_facts_is_given() -> None:
    seeds = {**BASE, "target": "30 seeds per sq ft"}
    ran = run(seeds)
    assert (ran.code, ran.data["needs"]["name"]) == (3, "seeds_per_weight")
    ran = run({**seeds, "seeds_counted": [100, 100], "counted_weight": ["3.6 g", "3.7 g"]})
    assert ran.code == 0
    assert ran.value("seeds_per_weight") == pytest.approx(200 / 0.0073)
    ran = run({**seeds, "seeds_counted": [100]})
    assert (ran.code, ran.data["needs"]["name"]) == (3, "counted_weight")


def test_what_is_proposed_is_taken() -> None:
    ran = run(without(BASE, "rows_caught", "turns"))
    assert ran.code == 0
    assert (ran.value("rows_caught"), ran.value("turns")) == (6, 40)


# -- refused ----------------------------------------------------------------------------------


def test_two_readings_end_the_run_and_both_are_named() -> None:
    ran = run({**BASE, "distance_per_turn": "6.10"})
    refused = ran.data["refused"]
    assert (ran.code, refused["code"]) == (4, "two_readings")
    assert refused["readings"] == ["6.1 ft", "82 in"]
    assert refused["facts"] == ["distance_per_turn"]
    assert refused["file"] == "facts.toml"
    assert refused["line"] > 1


@pytest.mark.parametrize(
    ("name", "text", "code"),
    [
        ("row_count", "0", "zero"),
        ("row_count", "5000", "too_big"),
        ("row_spacing", "200 in", "too_big"),
        ("row_spacing", "7.5 lb", "unit_of_another_kind"),
        ("turns", "-3", "negative"),
        ("turns", "1e99", "too_big"),
        ("target", "lots", "not_a_number"),
        ("feed", "wide", "unknown_choice"),
        ("rows_caught", "25", "too_big"),
        ("start_opening", "41 mm", "too_big"),
    ],
)
def test_the_impossible_is_refused_by_name(name: str, text: str, code: str) -> None:
    ran = run({**BASE, name: text})
    refused = ran.data["refused"]
    assert (ran.code, refused["code"], refused["facts"]) == (4, code, [name])
    assert not ran.data["finished"]


def test_an_impossible_row_is_refused_with_its_line() -> None:
    ran = run(with_trials(LIGHT, {"catch_weight": "many"}))
    refused = ran.data["refused"]
    assert (ran.code, refused["facts"], refused["code"]) == (4, ["catch_weight"], "not_a_number")
    assert ran.data["outcome"] == "light"
    file_lines = len(BASE) - 1  # all but the trials, a line each
    assert refused["line"] == file_lines + 5


def test_without_json_a_refusal_names_file_line_and_fact() -> None:
    ran = run({**BASE, "row_count": "0"}, as_json=False)
    assert ran.err.splitlines()[0] == "facts.toml, line 4, row_count:"
    assert "can't be zero" in ran.err


def test_all_unknown_names_are_told_at_once() -> None:
    ran = run({**BASE, "row_number": 24, "spacing": "7.5 in", "turns": 29.5})
    assert ran.code == 4
    assert set(ran.data["refused"]["facts"]) == {"row_number", "spacing", "turns"}
    assert len(ran.data["refused"]["text"].splitlines()) == 3
    assert not ran.facts


def test_a_file_that_is_not_toml_ends_with_2_and_its_line() -> None:
    ran = run("turns = 3\nturns = = 3\n")
    assert (ran.code, ran.data["refused"]["code"]) == (2, "unreadable")
    assert "line 2" in ran.data["refused"]["text"]


# -- used, and noted --------------------------------------------------------------------------


def test_the_unusual_is_used_and_noted() -> None:
    ran = run({**BASE, "row_count": 150})
    assert (ran.code, ran.data["outcome"]) == (0, "proven")
    assert ran.facts["row_count"]["unusual"]
    assert ran.data["notes"] == ["row_count 150 is out of the usual. Used as given."]


def test_what_the_road_does_not_ask_is_noted() -> None:
    ran = run({**BASE, "emergence": 85, "axle_height": "14 in"})
    assert ran.code == 0
    assert ran.data["notes"] == [
        "Given, but not asked on this road: axle_height.",
        "Given, but not asked on this road: emergence.",
    ]


def test_what_may_still_be_asked_is_not_noted() -> None:
    ran = run(with_trials(LIGHT))
    assert "final_lever_mark" not in ran.facts
    assert ran.data["notes"] == []


def test_what_a_part_only_looks_at_is_used_where_it_is_given() -> None:
    ran = run({**BASE, "seeds_per_weight": "12,500"})
    assert ran.code == 0
    assert ran.value("seeds_per_area") == pytest.approx(80 * 12_500 / 4046.8564224)
    ran = run({**BASE, "target": "30 seeds/sq ft", "seeds_per_weight": "12,500", "purity": "90 %"})
    assert ran.code == 0
    assert ran.facts["seed_counted_as"]["guess"]


def test_a_text_answers_once_and_never_runs_in_a_circle() -> None:
    live = {"target": "10 lb PLS/ac", "purity": "98 %", "germination": "95 %", "hard_seed": "9 %"}
    ran = run({**BASE, **live})
    assert (ran.code, ran.data["needs"]["name"]) == (3, ["germination", "hard_seed"])
    counts = {"seeds_counted": [100, 99, 98], "counted_weight": ["3 g", "4 g"]}
    ran = run({**BASE, "target": "30 seeds per sq ft", **counts})
    assert (ran.code, ran.data["needs"]["name"]) == (3, "seeds_counted")
    little = {"catch_weight": "0.3 lb"}
    ran = run({**CUP, "trials": [little, {"lever_mark": "10", **little}], "other_range": "yes"})
    assert (ran.code, ran.data["needs"]["name"]) == (3, ["start_range", "start_mark"])


# -- limits -----------------------------------------------------------------------------------


def test_a_limit_is_changed_and_its_half_follows() -> None:
    at_first = run(BASE).facts
    assert "tolerance" not in at_first
    ran = run({**BASE, "tolerance": "3 %"})
    assert ran.value("tolerance") == pytest.approx(0.03)
    # 97 % of 1.4032 lb is 1.3611 lb; the scale of 0.01 lb shows 1.37 lb next
    assert ran.value("reading_low") == pytest.approx(1.37 * 0.45359237)
    # 1.39 and 1.41 lb differ by 1.43 % of their mean: more than 1 %, less than 1.5 %
    assert run({**CUP, "tolerance": "3 %"}).data["outcome"] == "proven"
    assert run({**CUP, "tolerance": "2 %"}).data["outcome"] == "spread"
    assert run({**CUP, "tolerance": "2 %", "repeat_tolerance": "2 %"}).data["outcome"] == "proven"


def test_a_limit_out_of_its_range_is_refused_by_name() -> None:
    ran = run({**BASE, "tolerance": "90 %"})
    assert (ran.code, ran.data["refused"]["facts"]) == (4, ["tolerance"])


# -- early card, lines beside facts -----------------------------------------------------------


def test_lines_answer_what_the_facts_leave_open() -> None:
    ran = run(without(BASE, "target"), ["80 lb"])
    assert ran.data["outcome"] == "proven"


def test_a_card_made_early_by_a_line_says_one_catch() -> None:
    ran = run(with_trials(ON_TARGET), ["card"])
    assert (ran.code, ran.data["finished"], ran.data["outcome"]) == (0, True, "one_catch")
    assert "not proven: too few catches" in ran.sitting.card.lower()


def test_giving_up_is_an_outcome() -> None:
    ran = run(with_trials(LIGHT), ["give up"])
    assert (ran.code, ran.data["finished"], ran.data["outcome"]) == (0, True, "given_up")
    assert not ran.sitting.card


def test_entries_that_nobody_knew_are_spelled_so() -> None:
    used = run(without(BASE, "lot")).sitting.state.situation.used
    assert [entry.fact for entry in used if entry.settled == UNKNOWN] == ["lot"]
