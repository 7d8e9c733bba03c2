"""Eight programs that open, write and close one book at once, for long."""

from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.verifying import verify
from tests.book.programs import busy_together, eager_together
from tests.book.samples import a_talk, made_id

PROGRAMS, TURNS = 8, 40


@pytest.mark.parametrize("again", range(5))
def test_many_programs_write_at_once(tmp_path: Path, again: int) -> None:
    path = tmp_path / f"{again}.db"
    assert busy_together(path, PROGRAMS, TURNS) == [""] * PROGRAMS
    assert list(tmp_path.iterdir()) == [path]
    with Book.open(path) as book:
        found = [len(book.events(made_id(number))) for number in range(1, PROGRAMS + 1)]
        assert found == [TURNS] * PROGRAMS
        assert verify(book) == []


@pytest.mark.parametrize("again", range(5))
def test_one_of_many_has_the_conversation(tmp_path: Path, again: int) -> None:
    path = tmp_path / f"{again}.db"
    with Book.open(path) as book:
        book.start(a_talk(1))
        said = eager_together(path, PROGRAMS)
    assert sum(line.startswith("mine ") for line in said) == 1
    assert len({line.split(" ", 1)[1] for line in said}) == 1
