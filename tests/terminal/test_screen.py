"""What is written: folded, set apart, the question last, the same words in every mode."""

from __future__ import annotations

import io
import re

import pytest

from assistant.dialogue.messages import Ask, Message, Offer, ReadBack, Review, Say, Warn
from assistant.terminal.screen import filled, laid_out, width, write
from tests.terminal.small import WET_FLOOR, screen

STYLE = re.compile(r"\x1b\[[0-9;]*m")
WARNING = Warn("wet_floor", "stop", WET_FLOOR.text, "boots", "Type boots when that is done.")
QUESTION = Ask("Count them twice.\nHow many tubs?", ("tubs",))
CHOOSING = Ask("Which door?", ("door",), choices=("Left", "Right"))
TALK: list[list[Message]] = [
    [Say("Welcome."), QUESTION],
    [ReadBack("OK, Tubs: 6."), CHOOSING],
    [WARNING],
    [Review(()), Offer("", (), "All right?")],
]


def shown(capsys: pytest.CaptureFixture[str], *, colour: bool = False) -> str:
    on = screen(colour=colour)
    for said in TALK:
        on.show(said)
    return capsys.readouterr().out


@pytest.mark.parametrize(
    ("columns", "fills"), [("10", 20), ("20", 20), ("40", 40), ("72", 72), ("200", 72)]
)
def test_a_line_fills_at_most_72_columns_and_at_least_20(
    columns: str, fills: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    assert width() == fills


@pytest.mark.parametrize("columns", ["20", "30", "40", "80"])
def test_no_line_is_wider_than_the_screen(
    columns: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    lines = shown(capsys).split("\n")
    assert max(map(len, lines)) <= int(columns)


def test_the_question_is_the_last_line(capsys: pytest.CaptureFixture[str]) -> None:
    screen().show([Say("Welcome."), QUESTION])
    assert capsys.readouterr().out == "Welcome.\n\nCount them twice.\nHow many tubs?\n"


def test_the_first_question_starts_at_the_top(capsys: pytest.CaptureFixture[str]) -> None:
    screen().show([QUESTION])
    assert capsys.readouterr().out.startswith("Count")


def test_a_picture_stands_between_the_answer_and_the_question(
    capsys: pytest.CaptureFixture[str],
) -> None:
    screen().show([Say("Light."), QUESTION], [["--x--|-----"]])
    assert capsys.readouterr().out == (
        "Light.\n\n--x--|-----\n\nCount them twice.\nHow many tubs?\n"
    )


def test_a_review_and_its_question_stand_together(capsys: pytest.CaptureFixture[str]) -> None:
    screen().show([Review(()), Offer("", (), "All right?")])
    assert capsys.readouterr().out == "What we have:\nAll right?\n"


def test_without_colour_not_one_code_is_written(capsys: pytest.CaptureFixture[str]) -> None:
    assert "\x1b" not in shown(capsys)


def test_colour_changes_no_word(capsys: pytest.CaptureFixture[str]) -> None:
    painted = shown(capsys, colour=True)
    assert "\x1b[1mHow many tubs?\x1b[0m" in painted
    assert "\x1b[1;31mSTOP. A wet floor.\x1b[0m" in painted
    assert STYLE.sub("", painted) == shown(capsys)


def test_what_people_typed_cannot_drive_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    screen().show([Say("I read '\x1b[2J\x07\u009b'.")])
    out = capsys.readouterr().out
    assert not any(sign in out for sign in "\x1b\x07\u009b")


def test_an_ascii_terminal_gets_the_same_line_in_plain_signs() -> None:
    raw = io.BytesIO()
    out = io.TextIOWrapper(raw, encoding="ascii")
    write(["7½ in · ready"], out)
    assert raw.getvalue() == b"71/2 in - ready\n"


def test_a_path_is_never_broken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "20")
    path = "/a/long/way/to/where-the-book-lies/book.db"
    assert path in laid_out(f"The book: {path}\n\nIt is there.")
    assert "" in laid_out("one\n\ntwo")


def test_what_is_filled_in_is_never_filled_again() -> None:
    assert filled("{drill}: {lot}", drill="the {lot} drill", lot="7") == "the {lot} drill: 7"
    assert filled("{job} {title}", title="Set a drill") == "{job} Set a drill"
