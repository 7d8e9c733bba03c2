"""The report on the program's own trouble tells where it was and never what people typed."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest

from assistant.dialogue.job import WaysDifferError
from assistant.terminal.report import file_name, report, sentence
from tests.stories.play import library

ANSWER = "Anna's big red drill"


def broken(answer: str) -> None:
    try:
        int(answer)
    except ValueError:
        raise RuntimeError(answer) from None


def trouble() -> RuntimeError:
    try:
        broken(ANSWER)
    except RuntimeError as found:
        return found
    raise AssertionError


def test_the_report_names_the_place_and_the_kind_but_no_answer(tmp_path: Path) -> None:
    text = report(trouble(), tmp_path / "reports").read_text(encoding="utf-8")
    assert "builtins.RuntimeError" in text
    assert "builtins.ValueError" in text
    assert "test_report.py" in text
    assert "broken" in text
    assert "Anna" not in text


def test_the_report_is_for_its_owner_alone(tmp_path: Path) -> None:
    path = report(trouble(), tmp_path / "reports")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


def test_two_reports_do_not_overwrite_each_other(tmp_path: Path) -> None:
    assert report(trouble(), tmp_path) != report(trouble(), tmp_path)


def test_no_folder_of_a_person_is_named() -> None:
    assert file_name("/anna/site-packages/other/thing.py") == "thing.py"
    import assistant.terminal.report as ours

    assert file_name(ours.__file__) == "assistant/terminal/report.py"


def test_ways_that_differ_are_told_as_such(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("HOME", "LOCALAPPDATA", "XDG_DATA_HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    said = sentence(WaysDifferError("ground", ["ground_covered"]), library().words)
    assert said.startswith("STOP. Two ways to work out a number don't agree")
    assert "Set nothing by it." in said
    (note,) = tmp_path.rglob("*.txt")
    assert "WaysDifferError" in note.read_text(encoding="utf-8")
