"""Backups: whole or not there, thinned out by a rule, and in the way of nobody."""

import errno
import os
import shutil
import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.book import backups, replacing
from assistant.book.backups import (
    back_up,
    backups_of,
    due,
    folder_of,
    kept,
    made_when,
    thin_out,
)
from assistant.book.book import Book
from assistant.book.problems import BookProblem
from tests.book.real_book import later, put, real_book, rows_of
from tests.book.samples import DAWN, a_card, a_talk, fill

MOMENTS = st.sets(
    st.integers(0, 60 * 366 * 24).map(lambda hours: DAWN + timedelta(hours=hours)), max_size=60
)
NEAR = st.sets(st.integers(0, 600).map(lambda hours: DAWN - timedelta(hours=hours)), max_size=60)
ALL = st.one_of(MOMENTS, NEAR)


class TestWhichStay:
    @given(ALL)
    def test_the_newest_stays_and_never_more_than_each_share(self, moments: set[datetime]) -> None:
        stay = kept(moments)
        assert stay <= moments
        assert len(stay) <= 7 + 4 + 12
        assert not moments or max(moments) in stay

    @given(ALL)
    def test_thinning_out_twice_is_thinning_out_once(self, moments: set[datetime]) -> None:
        assert kept(kept(moments)) == kept(moments)

    @given(ALL)
    def test_thinning_out_after_each_backup_is_thinning_out_once(
        self, moments: set[datetime]
    ) -> None:
        stay: set[datetime] = set()
        for moment in sorted(moments):
            stay = kept(stay | {moment})
        assert stay == kept(moments)

    @given(ALL, ALL)
    def test_a_new_backup_brings_back_none_that_was_not_kept(
        self, moments: set[datetime], new: set[datetime]
    ) -> None:
        assert kept(moments | new) <= kept(moments) | new

    @given(ALL)
    def test_the_newest_of_each_of_the_last_seven_days_stays(self, moments: set[datetime]) -> None:
        days = sorted({moment.date() for moment in moments})[-7:]
        newest = {max(m for m in moments if m.date() == day) for day in days}
        assert newest <= kept(moments)

    def test_a_year_of_daily_backups(self) -> None:
        days = [datetime(2031, 12, 31, 6, tzinfo=UTC) - timedelta(days=n) for n in range(365)]
        told = sorted(f"{day:%m-%d}" for day in kept(days))
        assert told == [
            # the last day of each month, of each of four weeks (Sundays), and seven days
            *("01-31", "02-28", "03-31", "04-30", "05-31", "06-30", "07-31", "08-31"),
            *("09-30", "10-31", "11-30", "12-14", "12-21", "12-25", "12-26", "12-27"),
            *("12-28", "12-29", "12-30", "12-31"),
        ]

    def test_a_winter_without_a_job_costs_none(self) -> None:
        spring = {datetime(2031, 4, day, tzinfo=UTC) for day in range(1, 8)}
        assert kept(spring | {datetime(2032, 4, 1, tzinfo=UTC)}) >= spring - {min(spring)}


class TestOneBackup:
    def test_it_holds_every_row_under_the_moment_of_its_making(self, path: Path) -> None:
        put(path, real_book())
        with Book.open(path) as book:
            backup = back_up(book, DAWN)
        assert backup == path.parent / "backups" / f"book-{later(0)}.db"
        assert rows_of(backup) == rows_of(path)
        assert list(backup.parent.iterdir()) == [backup]

    def test_what_stands_only_in_the_log_is_in_it(self, path: Path) -> None:
        with Book.open(path) as book:
            talks = fill(book, 2)
            backup = back_up(book, DAWN)
        with Book.open(backup) as copy:
            assert [card.talk for card in copy.cards()] == [talk.id for talk in talks[::-1]]

    def test_the_book_is_open_to_others_meanwhile(self, path: Path) -> None:
        with Book.open(path) as book, Book.open(path) as other:
            fill(book, 1)
            back_up(book, DAWN)
            other.start(a_talk(500))
            assert book.talk(a_talk(500).id) == a_talk(500)

    @pytest.mark.skipif(os.name == "nt", reason="this system has other permissions")
    def test_it_is_for_its_owner_only(self, path: Path) -> None:
        old = os.umask(0)
        try:
            with Book.open(path) as book:
                backup = back_up(book, DAWN)
        finally:
            os.umask(old)
        assert stat.S_IMODE(backup.stat().st_mode) == 0o600
        assert stat.S_IMODE(backup.parent.stat().st_mode) == 0o700

    def test_two_books_of_one_folder_have_backups_of_their_own(self, tmp_path: Path) -> None:
        for name in ("a.db", "a.sqlite", "a-b.db", "a", "a[1]*.db"):
            with Book.open(tmp_path / name) as book:
                back_up(book, DAWN)
        for name in ("a.db", "a.sqlite", "a-b.db", "a", "a[1]*.db"):
            assert len(made_when(tmp_path / name)) == 1
        assert len(list((tmp_path / "backups").iterdir())) == 5

    def test_a_book_with_a_changed_row_makes_none(self, path: Path) -> None:
        with Book.open(path) as book:
            fill(book, 1)
            book.store.execute("DROP TRIGGER card_unchanged")
            book.store.execute("UPDATE card SET crop = 'oats'")
            with pytest.raises(BookProblem, match="damaged"):
                back_up(book, DAWN)
        assert list(folder_of(path).iterdir()) == []

    @pytest.mark.parametrize(
        ("number", "code"),
        [(errno.ENOSPC, "full"), (errno.EIO, "failed"), (errno.EACCES, "failed")],
    )
    def test_trouble_leaves_no_half_made_file_and_the_book_as_it_was(
        self, path: Path, monkeypatch: pytest.MonkeyPatch, number: int, code: str
    ) -> None:
        def no_sync(_path: Path) -> None:
            raise OSError(number, "")

        put(path, real_book())
        monkeypatch.setattr(replacing, "sync", no_sync)
        with Book.open(path) as book, pytest.raises(BookProblem, match=code):
            back_up(book, DAWN)
        assert list(folder_of(path).iterdir()) == []
        assert rows_of(path) == rows_of(put(path.with_name("as_it_was.db"), real_book()))

    def test_a_folder_that_is_none_is_trouble_with_a_code(self, path: Path) -> None:
        with Book.open(path) as book:
            folder_of(path).write_text("in the way", encoding="utf-8")
            with pytest.raises(BookProblem, match="failed"):
                back_up(book, DAWN)

    def test_what_a_killed_run_left_is_cleared_away_when_it_is_old(self, path: Path) -> None:
        with Book.open(path) as book:
            backup = back_up(book, DAWN)
            old, new = (backup.with_name(f".{backup.name}.{n}.part") for n in "ab")
            for each in (old, new):
                each.touch()
            os.utime(old, (0, 0))
            back_up(book, DAWN)
        assert sorted(backup.parent.iterdir()) == sorted([new, backup])


