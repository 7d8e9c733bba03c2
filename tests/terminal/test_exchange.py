"""The book to a file and back, as commands; and no text of a foreign file drives the terminal."""

from __future__ import annotations

import copy
import io
import sys
from pathlib import Path
from typing import Any

import pytest

from assistant.book.book import Book
from assistant.cli import main
from assistant.sitting.imported import CONTROL, Reads
from tests.book.exchanging import Row, as_file, file_of, resealed, rows_of, taken
from tests.book.samples import a_card, a_talk, fill
from tests.stories.play import library, played
from tests.stories.story import FOLDER, read_story
from tests.terminal.escapes import CHUNKS, SEQUENCES, harmless

Out = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def a_machine_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("HOME", "XDG_DATA_HOME", "LOCALAPPDATA", "USERPROFILE"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "book.db"))
    monkeypatch.setenv("COLUMNS", "72")


@pytest.fixture
def story(tmp_path: Path) -> bytes:
    """A real finished job, in the book of this machine."""
    file = file_of(played(read_story(FOLDER / "fluted_pounds.txt")).book)
    with Book.open(tmp_path / "book.db") as book:
        taken(book, file)
    return file


def said(capsys: Out, *argv: str) -> tuple[int, str, str]:
    code = main(list(argv))
    captured = capsys.readouterr()
    return code, captured.out, captured.err


def whole(text: str) -> str:
    """A text without its line breaks."""
    return " ".join(text.split())


# -- export -----------------------------------------------------------------------------------


def test_the_book_goes_to_a_new_file_to_the_output_and_by_drill(
    story: bytes, tmp_path: Path, capsys: Out
) -> None:
    path = tmp_path / "out.jsonl"
    assert said(capsys, "book", "export", str(path))[::2] == (0, "")
    assert path.read_bytes() == story
    assert sorted(each.name for each in tmp_path.iterdir()) == ["book.db", "out.jsonl"]
    assert said(capsys, "book", "export")[1] == story.decode()
    assert said(capsys, "book", "export", "-")[1] == story.decode()
    drill = next(row["drill"] for row in rows_of(story) if row["row"] == "card")
    assert said(capsys, "book", "export", "--drill", drill.upper())[1] == story.decode()


def test_a_file_that_is_there_stays_be_it_the_book_itself(
    story: bytes, tmp_path: Path, capsys: Out
) -> None:
    code, out, err = said(capsys, "book", "export", str(tmp_path / "book.db"))
    assert (code, out) == (2, "")
    assert "is there already. It stays as it is." in whole(err)
    assert said(capsys, "book", "export")[1] == story.decode()


@pytest.mark.usefixtures("story")
def test_where_no_file_can_be_written_nothing_is_left(tmp_path: Path, capsys: Out) -> None:
    code, out, err = said(capsys, "book", "export", str(tmp_path / "nowhere" / "out.jsonl"))
    assert (code, out) == (2, "")
    assert "I can't write" in err
    assert [each.name for each in tmp_path.iterdir()] == ["book.db"]


@pytest.mark.usefixtures("story")
def test_trouble_half_way_leaves_no_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("assistant.book.whole_file.os.fsync", full)
    code, _, err = said(capsys, "book", "export", str(tmp_path / "out.jsonl"))
    assert code == 2
    assert "No space left" in err
    assert [each.name for each in tmp_path.iterdir()] == ["book.db"]


@pytest.mark.usefixtures("story")
def test_a_drill_without_a_card_is_named(capsys: Out) -> None:
    code, out, err = said(capsys, "book", "export", "--drill", "no such \x1b[2J drill")
    assert (code, out) == (2, "")
    assert "knows no card of a drill" in whole(err)
    assert "\x1b" not in err


@pytest.mark.usefixtures("story")
def test_the_table_follows_the_units_that_are_asked_for(tmp_path: Path, capsys: Out) -> None:
    assert "(lb/ac)" in said(capsys, "book", "export", "--csv")[1]
    said(capsys, "book", "export", "--csv", "--units", "metric", str(tmp_path / "t.csv"))
    assert b"(kg/ha)" in (tmp_path / "t.csv").read_bytes()


# -- import -----------------------------------------------------------------------------------


