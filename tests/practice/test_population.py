"""The drills of the practice are not fitted to the rule: no commit changes both."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
POPULATION = "assistant/practice/population.py"
RULE = {
    f"assistant/calc/{name}.py"
    for name in (
        *("turned", "turned_catches", "deciding", "beliefs", "assumed", "falling"),
        *("openings", "judging", "aiming", "lever"),
    )
}


def git(*words: str) -> list[str]:
    """What git tells, line by line; skipped where the project came without its history."""
    told = subprocess.run(["git", *words], cwd=ROOT, capture_output=True, text=True, check=False)
    if told.returncode:
        pytest.skip("no history here")
    return told.stdout.split("\n")


def test_no_commit_changes_the_population_and_the_rule() -> None:
    assert (ROOT / POPULATION).is_file()
    assert all((ROOT / each).is_file() for each in RULE)
    commits = [each for each in git("log", "--format=%H", "--", POPULATION) if each]
    assert commits
    for commit in commits:
        touched = set(git("show", "--format=", "--name-only", commit))
        assert not touched & RULE, commit
