"""Backups, putting one back and mending a damaged book, as people and scripts see it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path

import pytest

from assistant.book.backups import back_up, backups_of, folder_of
from assistant.book.book import Book
from assistant.cli import main
from tests.book.real_book import put, real_book, rows_of
from tests.book.samples import DAWN, a_card, a_talk, fill
from tests.stories.story import FOLDER, read_story
from tests.terminal.pseudo import Terminal, running

ASK = "type: restore"
DAMAGED = "is damaged. What shall we do?"
Out = pytest.CaptureFixture[str]
TYPED = "".join(f"{line}\n" for _, line in read_story(FOLDER / "fluted_pounds.txt").moves)


@pytest.fixture(autouse=True)
def a_wide_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "72")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the book lies."""
    return tmp_path / "book.db"


@pytest.fixture
def went_on(path: Path) -> Path:
    """A book with a backup of three cards, and a fourth card since."""
    with Book.open(path) as book:
        fill(book, 3)
        back_up(book, DAWN)
        book.start(a_talk(500))
        book.finish(a_card(a_talk(500), "Big red"))
    return path


def said(capsys: Out, path: Path | str, *argv: str) -> tuple[int, str, str]:
    """The exit code, and what was written, folded lines joined."""
    code = main([*argv, "--book", str(path)])
    out, err = capsys.readouterr()
    return code, " ".join(out.split()), " ".join(err.split())


def damaged(path: Path) -> bytes:
    """Makes a book of thirty cards in which one page is lost."""
    content = bytearray(real_book())
    content[4096 * 60 : 4096 * 61] = bytes(4096)
    put(path, bytes(content))
    return bytes(content)