class TestAllBackups:
    def test_they_are_thinned_out_and_nothing_else_is_touched(self, path: Path) -> None:
        with Book.open(path) as book:
            first = back_up(book, DAWN)
            other = put(first.parent / "notes.txt", b"mine")
            for day in range(1, 60):
                shutil.copyfile(first, first.with_name(f"book-{later(1440 * day)}.db"))
            moments = set(made_when(path).values())
            back_up(book, DAWN + timedelta(days=60))
        assert set(made_when(path).values()) == kept(moments | {DAWN + timedelta(days=60)})
        assert other.read_bytes() == b"mine"

    def test_one_that_another_program_has_taken_away_by_then_is_no_trouble(
        self, path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        gone = path.with_name("gone")
        monkeypatch.setattr(backups, "made_when", lambda _: {gone: DAWN})
        monkeypatch.setattr(backups, "kept", lambda _: set())
        thin_out(path)
        assert not gone.exists()

    def test_each_one_that_is_kept_opens_with_its_own_cards(self, path: Path) -> None:
        with Book.open(path) as book:
            for day in range(40):
                book.start(a_talk(1440 * day))
                book.finish(a_card(a_talk(1440 * day)))
                back_up(book, DAWN + timedelta(days=day))
        listed = backups_of(path)
        assert [each.cards for each in listed] == [(each.made - DAWN).days + 1 for each in listed]
        assert [each.made for each in listed] == sorted(kept(each.made for each in listed))[::-1]
        assert len(listed) > 10

    def test_one_that_can_not_be_read_is_listed_all_the_same(self, path: Path) -> None:
        with Book.open(path) as book:
            fill(book, 2)
            back_up(book, DAWN)
        put(folder_of(path) / f"book-{later(5)}.db", b"x" * 300)
        assert [each.cards for each in backups_of(path)] == [None, 2]

    @pytest.mark.parametrize("name", ["book-2031-13-45T990000Z.db", "book-.db", "book.db"])
    def test_a_name_without_a_moment_is_no_backup(self, path: Path, name: str) -> None:
        put(folder_of(path) / name, real_book())
        thin_out(path)
        assert backups_of(path) == []
        assert (folder_of(path) / name).exists()

    @pytest.mark.parametrize(
        ("seconds", "by_script", "large"),
        [
            (0, False, False),
            (59, False, False),
            (60, True, False),
            (86_399, True, False),
            (86_400, True, True),
            (-1, True, True),
        ],
    )
    def test_a_script_makes_one_a_minute_and_a_large_book_one_a_day(
        self,
        path: Path,
        monkeypatch: pytest.MonkeyPatch,
        seconds: int,
        by_script: bool,
        large: bool,
    ) -> None:
        with Book.open(path) as book:
            back_up(book, DAWN)
        now = DAWN + timedelta(seconds=seconds)
        assert due(path, now, scripted=False)
        assert due(path, now, scripted=True) is by_script
        monkeypatch.setattr(backups, "LARGE", 1000)
        assert due(path, now, scripted=False) is large

    def test_a_book_that_has_none_has_none(self, path: Path) -> None:
        Book.open(path).close()
        assert backups_of(path) == []
        assert due(path, DAWN, scripted=True)
