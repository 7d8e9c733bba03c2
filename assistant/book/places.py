"""Where the files of the program lie: all in one folder of the user's, unless told otherwise."""

from collections.abc import Mapping
from pathlib import Path

from assistant.book.problems import BookProblem

APP = "drillside"
VARIABLE = "DRILLSIDE_BOOK"
BOOK = "book.db"
REPORTS = "reports"
NONE = "none"


def data_folder() -> Path:
    """The user's folder for this program's data; it need not exist yet.

    Raises BookProblem `no_folder` when the system knows no home for this user.
    """
    import platformdirs

    folder = Path(platformdirs.user_data_dir(APP, appauthor=False))
    if not folder.is_absolute():
        raise BookProblem("no_folder", folder)
    return folder


def told_path(explicit: str | None, environ: Mapping[str, str]) -> str:
    """The book that was named, by option before environment; empty when none was."""
    return explicit or environ.get(VARIABLE, "")


def book_path(explicit: str | None, environ: Mapping[str, str]) -> Path:
    """Where the book lies: as told by option, else by DRILLSIDE_BOOK, else the data folder.

    Raises BookProblem `no_folder` when a home is needed and unknown.
    """
    told = told_path(explicit, environ)
    if not told:
        return data_folder() / BOOK
    try:
        return Path(told).expanduser()
    except RuntimeError:
        raise BookProblem("no_folder", Path(told)) from None


def report_folder() -> Path:
    """Where reports on the program's own trouble go: beside the book of the data folder.

    Raises BookProblem `no_folder` like `data_folder`.
    """
    return data_folder() / REPORTS
