"""Mutants of the code, made and judged by mutmut in a copy of the project.

`python -m tests.campaigns.code_mutants calc [HOW_MANY [SEED]]`: a folder of `assistant/`, and how
many of its mutants are tried, picked by a seed. Writes the figures.
"""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from tests.house.recipes import copy_of_project

FIGURES = Path(__file__).with_name("code_figures.json")
SEED, HOW_MANY = 7, 200
LEAST = 0.95
"""The share of mutants that must be killed."""
KILLED = {1, 3}
"""What pytest ends with where a test failed, or could not even be run."""
NO_TESTS = {5, 33}
BY_TYPES = 37
"""What mutmut notes where mypy refuses the mutant, as `.ci/run` would: no test is run then."""

STORIES = (
    "tests/stories/test_stories.py",
    "--deselect=tests/stories/test_stories.py::test_the_conversation_reads_as_it_did",
    "--deselect=tests/stories/test_stories.py::test_each_snapshot_belongs_to_a_story_and_there_are_few",
)
"""The stories, without the snapshots: those say that something changed, not that it is wrong."""

TESTS = {
    # What reads source text would look at mutmut's own copies of a function, and is left out.
    "calc": (
        "tests/calc",
        "tests/published/test_worked_examples.py",
        "--ignore=tests/calc/test_form.py",
    ),
    "answers": (
        *("tests/answers", "--ignore=tests/answers/test_codes.py", "tests/understanding"),
        *("--ignore=tests/answers/test_properties.py", "--ignore=tests/answers/test_spellings.py"),
        *STORIES,
    ),
    "dialogue": (
        *("tests/dialogue/test_corners.py", "tests/dialogue/test_cases.py"),
        *("tests/dialogue/test_everywhere.py", "tests/dialogue/test_leaving.py"),
        *("tests/dialogue/test_asides.py", "tests/dialogue/test_returning.py"),
        "tests/dialogue/test_doubt.py",
        "tests/dialogue/test_air_meter.py",
        *("tests/bad_input/test_misreadings.py", "tests/bad_input/test_not_knowing.py"),
        *("tests/understanding/test_lines.py", "tests/answers/test_passing.py"),
        *("tests/histories", "tests/script", *STORIES),
    ),
    "book": ("tests/book",),
}
"""The tests that concern each folder, without the slowest."""

SETTINGS = """
[tool.mutmut]
source_paths = ["assistant"]
only_mutate = ["assistant/{folder}/*.py"]
also_copy = ["flows", "README.md", "DEVELOPERS.md", "transcripts_demo"]
pytest_add_cli_args = ["-n", "0", "-p", "no:cacheprovider"]
pytest_add_cli_args_test_selection = {tests}
use_git_change_detection = false
timeout_constant = 60.0
type_check_command = ["mypy", "--output", "json", "assistant/{folder}"]
"""

FOR_MUTMUT = {
    '"ignore-without-code", ': "",
    "warn_unreachable = true": "warn_unused_ignores = false",
}
"""What mypy must bear in the copy: mutmut's own lines ignore what they need not, without a code."""

NUMBERED = """
from _pytest.python import IdMaker

_named = IdMaker.make_unique_parameterset_ids
IdMaker.make_unique_parameterset_ids = lambda maker: list(map(str, range(len(_named(maker)))))
"""
"""Examples by number: mutmut hands each to pytest by its name, and odd signs are not found again.

This goes through a private door of pytest, and into the copy alone.
"""


def prepared(folder: str, project: Path) -> Path:
    """A copy of the project in which mutmut knows what to change and what to run."""
    copy_of_project(project)
    settings = (project / "pyproject.toml").read_text(encoding="utf-8")
    for ours, theirs in FOR_MUTMUT.items():
        assert ours in settings
        settings = settings.replace(ours, theirs)
    (project / "pyproject.toml").write_text(settings, encoding="utf-8")
    with (project / "pyproject.toml").open("a", encoding="utf-8") as file:
        file.write(SETTINGS.format(folder=folder, tests=json.dumps(TESTS[folder])))
    with (project / "tests" / "conftest.py").open("a", encoding="utf-8") as file:
        file.write(NUMBERED)
    return project


