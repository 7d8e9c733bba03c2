"""The gate: one file of a bad shape per rule, and all faults at once."""

from pathlib import Path

import pytest

from assistant.flow.place import flows_folder
from assistant.flowfile.findings import finding
from assistant.flowfile.gate import shape_faults
from tests.flowfile.small import spoil, written
from tests.flowfile.spoiled import Spoiled, cases, name_of


@pytest.mark.parametrize("case", cases(Path(__file__).parent / "bad"), ids=name_of)
def test_a_bad_shape_is_found_out(case: Spoiled, tmp_path: Path) -> None:
    folder = written(tmp_path)
    where = case.apply(folder)
    case.is_found(where, shape_faults(folder))


def test_the_flows_that_ship_have_their_shape() -> None:
    assert shape_faults(flows_folder()) == []


@pytest.mark.parametrize("name", ["limits", "cautions", "glossary", "card", "words", "asking"])
def test_a_file_that_is_missing_is_named(name: str, tmp_path: Path) -> None:
    folder = written(tmp_path)
    (folder / f"{name}.toml").unlink()
    assert shape_faults(folder) == [finding("missing_file", f"{name}.toml", 1)]


def test_text_that_is_not_utf_8_is_found_with_its_line(tmp_path: Path) -> None:
    folder = written(tmp_path)
    (folder / "glossary.toml").write_bytes(b'plot = "A piece."\nha = "\xbd"\n')
    assert shape_faults(folder) == [finding("not_utf8", "glossary.toml", 2)]


def test_a_text_that_never_ends_is_found_at_the_last_line(tmp_path: Path) -> None:
    folder = written(tmp_path)
    (folder / "glossary.toml").write_text('plot = """A piece\nof ground\n', encoding="utf-8")
    (found,) = shape_faults(folder)
    assert (found.code, found.line) == ("not_toml", 2)


def test_lines_that_end_as_on_windows_are_no_fault(tmp_path: Path) -> None:
    folder = written(tmp_path)
    for path in folder.rglob("*.toml"):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert shape_faults(folder) == []


def test_all_faults_come_at_once_in_the_order_of_files_and_lines(tmp_path: Path) -> None:
    folder = written(tmp_path)
    spoil(folder, "parts/tidy.toml", "wait = true", "wait = 1")
    spoil(folder, "parts/tidy.toml", 'finish = "done"', "finish = 2")
    spoil(folder, "cautions.toml", 'grade = "mind"', 'grade = "odd"')
    spoil(folder, "parts/pacing.toml", 'id = "pace"', 'id = "pace')
    found = shape_faults(folder)
    assert [(each.code, each.file, each.line) for each in found] == [
        ("not_one_of", "cautions.toml", 2),
        ("not_toml", "parts/pacing.toml", 6),
        ("not_true_or_false", "parts/tidy.toml", 7),
        ("not_a_text", "parts/tidy.toml", 13),
    ]
