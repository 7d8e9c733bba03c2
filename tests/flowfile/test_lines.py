"""Where a table or key stands, which the TOML reader of the standard library does not tell."""

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from assistant.flow.place import flows_folder
from assistant.flowfile.lines import Lines

TEXT = '''\
# [not.a.header]
title = "one = two"
[part]
say = """
[[step]]
id = "in a text"
"""  # and a comment = here
list = [
  "a = 1",
  { name = "]" },
]
after = 1

[[step]]
id = "first"
"quoted key" = 1
a.b = 2
[[step]]
id = 'second'
text = \'\'\'
x = 1\'\'\'
next = { a = "b" }
[step.deep]
key = 1
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("title",), 2),
        (("part",), 3),
        (("part", "say"), 4),
        (("part", "list"), 8),
        (("part", "after"), 12),
        (("step", 0), 14),
        (("step", 0, "id"), 15),
        (("step", 0, "quoted key"), 16),
        (("step", 0, "a", "b"), 17),
        (("step", 1), 18),
        (("step", 1, "text"), 20),
        (("step", 1, "next"), 22),
        (("step", "deep", "key"), 24),
    ],
)
def test_each_table_and_key_is_on_its_line(path: tuple[str | int, ...], line: int) -> None:
    assert Lines(TEXT).of(*path) == line


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("step", 1, "next", "a"), 22),
        (("step", 1, ""), 18),
        (("part", "title"), 3),
        (("part", "list", 1, "name"), 8),
        (("nowhere", "at", "all"), 1),
        ((), 1),
    ],
)
def test_what_has_no_line_is_on_the_line_of_what_is_around_it(
    path: tuple[str | int, ...], line: int
) -> None:
    assert Lines(TEXT).of(*path) == line


def paths(value: Any, above: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """The paths of the tables and keys at the first two depths of a file."""
    for key, inner in value.items() if isinstance(value, Mapping) else ():
        yield (*above, key)
        if isinstance(inner, list) and key in TABLES:
            for number, step in enumerate(inner):
                yield from ((*above, key, number, name) for name in step)
        elif isinstance(inner, dict) and not above:
            yield from paths(inner, (key,))


TABLES = {"step", "block"}  # lists of tables
FILES = sorted(flows_folder().rglob("*.toml"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_key_of_the_flows_that_ship_is_found_where_it_is_written(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    lines, known = text.splitlines(), Lines(text)
    inline = {"tables", "findings.toml", "words.toml"} & set(path.parts)
    for each in paths(tomllib.loads(text)):
        name = str(each[-1])
        if name in TABLES or (inline and len(each) > 1):
            continue
        assert name in lines[known.of(*each) - 1], each