def test_what_was_added_is_told_and_a_second_time_nothing_is(
    story: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    (tmp_path / "file").write_bytes(story)
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "other.db"))
    count = len(story.splitlines()) - 1
    code, out, err = said(capsys, "book", "import", str(tmp_path / "file"))
    told = f"Added. Jobs: 1. Cards: 1. Notes: 0. Lines in all: {count}.\n"
    assert (code, out, err) == (0, told, "")
    code, out, _ = said(capsys, "book", "import", str(tmp_path / "file"))
    assert (code, f"Lines that were here already: {count}." in out) == (0, True)
    assert said(capsys, "book", "export")[1] == story.decode()


def test_standard_input_is_read(
    story: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "other.db"))
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(story)))
    assert "Cards: 1." in said(capsys, "book", "import", "-")[1]


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "is empty. Nothing was added."),
        (b"\x1f\x8b\x08 gzip", "is no book that drillside exported. Nothing was added."),
        (b'{"drillside":"book","format":9}', "was made by a newer version."),
    ],
)
def test_a_file_that_is_no_book_gets_one_sentence(
    content: bytes, sentence: str, tmp_path: Path, capsys: Out
) -> None:
    (tmp_path / "file").write_bytes(content)
    code, out, err = said(capsys, "book", "import", str(tmp_path / "file"))
    assert (code, out) == (2, "")
    assert sentence in whole(err)


@pytest.mark.parametrize("name", ["missing", "."])
def test_a_file_that_can_not_be_read_gets_one_sentence(
    name: str, tmp_path: Path, capsys: Out
) -> None:
    code, out, err = said(capsys, "book", "import", str(tmp_path / name))
    assert (code, out, "I can't read" in err) == (2, "", True)


def test_lines_left_out_are_named_with_a_reason_each_and_it_ends_with_1(
    story: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "other.db"))
    lines = story.splitlines(keepends=True)
    lines[-1] = lines[-1].replace(b"card", b"note", 1)
    lines[5] = b"{}\n"
    (tmp_path / "file").write_bytes(b"".join(lines[:-2]) + lines[-1])
    code, out, _ = said(capsys, "book", "import", str(tmp_path / "file"))
    assert code == 1
    assert "- Line 6: It is no line of a book.\n" in out
    assert "- Line 7: The line that it follows is not in the book.\n" in out
    assert "It was cut off. Export it again." in whole(out)


