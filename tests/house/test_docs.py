"""The README and DEVELOPERS.md are true: commands, words, folders, keys and files are there."""

import argparse
import re
from collections.abc import Iterator
from dataclasses import fields
from importlib.util import find_spec
from pathlib import Path

import pytest

from assistant.answers.unit_words import BAGS, SEVERAL, UNITS, VARIES
from assistant.cli import OPTIONS, OPTIONS_OF_LISTS, parser_for
from assistant.flow.load import load
from assistant.flow.model import Fact
from assistant.flow.place import flows_folder
from assistant.flowfile import shape
from assistant.terminal.flow_files import words_of
from tests.house.test_imports import HOUSE
from tests.house.tree import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
QUOTED = set(re.findall(r"`([^`\n]+)`", DEVELOPERS))


def test_the_readme_opens_with_the_job() -> None:
    first = README.split("\n\n")[1]
    assert "seed drill" in first
    assert "card" in first


def test_the_readme_has_two_commands_of_one_line() -> None:
    for heading in ("## Start", "## Run the tests"):
        block = README.split(heading)[1].split("```")[1].strip()
        assert block.startswith("python3 -m venv")
        assert "\n" not in block


def test_the_conversation_in_the_readme_is_a_piece_of_a_demo() -> None:
    shown = README.split("<!-- conversation -->")[1].split("```")[1].strip("\n")
    demos = [path.read_text(encoding="utf-8") for path in (ROOT / "transcripts_demo").glob("*.txt")]
    assert len(shown.splitlines()) > 10
    assert any(shown in demo for demo in demos)


def test_every_word_that_works_everywhere_is_in_the_readme() -> None:
    commands = load(flows_folder()).commands
    everywhere = set(commands) - {"change", "units", "units_us", "units_metric", "what_is", "drop"}
    missing = {name for name in everywhere if f"`{commands[name][0]}`" not in README}
    assert missing == set()
    for word in ("`change ", "`what is ", "`units us`", "`units metric"):
        assert word in README


def parsers(parser: argparse.ArgumentParser, name: str) -> Iterator[tuple[str, set[str]]]:
    """Every command as it is typed, and its options."""
    yield name, {each for action in parser._actions for each in action.option_strings} - {"-h"}
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            for under, one in action.choices.items():
                yield from parsers(one, f"{name} {under}")


def test_every_command_and_option_is_in_the_readme() -> None:
    folder = flows_folder()
    whole = dict(parsers(parser_for(words_of(folder), folder), "drillside"))
    assert {name for name in whole if not re.search(rf"`{name}\b", README)} == set()
    options = {option for each in whole.values() for option in each}
    assert {option for option in options if not re.search(rf"`[^`\n]*{option}\b", README)} == set()


def test_a_slip_is_offered_every_option_that_there_is() -> None:
    folder = flows_folder()
    whole = dict(parsers(parser_for(words_of(folder), folder), "drillside"))
    options = {option for each in whole.values() for option in each}
    assert options == {f"--{each}" for each in (*OPTIONS, *OPTIONS_OF_LISTS)}


def test_every_unit_word_is_in_the_readme_under_its_unit() -> None:
    table = README.split("## Units that you can type")[1].split("\n## ")[0]
    rows = [line.split("|")[1:3] for line in table.splitlines() if line.startswith("| `")]
    told = {word: unit.strip(" `") for unit, words in rows for word in words.strip().split(", ")}
    assert told == UNITS
    told_besides = set(re.findall(r"[^,;:.]+", table.split("Asked about")[1].replace("\n", ",")))
    assert (set(SEVERAL) | VARIES | BAGS) - {each.strip() for each in told_besides} == set()


@pytest.mark.parametrize(
    "variable",
    ["DRILLSIDE_BOOK", "NO_COLOR", "FORCE_COLOR", "CLICOLOR_FORCE", "CLICOLOR=0", "ACCESSIBLE=1"],
)
def test_every_variable_that_is_looked_at_is_in_the_readme(variable: str) -> None:
    assert f"`{variable}`" in README


def test_every_job_is_in_the_readme() -> None:
    for job in load(flows_folder()).jobs:
        assert f"`drillside {job}`" in README


def test_the_map_is_the_house() -> None:
    block = DEVELOPERS.split("## The map")[1].split("```")[1].strip()
    assert [tuple(line.split(" | ")) for line in block.splitlines()] == list(HOUSE)
    folders = {p.name for p in (ROOT / "assistant").iterdir() if (p / "__init__.py").exists()}
    assert folders == {q.split("/")[1] for q in QUOTED if re.fullmatch(r"assistant/\w+/", q)}


def test_every_key_of_a_fact_is_explained() -> None:
    assert {each.name for each in fields(Fact)} - QUOTED - {"name"} == set()


def test_every_key_of_a_step_is_explained() -> None:
    keys = {
        info.alias or name
        for step in shape.STEPS.values()
        for name, info in step.model_fields.items()
    }
    assert keys - QUOTED == set()


@pytest.mark.parametrize("code", ["0", "1", "2", "3", "4", "129", "130", "143"])
def test_every_exit_code_is_explained(code: str) -> None:
    table = DEVELOPERS.split("| exit code |")[1].split("##")[0]
    assert re.search(rf"\b{code}\b", table)


def test_every_file_and_module_that_is_named_is_there() -> None:
    both = QUOTED | set(re.findall(r"`([^`\n]+)`", README))
    paths = {
        q for q in both if re.fullmatch(r"(assistant|flows|tests|transcripts_demo)/[\w./]*", q)
    }
    wanted = {path for path in paths if "NAME" not in path and path != "flows/es/"}
    assert {path for path in wanted if not (ROOT / path).exists()} == set()
    modules = {m for text in (README, DEVELOPERS) for m in re.findall(r"-m (tests[\w.]+)", text)}
    assert {m for m in modules if find_spec(m) is None} == set()


def test_what_the_developers_run_first_is_what_ci_runs() -> None:
    first = DEVELOPERS.split("```")[1]
    assert "bash .ci/run" in first
    assert Path(ROOT / ".ci" / "run").read_text(encoding="utf-8").startswith("#!/usr/bin/env bash")
