"""Imports run downwards only, and outside packages stay where they belong."""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.house.tree import PACKAGE, modules, name_of

# A line may import from the lines below it; those on one line do not know each other.
HOUSE = (
    ("cli",),
    ("terminal", "script", "practice"),
    ("sitting",),
    ("checking", "drawing", "card"),
    ("flowfile", "book", "dialogue"),
    ("flow", "answers", "calc"),
    ("quantities",),
)
DEPTH = {room: depth for depth, line in enumerate(HOUSE) for room in line}

# The only rooms that may import these.
KEPT = {
    "argparse": {"cli"},
    "pint": {"quantities"},
    "platformdirs": {"book"},
    "prompt_toolkit": {"terminal"},
    "pydantic": {"flowfile"},
    "rich": {"terminal"},
    "sqlite3": {"book"},
    "tomllib": {"flow", "flowfile", "script"},
}

# Pure rooms: what they need of the world comes in with the call.
PURE = {"quantities", "answers", "calc", "dialogue", "drawing", "card"}
WORLD = {"os", "random", "secrets", "shutil", "subprocess", "tempfile", "time", "uuid"}

# Nothing here talks to a network, and no module is found by a name made at run time.
NOWHERE = {"ftplib", "http", "importlib", "smtplib", "socket", "ssl", "urllib"}


def room_of(dotted: str) -> str:
    """`assistant.calc.wheel` lies in `calc`; the package itself lies in ``."""
    return dotted.partition(".")[2].split(".")[0]


def imports(source: str) -> Iterator[tuple[int, str]]:
    """Line and dotted name of every import, those inside functions included."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = "." * node.level + (node.module or "")
            if base == "assistant":
                yield from ((node.lineno, f"assistant.{alias.name}") for alias in node.names)
            else:
                yield node.lineno, base
        elif isinstance(node, ast.Name) and node.id == "__import__":
            yield node.lineno, "importlib"


def fault_inside(room: str, target: str) -> str | None:
    """What is wrong when `room` imports from the room `target`."""
    if target not in DEPTH:
        return None if target in {"", "__version__"} else f"{target} has no place in the house"
    if room != target and DEPTH[target] <= DEPTH[room]:
        return f"{room} is not above {target}"
    return None


def fault_outside(room: str, package: str) -> str | None:
    """What is wrong when `room` imports the outside package or standard module."""
    if package in KEPT:
        return None if room in KEPT[package] else f"{package} is kept out of {room}"
    if package in NOWHERE:
        return f"{package} is kept out of the house"
    if package in WORLD and room in PURE:
        return f"{room} is pure and does without {package}"
    return None if package in sys.stdlib_module_names else f"{package} is on no list"


def faults(room: str, source: str) -> list[str]:
    """All breaches in the source of one module of `room`, with their lines."""
    found = []
    for line, dotted in imports(source):
        package = dotted.split(".")[0]
        inside = package == "assistant"
        fault = fault_inside(room, room_of(dotted)) if inside else fault_outside(room, package)
        if fault:
            found.append(f"{line}: {fault}")
    return found


def rooms() -> set[str]:
    """The rooms that exist: folders that hold Python, and the modules that stand alone."""
    folders = {module.relative_to(PACKAGE).parts[0] for module in modules()}
    return {name.removesuffix(".py") for name in folders} - {"__init__", "__main__"}


def room_of_file(module: Path) -> str:
    """The command's front door may import `cli` and nothing else does."""
    room = module.relative_to(PACKAGE).parts[0].removesuffix(".py")
    return "front door" if room == "__main__" else room


def test_every_folder_has_its_place_in_the_house() -> None:
    assert rooms() <= set(DEPTH)


def test_imports_run_downwards_and_packages_stay_in_their_room() -> None:
    for module in modules():
        room = room_of_file(module)
        source = module.read_text(encoding="utf-8")
        if room == "front door":
            assert {dotted for _, dotted in imports(source)} == {"sys", "assistant.cli"}
        elif room == "__init__":
            assert list(imports(source)) == [], name_of(module)
        else:
            assert faults(room, source) == [], name_of(module)


@pytest.mark.parametrize(
    ("room", "source"),
    [
        ("calc", "from assistant.answers.read import read"),
        ("calc", "from assistant import dialogue"),
        ("quantities", "import assistant.calc"),
        ("terminal", "def later():\n    from assistant.script import play"),
        ("sitting", "from assistant.cli import main"),
        ("cli", "from assistant.utils import tidy"),
        ("calc", "import pint"),
        ("calc", "import time"),
        ("sitting", "import sqlite3"),
        ("flow", "from pydantic import BaseModel"),
        ("script", "from rich.table import Table"),
        ("dialogue", "import numpy"),
        ("terminal", "import urllib.request"),
        ("book", "__import__('rich')"),
        ("book", "from ..calc import wheel"),
    ],
)
def test_a_planted_breach_is_found(room: str, source: str) -> None:
    assert len(faults(room, source)) == 1


@pytest.mark.parametrize(
    ("room", "source"),
    [
        ("cli", "import argparse\nfrom assistant import __version__"),
        ("dialogue", "from assistant.calc.wheel import rolled"),
        ("quantities", "import pint\nfrom assistant.quantities.kinds import KINDS"),
        ("book", "import sqlite3\nimport platformdirs\nimport time"),
        ("terminal", "from prompt_toolkit import PromptSession\nimport signal"),
    ],
)
def test_what_the_house_allows_passes(room: str, source: str) -> None:
    assert faults(room, source) == []
