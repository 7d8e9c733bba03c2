"""The recipes of DEVELOPERS.md, read from it and done in a copy of the project.

A block does what it shows. One that begins with `# some/file` goes to the end of that file, or
makes it. In a `diff` block a line `@ some/file` names a file, and what follows is changed in it.
In a `console` block a line after `$` is typed, and every line below it must be printed.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from textwrap import dedent

from tests.flowfile.spoiled import Hunk
from tests.house.tree import ROOT, project_files

BLOCK = re.compile(r"^( *)```(\w+)\n(.*?)^\1```$", re.DOTALL | re.MULTILINE)
PROGRAM = 'drillside() { python -m assistant "$@"; }\n'
NEEDS_MORE = 3
"""How a run by script ends whose answers ran out: what was asked is on the screen."""


@dataclass(frozen=True, slots=True)
class Block:
    """One block of a recipe."""

    language: str
    lines: list[str]


def recipe(heading: str) -> list[Block]:
    """The blocks of the recipe under a heading, in order."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    text = page.split(f"\n### {heading}\n")[1].split("\n##")[0]
    return [Block(each[2], dedent(each[3]).splitlines()) for each in BLOCK.finditer(text)]


def copy_of_project(folder: Path) -> Path:
    """The files of the project, in a folder of their own."""
    for name in project_files():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / name, path)
    return folder


def follow(block: Block, project: Path) -> None:
    """Do what a block shows. Raises AssertionError where it does not come out as shown."""
    match block.language:
        case "diff":
            for hunk in hunks(block.lines):
                hunk.apply(project)
        case "console":
            for typed, shown in commands(block.lines):
                printed = ran(typed, project)
                assert [line for line in shown if line not in printed] == [], printed
        case _:
            add(block.lines, project)


def hunks(lines: list[str]) -> Iterator[Hunk]:
    """The changes of a block, each with its file."""
    hunk: Hunk | None = None
    for line in lines:
        if line.startswith("@ "):
            if hunk:
                yield hunk
            hunk = Hunk(line[2:])
        elif hunk:
            hunk.take(line or " ")
    if hunk:
        yield hunk


def commands(lines: list[str]) -> Iterator[tuple[str, list[str]]]:
    """What is typed, each with what must be printed."""
    starts = [at for at, line in enumerate(lines) if line.startswith("$ ")]
    for at, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        yield lines[at][2:], lines[at + 1 : end]


def add(lines: list[str], project: Path) -> None:
    """Put lines at the end of the file that the first one names, or make it."""
    path = project / lines[0].removeprefix("# ")
    before = path.read_text(encoding="utf-8") if path.exists() else ""
    path.write_text(before + "\n".join(lines[1:]) + "\n", encoding="utf-8")


def ran(typed: str, project: Path) -> str:
    """What a command prints in the copy; it must end well, or ask for more."""
    place = {
        "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(project),
        "DRILLSIDE_BOOK": str(project / ".try.db"),
    }
    done = subprocess.run(
        ["bash", "-c", PROGRAM + typed],
        cwd=project,
        env=os.environ | place,
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.returncode in {0, NEEDS_MORE}, done.stdout + done.stderr
    return done.stdout
