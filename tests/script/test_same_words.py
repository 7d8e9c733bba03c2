"""Told by name or typed, a story is the same: every word of it, and every value."""

from __future__ import annotations

import pytest

from tests.script.running import BASE, Facts, run
from tests.script.test_answers import STORY

SAME: Facts = {**BASE, "drill": "the green drill", "lot": "4471", "target": "80 lb"}
CATCHES: Facts = {"trials": [{"catch_weight": "1.39 lb"}, {"catch_weight": "1.41"}]}


def words(out: str) -> list[str]:
    """What the assistant said, without what was typed."""
    return [line for line in out.splitlines() if not line.startswith("> ")]


def test_a_story_told_by_name_says_the_same_as_the_story_typed() -> None:
    by_name = run({**SAME, **CATCHES}, as_json=False)
    typed = run(lines=STORY, as_json=False)
    assert words(by_name.out) == words(typed.out)
    assert by_name.err == typed.err == ""


def test_a_story_told_by_name_knows_the_same_as_the_story_typed() -> None:
    by_name, typed = run({**SAME, **CATCHES}), run(lines=STORY)
    assert by_name.facts == typed.facts
    assert by_name.data["series"] == typed.data["series"]


@pytest.mark.parametrize("ended", [True, False])
def test_the_card_comes_last(*, ended: bool) -> None:
    ran = run(lines=STORY if ended else STORY[:-1], as_json=False)
    assert ("CARD FOR THE LID" in ran.out) is ended
    assert ran.out.endswith(f"{ran.sitting.card}\n") is ended or not ended


def test_with_json_no_word_is_said_beside_the_object() -> None:
    ran = run(SAME)
    assert ran.out.startswith("{")
    assert ran.out.endswith("}\n")
    assert ran.err == ""