def mutmut(project: Path, *what: str) -> str:
    """What mutmut prints to a command."""
    command = [sys.executable, "-m", "mutmut", *what]
    done = subprocess.run(command, cwd=project, check=False, capture_output=True, text=True)
    return done.stdout + done.stderr


def verdicts(project: Path) -> dict[str, int | None]:
    """Every mutant by mutmut's name, with what its tests ended with, if they were run."""
    found: dict[str, int | None] = {}
    for path in sorted((project / "mutants").rglob("*.meta")):
        found |= json.loads(path.read_text(encoding="utf-8"))["exit_code_by_key"]
    return found


def difference(project: Path, name: str) -> str:
    """A mutant by its file and what it changes: the same words while the code is the same."""
    lines = mutmut(project, "show", name).splitlines()
    changed = [line for line in lines if line[:1] in "+-" and line[:3] not in {"+++", "---"}]
    file = next(line[4:] for line in lines if line.startswith("--- "))
    old, new = (" ".join(each[1:].strip() for each in changed if each[0] == s) for s in "-+")
    return f"{file}: {old} => {new}"


def killed_by_all(project: Path, folder: str, name: str) -> bool:
    """Whether any of the folder's tests kills a mutant that mutmut's own choice let live.

    It runs the tests that met the function first; a story is played once, for all that look at it.
    """
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *TESTS[folder]],
        cwd=project / "mutants",
        env=os.environ | {"MUTANT_UNDER_TEST": name, "PYTHONPATH": str(project / "mutants")},
        check=False,
        capture_output=True,
    )
    return done.returncode in KILLED


def campaign(folder: str, how_many: int = HOW_MANY, seed: int = SEED) -> dict[str, Any]:
    """Try a sample of the mutants of a folder."""
    began = time.monotonic()
    with TemporaryDirectory() as place:
        project = prepared(folder, Path(place))
        told = mutmut(
            project, "run", "none of them"
        )  # makes all, and learns which test meets which
        names = list(verdicts(project))
        if not names:
            raise SystemExit(told)
        tried = sorted(random.Random(seed).sample(names, min(how_many, len(names))))
        told = mutmut(project, "run", "--max-children", "1", *tried)
        ended = {name: code for name, code in verdicts(project).items() if name in tried}
        if set(ended.values()) == {None}:
            raise SystemExit(told)
        lived = [name for name, code in ended.items() if code == 0]
        assert not lived or not killed_by_all(project, folder, ""), "a test fails without a mutant"
        alive = [name for name in lived if not killed_by_all(project, folder, name)]
        return {
            "there": len(names),
            "seed": seed,
            "tried": len(ended),
            "killed": sum(code in {BY_TYPES, *KILLED} for code in ended.values())
            + len(lived)
            - len(alive),
            "by_types": sum(code == BY_TYPES for code in ended.values()),
            "hung": sum(
                code not in {0, None, BY_TYPES, *KILLED, *NO_TESTS} for code in ended.values()
            ),
            "no_tests": [difference(project, n) for n, code in ended.items() if code in NO_TESTS],
            "not_run": sum(code is None for code in ended.values()),
            "survived": [difference(project, name) for name in alive],
            "seconds": round(time.monotonic() - began),
        }


def main() -> None:
    """Try the mutants of one folder, and write the figures."""
    folder, *many = sys.argv[1:]
    known = json.loads(FIGURES.read_text(encoding="utf-8")) if FIGURES.exists() else {}
    known[folder] = campaign(folder, *map(int, many))
    FIGURES.write_text(json.dumps(known, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    print(json.dumps(known[folder], indent=1, ensure_ascii=False))


if __name__ == "__main__":
    main()
