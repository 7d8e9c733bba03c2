"""What the questions of a corpus come to: answered, offered, not known, wrong.

`python -m tests.understanding.shares FILE` prints the shares of a file of the form of
`questions.toml`: tables `[[asked]]` with `words` and `topic`, the name of the question that a
reader would take it for, or "" for what is not ours.
"""

from __future__ import annotations

import sys
import tomllib
from dataclasses import dataclass, field
from pathlib import Path

from assistant.answers.asked import Asked
from assistant.flow.load import load
from assistant.flow.place import flows_folder


@dataclass(frozen=True, slots=True)
class Shares:
    """The lines of a corpus by what they came to; foreign is a line not ours that was not left."""

    right: list[str] = field(default_factory=list)
    offered: list[str] = field(default_factory=list)
    missed: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)
    foreign: list[str] = field(default_factory=list)

    @property
    def ours(self) -> int:
        """How many of the lines have a topic."""
        return sum(map(len, (self.right, self.offered, self.missed, self.wrong)))

    def __str__(self) -> str:
        return (
            f"{self.ours} asked: {len(self.right)} answered, {len(self.offered)} offered,"
            f" {len(self.missed)} not known, {len(self.wrong)} wrong;"
            f" {len(self.foreign)} not ours and not left"
        )


def declared() -> Asked:
    """The questions of the flow files."""
    return Asked(*load(flows_folder()).asides())


def rows(file: Path) -> list[dict[str, str]]:
    """The questions of a corpus, each with its topic."""
    return list(tomllib.loads(file.read_text(encoding="utf-8"))["asked"])


def shares(asked: Asked, file: Path) -> Shares:
    """What the questions of a corpus come to."""
    found = Shares()
    for row in rows(file):
        words, topic = row["words"], row["topic"]
        sure, near = asked.sure(words), asked.near(words)
        if not topic:
            found.foreign.extend([words] * bool(sure or near))
        elif sure:
            (found.right if sure == topic else found.wrong).append(words)
        else:
            (found.offered if topic in near else found.missed).append(words)
    return found


def main() -> int:
    """Print the shares of a file, then each line that was not answered rightly."""
    if len(sys.argv) != 2:  # the program and the one file
        print(__doc__, file=sys.stderr)
        return 2
    asked = declared()
    found = shares(asked, Path(sys.argv[1]))
    print(found)
    for kind in ("wrong", "foreign", "missed", "offered"):
        for words in getattr(found, kind):
            named = ", ".join(asked.near(words)) or "-"
            print(f"{kind:8} {words!r}: {named}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
