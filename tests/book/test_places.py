"""Where the files go, and which book is chosen."""

from pathlib import Path

import platformdirs
import pytest

from assistant.book.nobook import NoBook, chosen_book
from assistant.book.places import book_path, data_folder, report_folder
from assistant.book.problems import BookProblem
from tests.book.samples import fill


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home of the test's own, so that nobody's real data is touched."""
    monkeypatch.setenv("HOME", str(tmp_path))
    for name in ("LOCALAPPDATA", "XDG_DATA_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "kept"))
    return tmp_path


def test_without_a_word_the_book_lies_in_the_users_data_folder(home: Path) -> None:
    folder = Path(platformdirs.user_data_dir("drillside", appauthor=False))
    assert book_path(None, {}) == folder / "book.db"
    assert data_folder() == folder
    assert folder.is_relative_to(home)


def test_reports_lie_in_the_same_folder() -> None:
    assert report_folder() == data_folder() / "reports"


def test_asking_where_makes_nothing(home: Path) -> None:
    book_path(None, {})
    report_folder()
    assert list(home.iterdir()) == []


@pytest.mark.parametrize(
    ("explicit", "environ", "expected"),
    [
        ("a.db", {}, "a.db"),
        (None, {"DRILLSIDE_BOOK": "b.db"}, "b.db"),
        ("a.db", {"DRILLSIDE_BOOK": "b.db"}, "a.db"),
        ("", {"DRILLSIDE_BOOK": "b.db"}, "b.db"),
    ],
)
def test_an_option_goes_before_the_environment(
    explicit: str | None, environ: dict[str, str], expected: str
) -> None:
    assert book_path(explicit, environ) == Path(expected)


def test_an_empty_variable_says_nothing() -> None:
    assert book_path(None, {"DRILLSIDE_BOOK": ""}) == book_path(None, {})


def test_a_wave_stands_for_home(home: Path) -> None:
    assert book_path(None, {"DRILLSIDE_BOOK": "~/b.db"}) == home / "b.db"


def test_no_home_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(platformdirs, "user_data_dir", lambda *_, **__: "~/share/drillside")
    with pytest.raises(BookProblem, match="no_folder"):
        book_path(None, {})
    with pytest.raises(BookProblem, match="no_folder"):
        book_path("~nobody-of-that-name/b.db", {})


@pytest.mark.parametrize(
    ("explicit", "environ"), [("none", {}), (None, {"DRILLSIDE_BOOK": "none"})]
)
def test_none_is_a_book_that_leaves_nothing_behind(
    home: Path, explicit: str | None, environ: dict[str, str]
) -> None:
    with chosen_book(explicit, environ) as book:
        assert isinstance(book, NoBook)
        fill(book, 1)
        assert len(book.cards()) == 1
    assert list(home.iterdir()) == []


def test_the_chosen_book_is_made_and_nothing_is_written_outside_its_folder(home: Path) -> None:
    with chosen_book(None, {}) as book:
        fill(book, 1)
    files = [file for file in home.rglob("*") if file.is_file()]
    assert files == [data_folder() / "book.db"]


def test_two_books_in_memory_know_nothing_of_each_other() -> None:
    with NoBook() as one, NoBook() as other:
        fill(one, 1)
        assert other.cards() == []
