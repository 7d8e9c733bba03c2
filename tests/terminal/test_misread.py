"""Refused lines: kept on this machine alone, and only where a person switched it on."""

from __future__ import annotations

import json
import stat
from datetime import UTC, datetime
from pathlib import Path

import pytest

from assistant.book.places import data_folder
from assistant.cli import main
from assistant.terminal.loop import converse
from assistant.terminal.misread import FILE, LONGEST, MOST, add, kept
from tests.terminal.small import TypedLines, opened, screen

DAY = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)
Out = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def a_machine_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("HOME", "XDG_DATA_HOME", "LOCALAPPDATA", "USERPROFILE"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    monkeypatch.setenv("COLUMNS", "72")


def talk(*lines: str, keeps: bool = True) -> None:
    """A conversation of the small job, typed at its keyboard."""
    sitting, said = opened()
    converse(sitting, said, screen(), TypedLines(lines), keeps=keeps)


def rows() -> list[dict[str, str]]:
    path = data_folder() / FILE
    return [json.loads(row) for row in path.read_text().splitlines()] if path.exists() else []


def test_nothing_is_kept_until_it_is_switched_on() -> None:
    talk("barn", "dog", "99", "6", "up")
    assert not data_folder().exists()


def test_each_refused_line_is_kept_with_day_and_question_and_no_other_line() -> None:
    main(["misread", "on"])
    talk("barn", "dog", "", "why", "99", "6", "up", "left", "no boots", "boots", "done")
    assert [(row["question"], row["text"]) for row in rows()] == [
        ("tubs", "dog"),
        ("tubs", "99"),
        ("door", "up"),
        ("wet_floor", "no boots"),
    ]
    assert all(set(row) == {"at", "question", "text"} for row in rows())
    assert all(datetime.strptime(row["at"], "%Y-%m-%d") for row in rows())  # noqa: DTZ007  a day


def test_only_its_owner_can_read_the_file() -> None:
    main(["misread", "on"])
    talk("barn", "dog")
    assert stat.S_IMODE((data_folder() / FILE).stat().st_mode) == stat.S_IRUSR | stat.S_IWUSR


def test_switched_off_keeps_no_more_and_leaves_what_is_there() -> None:
    main(["misread", "on"])
    talk("barn", "dog")
    main(["misread", "off"])
    talk("barn", "cat")
    assert [row["text"] for row in rows()] == ["dog"]


def test_erase_takes_the_lines_away_and_goes_on_keeping() -> None:
    main(["misread", "on"])
    talk("barn", "dog")
    assert main(["misread", "erase"]) == 0
    assert rows() == []
    talk("barn", "cat")
    assert [row["text"] for row in rows()] == ["cat"]


def test_a_run_without_a_book_leaves_nothing_here_either() -> None:
    main(["misread", "on"])
    talk("barn", "dog", keeps=False)
    assert rows() == []


def test_show_tells_each_line_made_harmless_and_where_the_file_is(capsys: Out) -> None:
    main(["misread", "on"])
    add(data_folder() / FILE, "tubs", "\x1b[2Jdog\nand cat", DAY)
    capsys.readouterr()
    assert main(["misread", "show"]) == 0
    out = capsys.readouterr().out
    assert "2026-04-14 tubs: \N{REPLACEMENT CHARACTER}[2Jdog and cat\n" in out
    assert "\x1b" not in out
    assert str(data_folder() / FILE) in out


def test_alone_it_tells_how_it_stands(capsys: Out) -> None:
    assert main(["misread"]) == 0
    assert "are not kept" in capsys.readouterr().out
    main(["misread", "on"])
    assert "They stay on this machine." in capsys.readouterr().out


def test_of_too_many_the_oldest_go_and_a_long_one_is_cut(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.write_text("".join(json.dumps(row(str(n))) + "\n" for n in range(MOST)))
    add(path, "tubs", "x" * 9_999, DAY)
    texts = [text for _, _, text in kept(path)]
    assert len(texts) == MOST
    assert texts[0] == "1"
    assert texts[-1] == "x" * LONGEST
    assert stat.S_IMODE(path.stat().st_mode) == stat.S_IRUSR | stat.S_IWUSR


def row(text: str) -> dict[str, str]:
    return {"at": "2026-04-14", "question": "tubs", "text": text}


def test_a_spoiled_row_is_left_out_and_the_others_are_shown(tmp_path: Path) -> None:
    path = tmp_path / FILE
    spoiled = ["{", "[]", "7", '{"at": 1}', "", "\x00"]
    path.write_bytes("\n".join([*spoiled, json.dumps(row("dog"))]).encode() + b"\n\xff\xfe\n")
    assert [text for _, _, text in kept(path)] == ["dog"]


def test_what_was_typed_in_no_known_signs_is_kept_too(tmp_path: Path) -> None:
    add(tmp_path / FILE, "tubs", "dog \udcff", DAY)
    assert [text for _, _, text in kept(tmp_path / FILE)] == ["dog \udcff"]


def test_a_file_that_can_not_be_written_never_holds_up_a_conversation(capsys: Out) -> None:
    main(["misread", "on"])
    (data_folder() / FILE).mkdir()
    talk("barn", "dog", "6", "left", "boots", "done")
    assert "The floor is clean." in capsys.readouterr().out
    assert main(["misread", "erase"]) == 1
    assert "Nothing can be written" in capsys.readouterr().err
