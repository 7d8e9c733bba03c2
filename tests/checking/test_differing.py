"""What differs between two folders of flow files is told: questions, texts, limits, steps."""

import json
from pathlib import Path

import pytest

from assistant.checking.differing import Difference, differences
from assistant.cli import main
from tests.flowfile.small import spoil, written


@pytest.fixture
def old(tmp_path: Path) -> Path:
    return written(tmp_path / "old")


@pytest.fixture
def new(tmp_path: Path) -> Path:
    """The small flows with a question, a limit, a branch and a word changed, a part more."""
    folder = written(tmp_path / "new")
    spoil(folder, "jobs/plot.toml", 'ask = ["plot", "crop"]', 'ask = ["plot"]')
    spoil(folder, "jobs/plot.toml", 'next = { yes = "care", no = "size" }', 'next = "care"')
    (folder / "parts/more.toml").write_text('[part]\ntitle = "More"\n', encoding="utf-8")
    limits = folder / "limits.toml"
    limits.write_text(limits.read_text(encoding="utf-8") + '[more]\nkind = "share"\n')
    return folder


CHANGED = [
    Difference("changed", "jobs/plot.toml", "step name ask", '["plot", "crop"]', '["plot"]'),
    Difference("gone", "jobs/plot.toml", "step treated next yes", "care"),
    Difference("gone", "jobs/plot.toml", "step treated next no", "size"),
    Difference("new", "jobs/plot.toml", "step treated next", "", "care"),
    Difference("new", "limits.toml", "more kind", "", "share"),
    Difference("new", "parts/more.toml", ""),
]


def test_the_same_flows_do_not_differ(old: Path) -> None:
    assert differences(old, old) == []


def test_each_change_is_told_with_its_values(old: Path, new: Path) -> None:
    assert differences(old, new) == CHANGED


def test_turned_round_what_was_new_is_gone(old: Path, new: Path) -> None:
    other = {"new": "gone", "gone": "new", "changed": "changed"}
    back = {(other[d.change], d.file, d.where, d.now, d.before) for d in differences(new, old)}
    assert back == {(d.change, d.file, d.where, d.before, d.now) for d in CHANGED}


def test_a_step_that_moves_is_no_change(old: Path, new: Path) -> None:
    swapped = new / "jobs/plot.toml"
    head, *steps = (old / "jobs/plot.toml").read_text(encoding="utf-8").split("[[step]]\n")
    steps[-1] += "\n"
    swapped.write_text("[[step]]\n".join([head, *reversed(steps)]), encoding="utf-8")
    assert [d for d in differences(old, new) if d.file == "jobs/plot.toml"] == []


def test_the_command_tells_it_as_words_and_as_data(
    old: Path, new: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["flows", "diff", str(old), str(new)]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told[:4] == [
        "jobs/plot.toml",
        "- changed: step name ask",
        '    before: ["plot", "crop"]',
        '    now: ["plot"]',
    ]
    assert "- new: (the whole file)" in told
    assert main(["flows", "diff", str(old), str(new), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert [Difference(**each) for each in data] == CHANGED
    assert main(["flows", "diff", str(old), str(old)]) == 0
    assert capsys.readouterr().out == "Nothing differs.\n"


def test_the_flows_in_use_are_the_second_folder(
    old: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["flows", "diff", str(old)]) == 0
    assert "jobs/calibrate.toml\n- new: (the whole file)" in capsys.readouterr().out


def test_a_folder_without_flows_and_a_broken_file_are_told_in_a_sentence(
    old: Path, new: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["flows", "diff", str(tmp_path), str(new)]) == 2
    assert capsys.readouterr().err.startswith("No flow files are in")
    (new / "limits.toml").write_text("[more\n", encoding="utf-8")
    assert main(["flows", "diff", str(old), str(new)]) == 1
    assert capsys.readouterr().err.startswith("A flow file can't be read: ")
    assert main(["flows", "diff"]) == 2
