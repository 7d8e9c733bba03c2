"""The texts of flow files that can reach the screen, and where each stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assistant.checking.flows import Where
from assistant.flow.load import read
from assistant.flow.model import LEANS

NOT_SAID = frozenset(
    (
        *("id", "kind", "names", "told", "bare", "us", "metric", "possible", "usual", "misses_by"),
        *("accepts", "refuses", "words", "commands", "source", "basis", "name", "grade", "only"),
        *("next", "use", "as", "carry", "reads", "sets", "work_out", "propose", "leave", "gives"),
        *("corrected", "exposes", "match", "recall", "split", "caution", "finish", "records"),
        *("variants", "table", "known_words", "look", "stands_at", "members", "last", "under"),
        *("unknown", "stale_after", "example", "half", "mending", "meant", "asked", "bring"),
        *LEANS,
    )
)
"""Keys whose texts are for the machine, or are typed by people, or are sources."""

NOT_SHOWN = {"asking.toml", "plain.toml"}
"""What people type, and how texts are written."""


@dataclass(frozen=True, slots=True)
class Said:
    """A text, the file and keys that lead to it, and the step, fact or word that it is of."""

    where: Where
    text: str
    name: str


def said_in(folder: Path) -> Iterator[Said]:
    """Every text of a folder of flow files that can reach the screen, by file."""
    for path in sorted(folder.rglob("*.toml")):
        file = path.relative_to(folder).as_posix()
        if file not in NOT_SHOWN and not file.startswith("tables/"):
            table = read(path)
            for where, text in texts_in(table):
                yield Said((file, *where), text, _name(table, file, where))


def _name(table: Mapping[str, Any], file: str, where: Where) -> str:
    match where:
        case ["step", int(number), *_]:
            return str(table["step"][number]["id"])
        case _ if file == "words.toml":
            return ".".join(map(str, where))
    return str(where[0])


def texts_in(value: object, where: Where = ()) -> Iterator[tuple[Where, str]]:
    """Each text in parsed TOML that is said, with the keys that lead to it."""
    if isinstance(value, str):
        yield where, value
    elif isinstance(value, list):
        for number, item in enumerate(value):
            yield from texts_in(item, (*where, number))
    elif isinstance(value, dict):
        for key, item in value.items():
            if key not in NOT_SAID:
                yield from texts_in(item, (*where, key))
