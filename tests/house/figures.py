"""How big the house is: lines of modules, functions, flow files and of the engine.

`python tests/house/figures.py` prints the figures.
"""

import ast
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import median

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.house.tree import PACKAGE, ROOT, flow_files, modules, name_of, tree

ENGINE = ("flow", "dialogue")


@dataclass(frozen=True, slots=True)
class Size:
    """Something that has a name and a number of lines."""

    name: str
    lines: int


def lines_of(path: Path) -> int:
    """All lines of a file, blank ones included."""
    return len(path.read_text(encoding="utf-8").splitlines())


def written_lines_of(path: Path) -> int:
    """The lines of a file that are not blank."""
    return sum(bool(line.strip()) for line in path.read_text(encoding="utf-8").splitlines())


def module_sizes(folder: Path = PACKAGE) -> list[Size]:
    """Every module with its lines."""
    return [Size(name_of(module), lines_of(module)) for module in modules(folder)]


def functions(node: ast.AST) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Every function and method in a tree, those inside others too."""
    for inner in ast.walk(node):
        if isinstance(inner, ast.FunctionDef | ast.AsyncFunctionDef):
            yield inner


def function_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines from `def` to the end, less the docstring: the house asks for long ones."""
    last = function.end_lineno or function.lineno
    doc = function.body[0] if ast.get_docstring(function, clean=False) is not None else None
    doc_lines = (doc.end_lineno or doc.lineno) - doc.lineno + 1 if doc else 0
    return last - function.lineno + 1 - doc_lines


def function_sizes(folder: Path = PACKAGE) -> list[Size]:
    """Every function with its lines."""
    return [
        Size(f"{name_of(module)}:{function.name}", function_lines(function))
        for module in modules(folder)
        for function in functions(tree(module))
    ]


def flow_sizes() -> list[Size]:
    """Every flow file with its lines."""
    return [Size(name_of(path), lines_of(path)) for path in flow_files()]


def engine_lines() -> int:
    """Lines of the engine that are not blank."""
    return sum(written_lines_of(path) for part in ENGINE for path in modules(PACKAGE / part))


def spread(sizes: list[Size]) -> str:
    """Number, median, ninth tenth and the largest with its name."""
    if not sizes:
        return "none"
    lines = sorted(size.lines for size in sizes)
    largest = max(sizes, key=lambda size: size.lines)
    tenth = lines[min(len(lines) - 1, len(lines) * 9 // 10)]
    return (
        f"{len(lines)}, median {median(lines):g}, p90 {tenth}, "
        f"largest {largest.lines} ({largest.name})"
    )


def figures() -> str:
    """All figures as text, one a line."""
    code = sum(size.lines for size in module_sizes())
    tests = sum(size.lines for size in module_sizes(ROOT / "tests"))
    flows = sum(size.lines for size in flow_sizes())
    return "\n".join(
        (
            f"modules     {spread(module_sizes())}",
            f"functions   {spread(function_sizes())}",
            f"flow files  {spread(flow_sizes())}",
            f"engine      {engine_lines()} lines that are not blank",
            f"lines       code {code}, tests {tests}, flows {flows}",
        )
    )


if __name__ == "__main__":
    print(figures())
