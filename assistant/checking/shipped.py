"""Whether the flow files are just as they shipped, so that they need no judging at the start."""

from __future__ import annotations

import json
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

CHECKED = "checked.json"


def hashes(folder: Path) -> dict[str, str]:
    """The hash of every flow file, by its path below the folder."""
    return {name: sha256(path.read_bytes()).hexdigest() for name, path in flow_files(folder)}


def flow_files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Every flow file with its path below the folder, in order."""
    for path in sorted(folder.rglob("*.toml")):
        yield path.relative_to(folder).as_posix(), path


def as_shipped(folder: Path) -> bool:
    """Whether every file has the hash that shipped, and none is missing or new."""
    try:
        shipped = json.loads((folder / CHECKED).read_text(encoding="utf-8"))
        return bool(shipped == hashes(folder))
    except (OSError, ValueError):
        return False


def stamp(folder: Path) -> None:
    """Write the hashes of files that were judged and found sound."""
    text = json.dumps(hashes(folder), indent=1)
    (folder / CHECKED).write_text(f"{text}\n", encoding="utf-8")
