"""Whether the flow files are just as they shipped, so that they need no judging at the start."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

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
    return bool(shipped(folder).get("files") == hashes(folder))


def shipped_sets(folder: Path) -> dict[str, list[str]]:
    """The facts that each calculation can set, as they shipped: a start need not import them."""
    return dict(shipped(folder)["sets"])


def shipped_usual(folder: Path) -> dict[str, int]:
    """The usual number of prompts of each job, as it shipped: a start need not count them."""
    return {name: job["usual"] for name, job in shipped(folder)["jobs"].items()}


def shipped_proof(folder: Path, job: str) -> dict[str, Any]:
    """What the check found of a job as it shipped, as its report tells it, and the mutants.

    Whether the files are still as they shipped is not looked at again.
    """
    found = shipped(folder)
    return {**found["jobs"][job], "mutants": found["mutants"]}


def shipped(folder: Path) -> dict[str, Any]:
    """What shipped beside the flow files; empty where it can't be read."""
    try:
        return dict(json.loads((folder / CHECKED).read_text(encoding="utf-8")))
    except (OSError, ValueError, TypeError):
        return {}


def shipped_mutants(folder: Path) -> dict[str, Any]:
    """Faults `tried` and `killed` by the tests' campaign, and the `flows` it was run on by job."""
    return dict(shipped(folder).get("mutants", {})) if as_shipped(folder) else {}


def stamp(
    folder: Path,
    sets: Mapping[str, list[str]],
    jobs: Mapping[str, Mapping[str, Any]],
    mutants: Mapping[str, Any] | None = None,
) -> None:
    """Write the hashes of files that were judged and found sound.

    With them ships what a start need not work out: what calculations set, and what the check found
    of each job; and the mutants `tried` and `killed` by the campaign of the tests, and the `flows`
    they changed.
    """
    told = {"sets": dict(sets), "jobs": dict(jobs), "mutants": dict(mutants or {})}
    text = json.dumps({"files": hashes(folder), **told}, indent=1)
    (folder / CHECKED).write_text(f"{text}\n", encoding="utf-8")