class TestAfterAJob:
    @pytest.fixture
    def answers(self, tmp_path: Path) -> str:
        return str(put(tmp_path / "answers.txt", TYPED.encode()))

    def test_a_finished_one_is_followed_by_a_backup(
        self, path: Path, answers: str, capsys: Out
    ) -> None:
        assert said(capsys, path, "calibrate", "--answers", answers)[::2] == (0, "")
        assert [each.cards for each in backups_of(path)] == [1]
        assert rows_of(backups_of(path)[0].path) == rows_of(path)

    def test_one_that_was_left_is_not(self, path: Path, tmp_path: Path, capsys: Out) -> None:
        few = put(tmp_path / "few.txt", TYPED[:30].encode())
        assert said(capsys, path, "calibrate", "--answers", str(few))[0] == 3
        assert backups_of(path) == []

    @pytest.mark.parametrize(("ago", "cards"), [(59, 0), (60, 1)])
    def test_scripts_make_one_a_minute(
        self,
        path: Path,
        answers: str,
        capsys: Out,
        monkeypatch: pytest.MonkeyPatch,
        ago: int,
        cards: int,
    ) -> None:
        with Book.open(path) as book:
            back_up(book, DAWN - timedelta(seconds=ago))
        monkeypatch.setattr("assistant.terminal.safety.now", lambda: DAWN)
        said(capsys, path, "calibrate", "--answers", answers)
        assert [each.cards for each in backups_of(path)] == [cards]

    def test_no_book_has_no_backup(
        self, tmp_path: Path, answers: str, capsys: Out, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.chdir(tmp_path)
        assert said(capsys, "none", "calibrate", "--answers", answers)[0] == 0
        assert [file.name for file in tmp_path.iterdir()] == ["answers.txt"]

    def test_one_that_does_not_work_is_told_and_the_job_is_done(
        self, path: Path, answers: str, capsys: Out
    ) -> None:
        put(folder_of(path), b"in the way")
        code, out, err = said(capsys, path, "calibrate", "--answers", answers, "--json")
        assert code == 0
        assert json.loads(out)["finished"] is True
        assert err == (
            "The backup did not work: its place can't be written. The book itself is safe."
        )

    def test_stopping_it_stops_nothing_else(
        self, path: Path, answers: str, capsys: Out, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def stopped(*_: object) -> None:
            raise KeyboardInterrupt

        monkeypatch.setattr("assistant.book.backups.copy_into", stopped)
        code, _, err = said(capsys, path, "calibrate", "--answers", answers)
        assert (code, err) == (0, "The backup was stopped. The book itself is safe.")
        assert list(folder_of(path).iterdir()) == []


class TestBackup:
    def test_it_says_where_it_is(self, path: Path, capsys: Out) -> None:
        put(path, real_book())
        code, out, err = said(capsys, path, "book", "backup")
        (backup,) = backups_of(path)
        assert (code, out, err) == (0, f"The backup is made: {backup.path}", "")
        assert backup.cards == 30

    def test_a_full_disk_is_told(
        self, path: Path, capsys: Out, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def full(*_: object) -> None:
            raise OSError(28, "")

        monkeypatch.setattr("assistant.book.backups.move", full)
        code, out, err = said(capsys, path, "book", "backup")
        assert (code, out) == (1, "")
        assert err == "The backup did not work: the disk is full. The book itself is safe."

    @pytest.mark.parametrize("command", ["backup", "restore", "mend"])
    def test_without_a_book_there_is_nothing_to_do(self, command: str, capsys: Out) -> None:
        assert said(capsys, "none", "book", command) == (2, "", "There is no book to work with.")

    def test_where_tells_of_its_folder(self, path: Path, capsys: Out) -> None:
        assert f"Its backups: {folder_of(path)}" in said(capsys, path, "book", "where")[1]


class TestRestoreByScript:
    def test_the_list_has_paths(self, went_on: Path, capsys: Out) -> None:
        code, out, _ = said(capsys, went_on, "book", "restore")
        (backup,) = backups_of(went_on)
        assert (code, out) == (0, f"2031-04-02 05:30 UTC, cards: 3: {backup.path}")

    def test_a_book_without_backups_says_so(self, path: Path, capsys: Out) -> None:
        code, out, err = said(capsys, path, "book", "restore")
        assert (code, out) == (2, "")
        assert "no backup yet" in err

    def test_it_shows_what_would_change_and_wants_a_yes(self, went_on: Path, capsys: Out) -> None:
        before = rows_of(went_on)
        backup = str(backups_of(went_on)[0].path)
        code, out, err = said(capsys, went_on, "book", "restore", backup)
        assert code == 2
        assert out == (
            f"Cards that only the book has: 1 - 2031-04-02 Big red wheat bin 4. {a_talk(500).id}"
        )
        assert "add --yes" in err
        assert rows_of(went_on) == before

    def test_with_a_yes_it_is_done(self, went_on: Path, capsys: Out) -> None:
        before = rows_of(went_on)
        backup = backups_of(went_on)[0].path
        code, out, err = said(capsys, went_on, "book", "restore", str(backup), "--yes")
        (aside,) = went_on.parent.glob("book.before-restore-*.db")
        assert (code, err) == (0, "")
        assert f"The backup is the book now. The book that was here is kept in {aside}." in out
        assert (rows_of(went_on), rows_of(aside)) == (rows_of(backup), before)

    @pytest.mark.parametrize("content", [b"", b"nothing of ours", b"SQLite format 3\x00"])
    def test_a_file_that_is_no_backup_is_told(
        self, went_on: Path, tmp_path: Path, content: bytes, capsys: Out
    ) -> None:
        before = rows_of(went_on)
        other = put(tmp_path / "other.db", content)
        code, _, err = said(capsys, went_on, "book", "restore", str(other), "--yes")
        assert code == 1
        assert err.startswith(f"{other} is no whole backup. Nothing changed.")
        assert rows_of(went_on) == before

    def test_a_long_list_of_cards_is_cut(self, path: Path, capsys: Out) -> None:
        with Book.open(path) as book:
            backup = back_up(book, DAWN)
            fill(book, 14)
        out = said(capsys, path, "book", "restore", str(backup))[1]
        assert out.count("- 2031-04-02") == 10
        assert out.endswith("- and 4 more")


class TestMendByScript:
    def test_a_sound_book_needs_none(self, went_on: Path, capsys: Out) -> None:
        code, out, _ = said(capsys, went_on, "book", "mend")
        assert (code, out) == (0, "The book is sound. There is nothing to mend.")

    def test_what_is_whole_is_saved_and_what_is_lost_is_named(
        self, path: Path, capsys: Out
    ) -> None:
        content = damaged(path)
        code, out, err = said(capsys, path, "book", "mend")
        (aside,) = path.parent.glob("book.damaged-*.db")
        assert (code, err) == (0, "")
        assert out.startswith("Saved in a new book: cards ")
        assert "Jobs that lost some answers: 1 - 0710" in out
        assert f"The damaged book is kept as it was in {aside}." in out
        assert "A backup may still have it" not in out
        assert aside.read_bytes() == content
        assert said(capsys, path, "book", "mend")[1].startswith("The book is sound.")

    def test_a_backup_that_may_have_what_is_lost_is_named(self, path: Path, capsys: Out) -> None:
        damaged(path)
        put(folder_of(path) / "book-2031-04-02T053000Z.db", real_book())
        assert f"drillside --book {path} book restore" in said(capsys, path, "book", "mend")[1]

    def test_a_damaged_book_is_told_with_the_cure(self, path: Path, capsys: Out) -> None:
        content = damaged(path)
        code, _, err = said(capsys, path, "book", "list")
        assert code == 1
        cure = f"To save what is whole: drillside --book {path} book mend."
        assert f"is damaged and stays as it is. {cure}" in err
        assert path.read_bytes() == content


@pytest.mark.terminal
class TestOnATerminal:
    def test_a_damaged_book_may_be_mended_and_the_command_goes_on(self, path: Path) -> None:
        content = damaged(path)
        with running("book", "list", "--book", str(path), size=(60, 72)) as terminal:
            terminal.ready(DAMAGED)
            terminal.type("1\r")
            terminal.wait("Saved in a new book")
            terminal.wait("Old green")
            assert terminal.ended() == 0
        (aside,) = path.parent.glob("book.damaged-*.db")
        assert aside.read_bytes() == content

    @pytest.mark.parametrize("keys", ["3\r", "\x04", "pause\r"])
    def test_a_damaged_book_may_stay_as_it_is(self, path: Path, keys: str) -> None:
        content = damaged(path)
        with running("book", "list", "--book", str(path), size=(40, 72)) as terminal:
            terminal.ready(DAMAGED)
            terminal.type(keys)
            terminal.wait("stays as it is.")
            assert terminal.ended() == 1
        assert path.read_bytes() == content

    def test_a_backup_may_take_the_place_of_a_damaged_book(self, went_on: Path) -> None:
        went_on.write_bytes(went_on.read_bytes()[:50])
        with running("book", "list", "--book", str(went_on), size=(60, 72)) as terminal:
            terminal.ready(DAMAGED)
            terminal.type("2\r")
            terminal.ready("Which backup?")
            terminal.type("\r")
            terminal.ready(ASK)
            assert "can't be read, so I can't compare" in terminal.text()
            terminal.type("restore\r")
            terminal.wait("The backup is the book now.")
            assert terminal.ended() == 0

    @pytest.mark.parametrize("keys", ["\r", "yes\r", "restor\r", "\x04"])
    def test_only_the_word_restores(self, went_on: Path, keys: str) -> None:
        before = rows_of(went_on)
        with asked(went_on) as terminal:
            terminal.type(keys)
            terminal.wait("Nothing changed.")
            assert terminal.ended() == 0
        assert rows_of(went_on) == before

    def test_the_word_restores(self, went_on: Path) -> None:
        with asked(went_on) as terminal:
            terminal.type("Restore\r")
            terminal.wait("The book that was here is kept")
            assert terminal.ended() == 0
        assert rows_of(went_on) == rows_of(backups_of(went_on)[0].path)

    def test_the_word_typed_before_it_was_asked_for_restores_nothing(self, went_on: Path) -> None:
        with running("book", "restore", "--book", str(went_on), size=(30, 60)) as terminal:
            terminal.ready("Which backup?")
            terminal.type("1\rrestore")
            terminal.ready(ASK)
            terminal.type("\r")
            terminal.wait("Nothing changed.")
            assert terminal.ended() == 0

    def test_the_questions_fit_a_small_screen(self, went_on: Path) -> None:
        with running("book", "restore", "--plain", "--book", str(went_on)) as terminal:
            terminal.ready("Which backup?")
            assert "1 2031-04-02 05:30 UTC, cards: 3" in terminal.lines()
            terminal.type("1\r")
            terminal.ready(ASK)
            terminal.type("\r")
            terminal.wait("Nothing changed.")
            assert terminal.ended() == 0


@contextmanager
def asked(path: Path) -> Iterator[Terminal]:
    """A run that has come to the question of the restore."""
    with running("book", "restore", "--book", str(path), size=(30, 60)) as terminal:
        terminal.ready("Which backup?")
        terminal.type("1\r")
        terminal.ready(ASK)
        yield terminal
