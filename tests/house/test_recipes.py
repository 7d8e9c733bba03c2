"""Each recipe of DEVELOPERS.md, done to the letter in a copy of the project, works."""

from pathlib import Path

import pytest

from tests.house.recipes import Block, copy_of_project, follow, recipe

PROVEN = ("Add a question", "Add a job", "Add a calculation")


@pytest.mark.parametrize("heading", PROVEN)
def test_a_recipe_works_as_it_is_written(heading: str, tmp_path: Path) -> None:
    blocks = recipe(heading)
    typed = [line for each in blocks if each.language == "console" for line in each.lines]
    assert "$ python -m tests.stamp" in typed
    assert any("--answers" in line for line in typed)
    project = copy_of_project(tmp_path)
    for block in blocks:
        follow(block, project)


def test_a_recipe_that_leaves_a_step_out_is_found(tmp_path: Path) -> None:
    _declare, ask, run = recipe("Add a question")
    project = copy_of_project(tmp_path)
    follow(ask, project)
    with pytest.raises(AssertionError):
        follow(run, project)


def test_a_recipe_that_prints_something_else_is_found(tmp_path: Path) -> None:
    with pytest.raises(AssertionError):
        follow(Block("console", ["$ echo one", "two"]), tmp_path)


def test_a_recipe_that_changes_what_is_not_there_is_found(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text("one = 1\n", encoding="utf-8")
    with pytest.raises(AssertionError):
        follow(Block("diff", ["@ a.toml", " two = 2", "+three = 3"]), tmp_path)
