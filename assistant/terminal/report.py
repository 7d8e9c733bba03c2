"""A note about trouble inside the program: where it was, never what people typed."""

from __future__ import annotations

import os
import platform
import traceback
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

from assistant import __version__
from assistant.terminal.screen import filled

PACKAGE = Path(__file__).resolve().parents[1]


def sentence(trouble: Exception, words: Mapping[str, str]) -> str:
    """What a person is told of trouble: about the book its cure, else that a report was written."""
    from assistant.book.places import report_folder
    from assistant.book.problems import BookProblem
    from assistant.dialogue.job import WaysDifferError

    if isinstance(trouble, BookProblem):
        return filled(words[f"book.{trouble.code}"], path=str(trouble.path))
    differ = "differ_" if isinstance(trouble, WaysDifferError) else ""
    try:
        path = report(trouble, report_folder())
    except (OSError, BookProblem):
        return words[f"trouble.{differ}unreported"]
    return filled(words[f"trouble.{differ}reported"], path=str(path))


def report(trouble: BaseException, folder: Path) -> Path:
    """Write the report for its owner alone; returns where. Raises OSError."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    name = datetime.now(UTC).strftime("%Y%m%d-%H%M%S-%f")
    path = folder / f"{name}.txt"
    with os.fdopen(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "w") as file:
        file.write("\n".join(report_lines(trouble)) + "\n")
    return path


def report_lines(trouble: BaseException) -> list[str]:
    """Version, system, and each kind of trouble with the lines of code that it came through.

    The message of an exception is left out, and so are the values of variables: both may hold
    answers or names.
    """
    lines = [
        f"drillside {__version__}",
        f"python {platform.python_version()} {platform.system()} {platform.machine()}",
    ]
    seen: BaseException | None = trouble
    while seen is not None:
        lines.append(f"{type(seen).__module__}.{type(seen).__qualname__}")
        lines += [
            f"  {file_name(frame.filename)}:{frame.lineno} {frame.name}"
            for frame in traceback.extract_tb(seen.__traceback__)
        ]
        seen = seen.__cause__ or seen.__context__
    return lines


def file_name(name: str) -> str:
    """A file of ours from the package on; of any other its name alone, for a path tells who."""
    path = Path(name)
    if path.is_relative_to(PACKAGE):
        return path.relative_to(PACKAGE.parent).as_posix()
    return path.name
