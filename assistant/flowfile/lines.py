"""On which line of a TOML file a table or a key stands: `tomllib` does not tell.

Only what a flow file uses: headers, keys at the start of a line, texts over several lines.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

Path = tuple[str | int, ...]

HEADER = re.compile(r"\s*(\[\[?)([^\[\]]+)\]\]?\s*(?:#.*)?$")
KEY = re.compile(r"""\s*((?:"[^"]*"|'[^']*'|[\w-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[\w-]+))*)\s*=""")
NAME = re.compile(r""""([^"]*)"|'([^']*)'|([\w-]+)""")
LONG_TEXT = re.compile(r'"""|\'\'\'')
SHORT_TEXT = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'|#.*')


class Lines:
    """The lines of one file by the path of what stands there: `("step", 2, "next")`."""

    def __init__(self, text: str) -> None:
        self.known: dict[Path, int] = {}
        for line, path in _paths(text):
            self.known.setdefault(path, line)

    def of(self, *path: str | int) -> int:
        """The line of a path, or of the nearest table above it; 1 when nothing of it is there."""
        while path:
            if path in self.known:
                return self.known[path]
            path = path[:-1]
        return 1


def _paths(text: str) -> Iterator[tuple[int, Path]]:
    head: Path = ()
    counts: dict[Path, int] = {}
    for number, line in _outside(text):
        header = HEADER.match(line)
        if header:
            head = _names(header[2])
            if header[1] == "[[":
                at = counts[head] = counts.get(head, -1) + 1
                head = (*head, at)
            yield number, head
            continue
        key = KEY.match(line)
        if key:
            yield number, (*head, *_names(key[1]))


def _names(dotted: str) -> Path:
    return tuple(a or b or c for a, b, c in NAME.findall(dotted))


def _outside(text: str) -> Iterator[tuple[int, str]]:
    """The lines that start outside of a long text or an open list."""
    inside, depth = "", 0
    for number, line in enumerate(text.split("\n"), 1):
        if not inside and not depth:
            yield number, line
        inside, code = _code(line, inside)
        if not HEADER.match(line) or depth:
            depth += sum(code.count(sign) for sign in "[{") - sum(code.count(s) for s in "]}")
            depth = max(depth, 0)


def _code(line: str, inside: str) -> tuple[str, str]:
    """The long text still open after a line, and what of the line is neither text nor comment."""
    code = ""
    while line:
        if inside:
            _, found, line = line.partition(inside)
            inside = "" if found else inside
            continue
        opening = LONG_TEXT.search(line)
        short = SHORT_TEXT.search(line)
        if opening and (not short or opening.start() <= short.start()):
            code += line[: opening.start()]
            inside, line = opening[0], line[opening.end() :]
        elif short:
            code += line[: short.start()]
            line = line[short.end() :]
        else:
            return inside, code + line
    return inside, code
