"""No text from a person, a file name or the environment drives the terminal (CWE-150)."""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.cli import main
from assistant.terminal.loop import converse
from tests.terminal.escapes import CHUNKS, SEQUENCES, harmless
from tests.terminal.small import TypedLines, opened, screen

Out = pytest.CaptureFixture[str]
ONE_LINE = [chunk.replace("\n", "").replace("\0", "") for chunk in CHUNKS[::4]]
"""What can be an argument; each sign is looked at alone, so a part of the corpus will do."""


@pytest.mark.parametrize("typed", SEQUENCES, ids=ascii)
def test_typed_at_a_text_a_number_a_list_a_caution_and_a_wait(typed: str, capsys: Out) -> None:
    sitting, said = opened()
    lines = [typed, "no", f"barn{typed}", "yes", typed, "no", f"6{typed}", "no"]
    lines += ["6", typed, "no", "left", typed, "no", "boots", typed, "no", "done"]
    converse(sitting, said, screen(), TypedLines(lines))
    assert harmless(capsys.readouterr().out)


@pytest.mark.parametrize("typed", SEQUENCES, ids=ascii)
def test_what_is_kept_of_a_typed_line_holds_none_of_it(typed: str) -> None:
    sitting, said = opened()
    converse(sitting, said, screen(), TypedLines([f"barn {typed}", "yes"]))
    assert all(each.settled.isprintable() for each in sitting.state.log.entries)
    assert all(each.typed.replace("\t", "").isprintable() for each in sitting.state.log.entries)


@pytest.fixture(autouse=True)
def a_machine_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("HOME", "XDG_DATA_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "home"))


@pytest.mark.parametrize("poison", ONE_LINE, ids=ascii)
@pytest.mark.parametrize(
    "line",
    [
        "{}",
        "book {}",
        "calibrate --{}",
        "resume {} --book none",
        "book show {} --book none",
        "book find {} --book none",
        "book list --since {} --book none",
        "book list --last {} --book none",
        "flows facts {}",
        "book erase {} --book b.db",
        "book note {} {} --book b.db",
        "calibrate --facts {} --book none",
        "calibrate --answers {} --book none",
        "book list --book {}/b.db",
        "book import {} --book none",
        "book restore {} --yes --book b.db",
        "book export {}/x --book none",
    ],
)
def test_told_on_the_command_line_or_as_the_name_of_a_file(
    line: str, poison: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.chdir(tmp_path)
    code = main([word.replace("{}", poison) for word in line.split()])
    told = capsys.readouterr()
    assert code in {0, 1, 2}
    assert harmless(told.out + told.err)


@pytest.mark.parametrize("poison", ONE_LINE[::2], ids=ascii)
@pytest.mark.parametrize(
    "name", ["DRILLSIDE_BOOK", "HOME", "XDG_DATA_HOME", "TERM", "ACCESSIBLE", "COLUMNS", "NO_COLOR"]
)
def test_told_by_the_environment(
    name: str, poison: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv(name, poison)
    for command in (["book", "where"], ["book", "list"], ["book", "mend"], ["--help"]):
        main(command)
    told = capsys.readouterr()
    assert harmless(told.out + told.err)


@pytest.mark.parametrize("poison", ONE_LINE, ids=ascii)
def test_told_in_a_file_of_facts_or_by_its_name(
    poison: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.chdir(tmp_path)
    file = tmp_path / f"{poison.replace('/', '')[:60]}.toml"
    inside = "".join(f"\\U{ord(sign):08x}" for sign in poison)
    for text in (f'drill = "{inside}"', f'"{inside}" = "1"', f"x = {poison}"):
        file.write_text(text, encoding="utf-8")
        main(["calibrate", "--facts", str(file), "--book", "none"])
    told = capsys.readouterr()
    assert harmless(told.out + told.err)
