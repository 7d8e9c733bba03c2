"""Lines that were refused: kept on this machine alone, and only once a person switched it on."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.book.places import data_folder
from assistant.book.problems import BookProblem
from assistant.book.whole_file import write_whole
from assistant.dialogue.messages import Message, Trouble
from assistant.terminal.desk import Desk, now
from assistant.terminal.leaving import TROUBLE
from assistant.terminal.screen import filled, tell

if TYPE_CHECKING:
    from assistant.sitting.sitting import Sitting

FILE, SWITCH = "misread.jsonl", "misread.on"
MOST = 1_000
LONGEST = 500
"""Signs that are kept of a line; the reader takes far longer ones."""

NOT_REFUSED = {"unused", "parked"}


def keep(sitting: Sitting, line: str, said: Sequence[Message]) -> None:
    """Keep a line that was refused, with the question that stands open; nothing while it is off.

    Trouble with the file never holds up a conversation: then the line is not kept.
    """
    codes = {each.code for each in said if isinstance(each, Trouble)} - NOT_REFUSED
    if codes and line.strip():
        with suppress(OSError, BookProblem):
            folder = data_folder()
            if (folder / SWITCH).exists():
                add(folder / FILE, asked(sitting), line, now())


def asked(sitting: Sitting) -> str:
    """The facts that are asked, or what else waits."""
    open_ = sitting.state.situation.open
    return ", ".join(open_.facts) or open_.hazard or open_.kind if open_ else ""


def add(path: Path, question: str, text: str, at: datetime) -> None:
    """Add a line; of too many the oldest go. Raises OSError."""
    told = {"at": f"{at:%Y-%m-%d}", "question": question, "text": text[:LONGEST]}
    row = json.dumps(told) + "\n"
    rows = rows_of(path)
    if len(rows) < MOST:
        append(path, row)
    else:
        write_whole(path, [*(f"{each}\n" for each in rows[1 - MOST :]), row])


def append(path: Path, row: str) -> None:
    """Add to a file that only its owner can read. Raises OSError."""
    opened = os.open(path, os.O_CREAT | os.O_WRONLY | os.O_APPEND, 0o600)
    with os.fdopen(opened, "a", encoding="utf-8") as file:
        file.write(row)


def rows_of(path: Path) -> list[str]:
    """The rows of the file, none where there is no file. Raises OSError."""
    return path.read_text(encoding="utf-8", errors="replace").splitlines() if path.exists() else []


def kept(path: Path) -> Iterator[tuple[str, str, str]]:
    """Date, question and text of each line; a row that somebody spoiled is left out."""
    for row in rows_of(path):
        with suppress(ValueError, KeyError, TypeError):
            told = json.loads(row)
            yield str(told["at"]), str(told["question"]), str(told["text"])


# -- the command ------------------------------------------------------------------------------


def told(desk: Desk) -> int:
    """Whether lines are kept, how many there are, and where."""
    folder, words = data_folder(), desk.library.words
    switch = "on" if (folder / SWITCH).exists() else "off"
    tell(words[f"misread.{switch}"])
    count = sum(1 for _ in kept(folder / FILE))
    tell(filled(words["misread.file"], path=str(folder / FILE), count=str(count)))
    return 0


def done(desk: Desk, act: Callable[[Path], None]) -> int:
    """Do something with the files, and tell how it stands then."""
    folder = data_folder()
    try:
        act(folder)
    except OSError:
        tell(filled(desk.library.words["misread.stuck"], path=str(folder)), sys.stderr)
        return TROUBLE
    return told(desk)


def switch_on(desk: Desk) -> int:
    """Keep refused lines from here on."""

    def on(folder: Path) -> None:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        append(folder / SWITCH, "")

    return done(desk, on)


def switch_off(desk: Desk) -> int:
    """Keep no more; what is kept stays."""
    return done(desk, lambda folder: (folder / SWITCH).unlink(missing_ok=True))


def erase(desk: Desk) -> int:
    """Take the lines away; whether more are kept stays as it is."""
    return done(desk, lambda folder: (folder / FILE).unlink(missing_ok=True))


def show(desk: Desk) -> int:
    """Every line that is kept, oldest first, and where the file is."""
    for at, question, text in kept(data_folder() / FILE):
        line = " ".join(text.split())
        tell(filled(desk.library.words["misread.line"], at=at, question=question, text=line))
    return told(desk)


ACTS = {"told": told, "on": switch_on, "off": switch_off, "show": show, "erase": erase}
