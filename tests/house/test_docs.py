"""The README and DEVELOPERS.md are true: commands, words, folders, keys and files are there."""

import re
from dataclasses import fields
from importlib.util import find_spec
from pathlib import Path

import pytest

from assistant.flow.load import load
from assistant.flow.model import Fact
from assistant.flow.place import flows_folder
from assistant.flowfile import shape
from tests.house.test_imports import HOUSE
from tests.house.tree import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
QUOTED = set(re.findall(r"`([^`\n]+)`", DEVELOPERS))
COMMANDS = ("calibrate", "jobs", "resume", "book", "flows", "misread")
OPTIONS = ("--plain", "--units", "--say", "--book", "--answers", "--facts", "--json", "--help")


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


@pytest.mark.parametrize("word", [*COMMANDS, *OPTIONS])
def test_every_command_and_option_is_in_the_readme(word: str) -> None:
    assert word in README


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
