"""Typed lines from a file or a pipe: one line for each prompt, clarifications included."""

from __future__ import annotations

import io
import sys

import pytest

from tests.script.running import run

STORY = (
    "the green drill",
    "1",
    "24, 7.5 in",
    "1",
    "wheat, lot 4471",
    "no",
    "80 lb",
    "2",
    "81.5 in",
    "0.01 lb",
    "6, 30",
    "10, 40 mm",
    "1",
    "14 mm",
    "jack",
    "done",
    "ok",
    "1.39 lb",
    "1.41",
    "4.5",
    "done",
    "",
)


def test_a_story_from_start_to_card() -> None:
    ran = run(lines=STORY)
    assert (ran.code, ran.data["finished"], ran.data["outcome"]) == (0, True, "proven")


def test_an_empty_line_is_enter() -> None:
    lines = list(STORY)
    lines[lines.index("6, 30")] = ""
    ran = run(lines=lines[:14])
    assert (ran.value("rows_caught"), ran.value("turns")) == (6, 40)


def test_comments_are_no_lines() -> None:
    lines = [line for each in STORY for line in ("# what comes next", each)]
    assert run(lines=lines).data == run(lines=STORY).data


def test_a_line_that_starts_with_a_space_is_no_comment() -> None:
    ran = run(lines=[" # 7"])
    assert ran.facts["drill"]["value"] == "# 7"


def test_lines_that_run_out_are_a_lack_and_what_was_told_is_kept() -> None:
    ran = run(lines=STORY[:6])
    assert (ran.code, ran.data["needs"]["name"]) == (3, "target")
    assert ran.facts["crop"]["value"] == "wheat"
    assert ran.sitting.kept


def test_no_line_at_all_is_a_lack_at_the_first_question() -> None:
    ran = run(lines=[])
    assert (ran.code, ran.data["needs"]["name"]) == (3, "drill")
    assert not ran.sitting.kept


def test_a_clarification_takes_a_line_of_its_own() -> None:
    at = STORY.index("81.5 in")
    ran = run(lines=[*STORY[:at], "6.10", "2"])
    assert ran.facts["distance_per_turn"]["shown"] == "82 in"
    ran = run(lines=[*STORY[:at], "6.10"])
    assert (ran.code, ran.data["refused"]) == (3, None)
    assert ran.data["needs"]["name"] == "distance_per_turn"


def test_an_unusual_value_is_asked_about_and_kept_by_a_line() -> None:
    ran = run(lines=[*STORY[:2], "2, 30 in", "1", "1"])
    assert ran.value("row_count") == 2
    assert ran.facts["row_count"]["unusual"]


def test_a_refused_last_line_is_refused_with_its_number() -> None:
    ran = run(lines=[*STORY[:6], "# the rate", "80 in"])
    refused = ran.data["refused"]
    assert (ran.code, refused["code"]) == (4, "unit_of_another_kind")
    assert (refused["file"], refused["line"], refused["facts"]) == ("answers.txt", 8, ["target"])


def test_a_refused_line_may_be_mended_by_the_next_one() -> None:
    ran = run(lines=[*STORY[:6], "80 in", *STORY[6:]])
    assert (ran.code, ran.data["outcome"], ran.data["refused"]) == (0, "proven", None)


def test_words_of_the_machine_take_a_line_each() -> None:
    ran = run(lines=["why", *STORY[:1], "help", "back", "", *STORY[1:]])
    assert ran.data["outcome"] == "proven"


@pytest.mark.parametrize("word", ["pause", "quit", "stop", "bye"])
def test_leaving_on_purpose_is_no_lack(word: str) -> None:
    ran = run(lines=[*STORY[:4], word, "never read"])
    assert (ran.code, ran.data["finished"], ran.data["outcome"]) == (0, False, None)


def test_a_card_is_made_early_by_its_word() -> None:
    at = STORY.index("1.41")
    ran = run(lines=[*STORY[:at], "card", "4.5", "done", ""])
    assert (ran.code, ran.data["outcome"]) == (0, "one_catch")
    assert ran.value("percent_off") == pytest.approx(1.39 / 1.40324 - 1, abs=1e-5)


def test_lines_after_the_end_are_not_read() -> None:
    assert run(lines=[*STORY, "more", "and more"]).data == run(lines=STORY).data


def test_with_neither_facts_nor_answers_standard_input_is_read(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("\r\n".join(STORY) + "\r\n"))
    assert run().data["outcome"] == "proven"


def test_what_was_piped_in_is_named_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("the old one\nwide\n"))
    ran = run(as_json=False)
    assert ran.code == 4
    assert ran.err.splitlines()[0] == "What was piped in, line 2, feed:"


def test_a_mark_of_byte_order_is_no_part_of_the_first_line() -> None:
    ran = run(lines=["\ufeffthe green drill"])
    assert ran.facts["drill"]["value"] == "the green drill"
