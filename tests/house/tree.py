"""The project as files and syntax trees, for the tests that hold the rules of the house."""

import ast
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "assistant"
FLOWS = ROOT / "flows"


def modules(folder: Path = PACKAGE) -> list[Path]:
    """Every Python file under `folder`, in the order of their names."""
    return sorted(folder.rglob("*.py"))


def flow_files(folder: Path = FLOWS) -> list[Path]:
    """Every TOML file under `folder`, in the order of their names."""
    return sorted(folder.rglob("*.toml"))


def project_files() -> list[str]:
    """The names, from the root, of all files that git holds or would take in."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    listed = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    return sorted(name for name in set(listed.split("\0")) - {""} if (ROOT / name).is_file())


def project_texts() -> Iterator[tuple[str, str]]:
    """Name and text of every file of the project that is UTF-8 text."""
    for name in project_files():
        try:
            yield name, (ROOT / name).read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue


@cache
def tree(module: Path) -> ast.Module:
    """The syntax tree of a module."""
    return ast.parse(module.read_text(encoding="utf-8"), filename=str(module))


def name_of(path: Path) -> str:
    """The name of a file from the root, with forward slashes on every system."""
    return path.relative_to(ROOT).as_posix()
