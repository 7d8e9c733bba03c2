"""Findings are sorted, and every code has its sentence and cure."""

import ast
from pathlib import Path

import pytest

from assistant.flow.place import flows_folder
from assistant.flowfile import findings
from assistant.flowfile.findings import HOLE, finding, in_order, line_for, sentences
from assistant.flowfile.gate import CODES
from tests.flowfile.spoiled import cases
from tests.house.tree import PACKAGE, ROOT, modules, tree

MAKERS = {"finding", "in_step", "in_fact", "in_file", "_at", "Need", "Fault"}
BY_TABLE = {*CODES.values(), "unknown_fact", "unknown_calculation", "unknown_part", "unknown_step"}
BY_TABLE |= {"unknown_caution", "unknown_reads", "unknown_sets", "wrong_value", "no_kind"}
BY_TABLE |= {"two_kinds", "member_not_asked", "not_a_member"}


def codes_made() -> set[str]:
    """The codes that the gate and the checks give to findings."""
    calls = [
        node
        for room in ("flowfile", "checking")
        for module in modules(PACKAGE / room)
        for node in ast.walk(tree(module))
        if isinstance(node, ast.Call)
    ]
    made = set[str]()
    for call in calls:
        name = getattr(call.func, "attr", getattr(call.func, "id", ""))
        texts = [a.value for a in call.args if isinstance(a, ast.Constant)]
        handed_on = any(ast.unparse(each).endswith(".code") for each in call.args)
        if name in MAKERS and texts and isinstance(texts[0], str) and not handed_on:
            made.add(texts[0])
    return made | BY_TABLE


def test_every_code_has_a_sentence_and_every_sentence_a_code() -> None:
    assert set(sentences()) == codes_made()


def test_every_code_has_a_bad_file_or_a_test_of_its_own() -> None:
    shown = {case.code for room in ("flowfile", "checking") for case in cases(bad(room))}
    elsewhere = {"missing_file", "not_utf8"}  # test_gate
    elsewhere |= {"sum_does_not_hold", "result_of_another_kind"}  # test_dimensions
    elsewhere |= {"outcome_not_reached", "other_choices"}
    assert set(sentences()) - shown == elsewhere


def bad(room: str) -> Path:
    """The folder of bad files of a room."""
    return ROOT / "tests" / room / "bad"


def test_no_hole_of_a_sentence_stays_empty() -> None:
    holes = {
        code: {hole for text in texts.values() for hole in HOLE.findall(text)}
        for code, texts in sentences().items()
    }
    assert {code for code, names in holes.items() if "near" in names} == {
        code for code, texts in sentences().items() if "near" in texts
    }


def test_findings_are_sorted_by_file_and_line_and_told_once() -> None:
    late, early = finding("no_next", "b.toml", 2), finding("no_finish", "b.toml", 1)
    other = finding("unreachable", "a.toml", 9)
    assert in_order([late, early, other, late]) == [other, early, late]


@pytest.mark.parametrize(
    ("found", "line"),
    [
        (
            finding("unknown_step", "jobs/a.toml", 7, "start", step="lsat", near="last"),
            (
                "jobs/a.toml:7: start: No step here is called 'lsat'. "
                "Did you mean 'last'? [unknown_step]"
            ),
        ),
        (
            finding("unknown_step", "jobs/a.toml", 7, "start", step="x", near=""),
            (
                "jobs/a.toml:7: start: No step here is called 'x'. "
                "Name a step of this file. [unknown_step]"
            ),
        ),
        (
            finding("no_finish", "jobs/a.toml", 1),
            "jobs/a.toml:1: Nothing ends here. Write a step with finish. [no_finish]",
        ),
    ],
)
def test_a_finding_names_file_line_and_step_then_what_is_wrong_and_the_cure(
    found: findings.Finding, line: str
) -> None:
    assert line_for(found, sentences()) == line


def test_a_code_without_its_sentence_is_printed_bare(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(findings, "flows_folder", lambda: flows_folder() / "nowhere")
    found = finding("unknown_step", "jobs/a.toml", 7, "start", step="lsat", near="last")
    assert line_for(found, sentences()) == "jobs/a.toml:7: start: unknown_step last, lsat"
