"""Told by name or typed, a story is the same: every word of it, and every value."""

from __future__ import annotations

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


def test_the_card_comes_last_and_only_when_it_was_made() -> None:
    whole = run(lines=STORY, as_json=False)
    assert whole.sitting.card.startswith("CARD FOR THE LID")
    assert whole.out.endswith(f"\n{whole.sitting.card}\n")
    assert "CARD FOR THE LID" not in run(lines=STORY[:-1], as_json=False).out


def test_with_json_no_word_is_said_beside_the_object() -> None:
    ran = run(SAME)
    assert ran.out.startswith("{")
    assert ran.out.endswith("}\n")
    assert ran.err == ""
