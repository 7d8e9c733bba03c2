"""Wherever the program breaks, a person gets a sentence and a way on, and loses nothing."""

from __future__ import annotations

import inspect
import random
import re
import sys
from dataclasses import dataclass
from pathlib import Path
from types import FrameType

import pytest

from assistant.book.book import Book
from assistant.cli import main
from tests.terminal.small import TypedLines

FAULTS, IN_A_RUN = 50, 25
ABOUT = "the hill lot of neighbours"
PACKAGE = str(Path(__file__).resolve().parents[2] / "assistant")
TYPED = [
    *("big red", "1", "24 at 7 1/2", "why", "1", "wheat", "4471", "no", "80 lb", "zebra"),
    *("back", "80 lb", "review"),
]
SENTENCE = "Something in the program broke. Your answers up to the last question are safe."
Out = pytest.CaptureFixture[str]


@dataclass
class Faults:
    """Counts the calls of the program's own functions, and breaks one of them."""

    at: int = 0
    calls: int = 0
    where: str = ""

    def called(self, frame: FrameType, event: str, _: object) -> None:
        """What `sys.setprofile` calls; what it raises comes out of the function just called."""
        code = frame.f_code
        if event != "call" or not code.co_filename.startswith(PACKAGE):
            return
        if code.co_flags & inspect.CO_GENERATOR:  # closed later, when nobody can be told
            return
        self.calls += 1
        if self.calls == self.at:
            self.where = code.co_qualname
            raise RuntimeError(ABOUT)


class Keyboard(TypedLines):
    """A keyboard at which counting begins with the first line, and at whose end it is over."""

    def __init__(self, lines: list[str], faults: Faults | None = None) -> None:
        super().__init__(lines)
        self.faults = faults

    def read(self, again: str = "") -> str:
        if self.faults and not self.offered:
            sys.setprofile(self.faults.called)
        if len(self.offered) == len(self.lines):
            sys.setprofile(None)
        return super().read(again)


@pytest.fixture(autouse=True)
def at_a_terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("assistant.terminal.desk.on_terminal", lambda: True)
    monkeypatch.setattr("assistant.book.places.data_folder", lambda: tmp_path / "data")


def talk(book: Path, keyboard: Keyboard, monkeypatch: pytest.MonkeyPatch, *command: str) -> int:
    """The program with this keyboard."""
    monkeypatch.setattr("assistant.terminal.desk.reader_for", lambda _screen: keyboard)
    try:
        return main([*command, "--book", str(book)])
    finally:
        sys.setprofile(None)


def calls_of_a_whole_talk(folder: Path) -> int:
    """How many functions of the program a talk calls, when all that is kept in mind is there."""
    for name in ("first.db", "second.db"):
        faults = Faults()
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("assistant.terminal.desk.on_terminal", lambda: True)
            assert talk(folder / name, Keyboard(TYPED, faults), patch, "calibrate") == 0
    return faults.calls


@pytest.fixture(scope="module")
def places(tmp_path_factory: pytest.TempPathFactory) -> list[int]:
    calls = calls_of_a_whole_talk(tmp_path_factory.mktemp("whole"))
    return random.Random(41).sample(range(1, calls + 1), FAULTS)


@pytest.mark.parametrize(
    "number",
    [
        *range(IN_A_RUN),
        *(pytest.param(n, marks=pytest.mark.campaign) for n in range(IN_A_RUN, FAULTS)),
    ],
)
def test_a_fault_is_a_sentence_and_a_report_and_the_next_start_goes_on(
    number: int, places: list[int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    book, faults = tmp_path / "book.db", Faults(at=places[number])
    keyboard = Keyboard(TYPED, faults)
    assert talk(book, keyboard, monkeypatch, "calibrate") == 1, faults
    shown = capsys.readouterr()
    assert faults.where
    assert "Traceback" not in shown.out + shown.err
    told = " ".join(shown.err.split())
    assert SENTENCE in told
    assert f"Type drillside --book {book} resume to go on." in told
    held(tmp_path, told, faults)
    goes_on(book, keyboard, monkeypatch, capsys)


def held(folder: Path, told: str, faults: Faults) -> None:
    """The report that was named tells where it was and holds nothing that a person said."""
    (report,) = (folder / "data" / "reports").iterdir()
    assert str(report) in told
    text = report.read_text(encoding="utf-8")
    assert faults.where.rpartition(".")[2].strip("<>") in text
    assert not re.search("big red|wheat|4471|hill lot|neighbours", text)
    assert str(folder) not in text


def goes_on(book: Path, keyboard: Keyboard, monkeypatch: pytest.MonkeyPatch, capsys: Out) -> None:
    """The book is sound, and a resume asks on with all answers but the last kept."""
    with Book.open(book) as opened:
        left = opened.unfinished()
        kept = [event.kind for each in left for event in opened.events(each.id)]
    assert len(kept) >= min(len(keyboard.offered) - 1, 1)
    if left:
        assert talk(book, Keyboard(["review"]), monkeypatch, "resume") == 0
        out = capsys.readouterr().out
        assert "1 Drill: big red" in out or len(keyboard.offered) == 1  # broken at that answer
