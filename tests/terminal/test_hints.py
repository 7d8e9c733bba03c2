"""What people are told to type names the book that the run was told to use."""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.cli import main
from assistant.terminal.hints import naming, typable

COMMANDS = ("calibrate", "resume", "book")
Out = pytest.CaptureFixture[str]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Type drillside resume to go on.", "Type drillside --book 'my yard.db' resume to go on."),
        ("drillside book card 1", "drillside --book 'my yard.db' book card 1"),
        ("No book that drillside exported.", "No book that drillside exported."),
        ("drillside flows facts calibrate", "drillside flows facts calibrate"),
        ("drillside bookish", "drillside bookish"),
    ],
)
def test_only_commands_that_work_on_a_book_name_it(text: str, told: str) -> None:
    with naming("drillside", COMMANDS, "my yard.db"):
        assert typable(text) == told
    assert typable(text) == text


def test_nothing_is_named_where_no_book_was() -> None:
    with naming("drillside", COMMANDS, None):
        assert typable("drillside resume") == "drillside resume"


def test_a_hint_can_be_typed_as_it_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setenv("COLUMNS", "72")
    monkeypatch.chdir(tmp_path)
    assert main(["book", "show", "zzzz", "--book", "yard.db"]) == 2
    hint = capsys.readouterr().err.strip().partition("Type drillside ")[2].rstrip(".")
    assert hint == "--book yard.db book list"
    assert main(hint.split()) == 0
    assert capsys.readouterr().out.strip() == "No card here yet."


def test_trouble_with_a_book_tells_how_to_mend_that_very_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setenv("COLUMNS", "72")
    monkeypatch.chdir(tmp_path)
    assert main(["book", "list", "--book", "yard.db"]) == 0
    path = tmp_path / "yard.db"
    whole = path.read_bytes()
    path.write_bytes(whole[:100] + b"\xff" * (len(whole) - 100))
    assert main(["book", "list", "--book", "yard.db"]) == 1
    assert "drillside --book yard.db book mend" in " ".join(capsys.readouterr().err.split())
