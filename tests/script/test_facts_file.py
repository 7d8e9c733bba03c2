"""A facts file: what it takes, and everything that is wrong with it at once, each with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.script.facts_file import FactsFile, NotTomlError, read_facts
from tests.script.running import calibrate


def facts(tmp_path: Path, text: str) -> FactsFile:
    path = tmp_path / "facts.toml"
    path.write_text(text, encoding="utf-8")
    return read_facts(path, calibrate())


def refused(file: FactsFile) -> list[tuple[str, str, int]]:
    return [(each.code, each.name, each.line) for each in file.refused]


def test_texts_are_kept_as_they_are(tmp_path: Path) -> None:
    file = facts(tmp_path, 'row_spacing = "7 1/2 in"\nlot = "A1"\n')
    assert file.texts == {"row_spacing": "7 1/2 in", "lot": "A1"}
    assert not file.refused


@pytest.mark.parametrize(
    ("name", "number"), [("row_count", 24), ("turns", 30), ("germination", 92), ("emergence", 85)]
)
def test_whole_numbers_are_for_counts_and_percents(tmp_path: Path, name: str, number: int) -> None:
    assert facts(tmp_path, f"{name} = {number}").texts == {name: str(number)}


@pytest.mark.parametrize(
    "line",
    [
        "row_spacing = 7",
        "row_spacing = 7.5",
        "germination = 92.5",
        "turns = 29.5",
        "target = 80",
        "treated = true",
        "row_count = true",
        "lot = 4471",
        "row_count = [24]",
        "sown = 2026-04-14",
        "turns = nan",
        "turns = inf",
    ],
)
def test_another_type_is_refused_with_its_line(tmp_path: Path, line: str) -> None:
    file = facts(tmp_path, f"# one\n\n{line}\n")
    name = line.partition(" ")[0]
    code = "unknown_name" if name == "sown" else "not_a_text"
    assert refused(file) == [(code, name, 3)]
    assert not file.texts


def test_lists_are_for_facts_that_are_several_values(tmp_path: Path) -> None:
    file = facts(tmp_path, 'seeds_counted = [100, 100]\ncounted_weight = ["3.6 g", "3.7 g"]\n')
    assert file.texts == {"seeds_counted": "100; 100", "counted_weight": "3.6 g; 3.7 g"}


def test_all_unknown_names_and_wrong_types_are_told_at_once(tmp_path: Path) -> None:
    text = """
rows = "24"
row_count = 24.5
"bad key" = "x"

[[trials]]
catch_weight = "1.4 lb"

[[trials]]
drill = "the old one"
catch_weight = 1.4

[other_half]
turns = "30"
turn = "30"

[[other_half.trials]]
catch_weight = "1 lb"
weight = "1 lb"
"""
    file = facts(tmp_path, text)
    assert sorted(refused(file), key=lambda each: each[2]) == [
        ("unknown_name", "bad key", 0),
        ("unknown_name", "rows", 2),
        ("not_a_text", "row_count", 3),
        ("unknown_name", "trials.drill", 10),
        ("not_a_text", "trials.catch_weight", 11),
        ("unknown_name", "other_half.turn", 15),
        ("unknown_name", "other_half.trials.weight", 19),
    ]
    assert file.texts == {"other_half.turns": "30"}


def test_trials_are_rows_under_their_own_names(tmp_path: Path) -> None:
    text = """
[[trials]]
opening = "14 mm"
catch_weight = "1.4 lb"
[[other_half.trials]]
row_weights = ["54 g", "57 g"]
"""
    assert facts(tmp_path, text).rows == {
        "trials": [{"opening": "14 mm", "catch_weight": "1.4 lb"}],
        "other_half.trials": [{"other_half.row_weights": "54 g; 57 g"}],
    }


@pytest.mark.parametrize("line", ['trials = "1.4 lb"', 'trials = ["1.4 lb"]', "trials = 3"])
def test_trials_that_are_no_tables_are_refused(tmp_path: Path, line: str) -> None:
    assert refused(facts(tmp_path, line)) == [("not_rows", "trials", 1)]


@pytest.mark.parametrize(
    "name", ["catch", "catch_weight", "gross_weight", "row_weights", "opening"]
)
def test_what_belongs_into_a_row_is_refused_outside_of_one(tmp_path: Path, name: str) -> None:
    assert refused(facts(tmp_path, f'{name} = "1 lb"')) == [("unknown_name", name, 1)]


def test_a_card_may_be_named(tmp_path: Path) -> None:
    assert facts(tmp_path, 'card = "01jz5k"').texts == {"card": "01jz5k"}


@pytest.mark.parametrize(("value", "read"), [("true", True), ("false", False)])
def test_cautions_are_read_or_not(tmp_path: Path, value: str, *, read: bool) -> None:
    file = facts(tmp_path, f"cautions_read = {value}")
    assert file.cautions_read is read
    assert not file.refused


@pytest.mark.parametrize("value", ['"true"', "1", '"yes"'])
def test_cautions_read_takes_nothing_else(tmp_path: Path, value: str) -> None:
    file = facts(tmp_path, f"cautions_read = {value}")
    assert not file.cautions_read
    assert refused(file) == [("not_yes_or_no", "cautions_read", 1)]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ('lot = "A1"\nturns = = 3\n', "line 2"),
        ('lot = "A1"\nlot = "A2"\n', "line 2"),
        ('a = "x\n', "line 1"),
        ("a = [1, 2\n", "end of document"),
        ("lot = A1", "line 1"),
        ("\n\n[[trials]\n", "line 3"),
    ],
)
def test_broken_toml_names_its_line(tmp_path: Path, text: str, line: str) -> None:
    with pytest.raises(NotTomlError, match=line):
        facts(tmp_path, text)


def test_a_missing_file_a_folder_and_bytes_that_are_no_text_are_not_toml(tmp_path: Path) -> None:
    (tmp_path / "bytes").write_bytes(b"\xff\xfe\x00lot")
    for name in ("missing", "bytes", "."):
        with pytest.raises(NotTomlError):
            read_facts(tmp_path / name, calibrate())


def test_nesting_without_end_is_not_toml(tmp_path: Path) -> None:
    with pytest.raises(NotTomlError):
        facts(tmp_path, f"a = {'[' * 5000}")


def test_a_mark_of_byte_order_is_no_part_of_the_file(tmp_path: Path) -> None:
    path = tmp_path / "facts.toml"
    path.write_text('lot = "A1"', encoding="utf-8-sig")
    assert read_facts(path, calibrate()).texts == {"lot": "A1"}
