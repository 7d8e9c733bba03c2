"""What differs between two folders of flow files, told by file, table and key."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from assistant.checking.shipped import flow_files
from assistant.flow.load import read

Change = Literal["new", "gone", "changed"]
Values = Mapping[tuple[str, ...], str]


@dataclass(frozen=True, slots=True)
class Difference:
    """One key of a flow file: where it stands, and its value before and now."""

    change: Change
    file: str
    where: str
    before: str = ""
    now: str = ""


def differences(old: Path, new: Path) -> list[Difference]:
    """What is new, gone or changed from one folder to another, file by file.

    Raises: OSError, or ValueError for a file that is not UTF-8 or not TOML.
    """
    before, now = dict(flow_files(old)), dict(flow_files(new))
    return [
        each
        for name in sorted(before.keys() | now.keys())
        for each in _of_file(name, before.get(name), now.get(name))
    ]


def _of_file(name: str, old: Path | None, new: Path | None) -> Iterator[Difference]:
    if old is None or new is None:
        yield Difference("new" if old is None else "gone", name, "")
        return
    before, now = _values(old), _values(new)
    for path in dict.fromkeys((*before, *now)):
        if before.get(path) != now.get(path):
            yield _difference(name, " ".join(path), before.get(path), now.get(path))


def _difference(file: str, where: str, before: str | None, now: str | None) -> Difference:
    change: Change = "new" if before is None else "gone" if now is None else "changed"
    return Difference(change, file, where, before or "", now or "")


def _values(path: Path) -> Values:
    return dict(_flat((), read(path)))


def _flat(above: tuple[str, ...], value: Any) -> Iterator[tuple[tuple[str, ...], str]]:
    """Each value under the names that lead to it; a step or a choice is named by itself."""
    if isinstance(value, Mapping) and value:
        for key, inner in value.items():
            yield from _flat((*above, key), inner)
    elif isinstance(value, list) and value and all(map(_named, value)):
        for each in value:
            yield from _flat((*above, _named(each)), each)
    else:
        text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
        yield above, text


def _named(value: Any) -> str:
    """The name that a table bears: its `id` as a step, its `name` as a choice; else empty."""
    if not isinstance(value, Mapping):
        return ""
    return str(value.get("id", value.get("name", "")))