@pytest.mark.usefixtures("story")
def test_a_book_that_is_read_only_says_so(
    story: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    (tmp_path / "file").write_bytes(story)
    monkeypatch.setattr("assistant.book.opening.may_write", lambda _path: False)
    code, out, err = said(capsys, "book", "import", str(tmp_path / "file"))
    assert (code, out) == (1, "")
    assert "can't be written" in whole(err)
    assert said(capsys, "book", "export")[1] == story.decode()


# -- text that would drive a terminal ---------------------------------------------------------


TEXTS = {"drill", "crop", "lot"}
FREE = {
    "talk": ("program", "shape", "words"),
    "note": ("text",),
    "card": ("job", "drill", "crop", "lot", "outcome"),
}


def poisoned(rows: list[Row], poison: str) -> list[Row]:
    """The rows with a sequence in every text that is free, hashes made to fit."""
    rows = copy.deepcopy(rows)
    for row in rows:
        for name in FREE.get(row["row"], ()):
            row[name] += poison
        for entry in row.get("body", {}).get("entries", []):
            for name in ("typed", "origin", *(["settled"] if entry["fact"] in TEXTS else [])):
                entry[name] += poison
        if row.get("kind") == "offered":  # to match the name of the drill as it is now
            row["body"]["match"] = [each + poison for each in row["body"]["match"]]
        if row.get("kind") == "finished":
            row["body"]["outcome"] += poison
        for name, fact in list(row.get("body", {}).get("facts", {}).items()):
            for text in ("shown", "from", "unit"):
                fact[text] += poison
            row["body"]["facts"][name + poison] = dict(fact)
    return resealed(rows)


def test_there_are_some_200_sequences() -> None:
    assert len(SEQUENCES) >= 200
    assert all(CONTROL.search(each) for each in SEQUENCES)


@pytest.mark.usefixtures("story")
def test_no_text_of_a_foreign_file_drives_the_terminal(
    story: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    with Book.open(tmp_path / "noted.db") as book:
        taken(book, story)
        fill_note(book)
        rows = rows_of(file_of(book))
    talk = rows[0]["id"]
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    for number, poison in enumerate(CHUNKS):
        path = tmp_path / f"{number}.db"
        monkeypatch.setenv("DRILLSIDE_BOOK", str(path))
        (tmp_path / "file").write_bytes(as_file(poisoned(rows, poison)))
        code, out, _ = said(capsys, "book", "import", str(tmp_path / "file"))
        assert (code, f"Lines in all: {len(rows)}." in whole(out)) == (0, True), ascii(poison)
        for command in ("list --all", f"show {talk}", f"card {talk}", "export --csv", "export"):
            code, out, err = said(capsys, "book", *command.split())
            assert code == 0
            assert out
            assert harmless(out + err), (ascii(poison), command)
        path.unlink()


@pytest.mark.usefixtures("story")
def test_resuming_a_foreign_conversation_shows_none_of_it_raw(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    rows = rows_of(file_of(played(read_story(FOLDER / "pause_at_catch.txt")).book))
    (tmp_path / "answers").write_text("review\nback\nchange drill\n", encoding="utf-8")
    for number, poison in enumerate(CHUNKS):
        monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / f"{number}.db"))
        with Book.open(tmp_path / f"{number}.db") as book:
            assert taken(book, as_file(poisoned(rows, poison)), Reads(library())).left_out == 0
        answers = ("--answers", str(tmp_path / "answers"))
        code, out, err = said(capsys, "resume", rows[0]["id"], *answers)
        assert code in {0, 3}
        assert harmless(out + err), ascii(poison)


def test_a_card_made_from_a_foreign_conversation_is_not_shown_raw(
    story: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "other.db"))
    rows = poisoned(rows_of(story), CHUNKS[0] + "\x1b[2J")
    with Book.open(tmp_path / "other.db") as book:
        assert taken(book, as_file(rows), Reads(library())).left_out == 0
    (tmp_path / "answers").write_text("change lot 77\nyes\n\n\n", encoding="utf-8")
    answers = ("--answers", str(tmp_path / "answers"))
    code, out, err = said(capsys, "resume", rows[0]["id"], *answers)
    assert code == 0
    assert "Lot: 77" in out
    assert harmless(out + err)


def test_what_stands_in_the_book_by_another_way_is_not_shown_raw_either(
    tmp_path: Path, capsys: Out
) -> None:
    with Book.open(tmp_path / "book.db") as book:
        for number, poison in enumerate(CHUNKS):
            talk = a_talk(30 * number)
            book.start(talk)
            lines: Any = [f"CARD {poison}"]
            facts: Any = {"crop": {"value": poison, "shown": poison, "from": poison}}
            book.finish(a_card(talk, drill=poison, crop=poison, lines=lines, facts=facts))
    shown = said(capsys, "book", "list")[1]
    for number in range(len(CHUNKS)):
        shown += "".join(said(capsys, "book", how, a_talk(30 * number).id)[1] for how in SHOWS)
    assert shown.count("CARD ") == len(CHUNKS)
    assert harmless(shown)


SHOWS = ("show", "card")


@pytest.mark.usefixtures("story")
def test_lines_of_a_card_that_would_drive_the_terminal_are_left_out(
    story: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "other.db"))
    for poison in SEQUENCES[::8]:
        rows = rows_of(story)
        rows[-1]["body"]["lines"][1] += poison
        (tmp_path / "file").write_bytes(as_file(resealed(rows)))
        code, out, _ = said(capsys, "book", "import", str(tmp_path / "file"))
        assert code == 1
        assert "It holds an answer that drillside does not write." in whole(out)
        assert harmless(out)


def fill_note(book: Book) -> None:
    """A note on the newest card."""
    from assistant.book.records import Note
    from tests.book.samples import at, made_id

    card = book.cards(limit=1)[0]
    book.add_note(Note(made_id(3), card.id, at(), "wet in the hollow"))


def test_a_book_with_scripted_cards_marks_them_in_the_table(tmp_path: Path, capsys: Out) -> None:
    with Book.open(tmp_path / "book.db") as book:
        fill(book, 1)
        talk = a_talk(99, scripted=True)
        book.start(talk)
        book.finish(a_card(talk))
    lines = said(capsys, "book", "export", "--csv")[1].splitlines()
    assert [line.split(",")[5] for line in lines] == ["By script", "yes", "no"]
