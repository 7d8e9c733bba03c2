"""Finds string literals that look like sentences: three or more words in a row."""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.house.tree import name_of, tree

WORD = r"[^\W\d_]+(?:['’-][^\W\d_]+)*"
RUN = re.compile(rf"{WORD}(?:[,;:.!?)\"”]*\s+[(\"“]*{WORD}){{2,}}")
VALUE = "\N{OBJECT REPLACEMENT CHARACTER}"  # stands for the value in an f-string
STAND_IN = "value"


@dataclass(frozen=True, slots=True)
class Literal:
    """A string literal that looks like a sentence, and where it stands."""

    module: str
    line: int
    text: str


def looks_like_a_sentence(text: str) -> bool:
    """Three words in a row; a value put in counts as a word, but two must be written."""
    for run in RUN.finditer(text.replace(VALUE, STAND_IN)):
        words = re.findall(WORD, run.group())
        if len(words) - words.count(STAND_IN) >= 2:
            return True
    return False


def text_of(node: ast.AST) -> str | None:
    """The text of a literal, an f-string or a sum of them, with stand-ins for values."""
    match node:
        case ast.Constant(value=str(text)):
            return text
        case ast.JoinedStr(values=parts):
            return "".join(text_of(part) or VALUE for part in parts)
        case ast.BinOp(left=left, op=ast.Add(), right=right):
            texts = (text_of(left), text_of(right))
            return "".join(text or VALUE for text in texts) if any(texts) else None
    return None


def values_in(node: ast.AST) -> Iterator[ast.AST]:
    """What is put into a text: these may hold texts of their own."""
    match node:
        case ast.JoinedStr(values=parts):
            yield from (part for part in parts if isinstance(part, ast.FormattedValue))
        case ast.BinOp(left=left, right=right):
            for side in (left, right):
                yield from values_in(side) if text_of(side) is not None else (side,)


def is_pattern(node: ast.AST) -> bool:
    """A call of the module `re`: its strings are patterns."""
    match node:
        case ast.Call(func=ast.Attribute(value=ast.Name(id="re"))):
            return True
    return False


def literals(node: ast.AST) -> Iterator[tuple[int, str]]:
    """Line and text of each string below `node`, docstrings and patterns left out."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
            continue
        if is_pattern(child):
            continue
        text = text_of(child)
        if text is None:
            yield from literals(child)
        else:
            yield getattr(child, "lineno", 0), text
            for value in values_in(child):
                yield from literals(value)


def sentences(module: Path) -> Iterator[Literal]:
    """Every string of a module that looks like a sentence."""
    for line, text in literals(tree(module)):
        if looks_like_a_sentence(text):
            yield Literal(name_of(module), line, text)
