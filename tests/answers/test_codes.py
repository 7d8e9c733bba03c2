"""The list of refusal codes is whole: neither short of one nor longer than what is used."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from assistant.answers import expect

FOLDER = Path(expect.__file__).parent


def strings(node: ast.AST) -> Iterator[str]:
    for each in ast.walk(node):
        if isinstance(each, ast.Constant) and isinstance(each.value, str):
            yield each.value


def used_codes() -> set[str]:
    """The first string of every Refusal and Trouble, and of the functions that name a fault."""
    codes: set[str] = set()
    for module in FOLDER.glob("*.py"):
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
            match node:
                case ast.Call(func=ast.Name(id="Refusal" | "Trouble"), args=[first, *_]):
                    codes.update(strings(first))
                case ast.FunctionDef(name="_fault" | "_why_not"):
                    returned = (each for each in ast.walk(node) if isinstance(each, ast.Return))
                    codes.update(code for each in returned for code in strings(each))
    return codes & expect.CODES | {code for code in codes if "_" in code}


def test_every_code_that_is_used_is_listed_and_every_listed_one_is_used() -> None:
    assert used_codes() == expect.CODES
