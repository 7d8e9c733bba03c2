"""A file that is written whole or not at all."""

import os
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path


def write_whole(path: Path, lines: Iterable[str]) -> None:
    """Writes lines as UTF-8, for the owner only.

    Until all of it is on disk, `path` stays as it was. Raises OSError.
    """
    descriptor, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    part = Path(name)
    try:
        with open(descriptor, "wb") as file:  # noqa: PTH123  it is open already
            file.writelines(line.encode("utf-8") for line in lines)
            file.flush()
            os.fsync(descriptor)
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Sees a new name in a folder onto the disk, on systems that can."""
    with suppress(OSError):  # Windows opens no folder, and some file systems sync none
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
