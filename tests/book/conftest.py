"""A book of each kind, and a user without special rights."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.nobook import NoBook

NOBODY = 65534


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where a book may be made; its folder is not there yet."""
    return tmp_path / "data" / "book.db"


@pytest.fixture(params=[Book, NoBook])
def book(request: pytest.FixtureRequest, path: Path) -> Iterator[Book]:
    """An open book: a file, or kept in memory."""
    kind: type[Book] = request.param
    with kind.open(path) as opened:
        yield opened


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that every user may reach and change."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name).resolve()
        folder.chmod(0o777)
        yield folder


@contextmanager
def as_anyone() -> Iterator[None]:
    """Whoever runs the tests is, in the block, somebody whom file permissions bind."""
    if os.name == "nt":
        pytest.skip("this system has other permissions")
    if os.geteuid() != 0:
        yield
        return
    os.setresuid(NOBODY, NOBODY, 0)
    try:
        yield
    finally:
        os.setresuid(0, 0, 0)
