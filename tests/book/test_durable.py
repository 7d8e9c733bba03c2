"""One transaction and one sync for each answer; what was confirmed survives a kill."""

import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_talk, an_event, at, made_id

ROOT = Path(__file__).resolve().parents[2]

# Appends pairs of answers and tells each on standard output once it is confirmed. It is killed
# when SQLite has done the given number of its own steps, wherever it is then.
KILLED = """
import os, signal, sys
from pathlib import Path
from assistant.book.book import Book
from tests.book.samples import a_talk, at, made_id

path, steps, answers = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
left = steps

def step():
    global left
    left -= 1
    if not left:
        os.kill(os.getpid(), signal.SIGKILL)

book = Book.open(path)
if steps:
    book.store.set_progress_handler(step, 1)
book.start(a_talk())
for number in range(answers):
    pair = [("answered", {"number": number}), ("shown", {"number": number})]
    book.append(made_id(1), pair, at(number))
    os.write(1, b"%d\\n" % number)
"""


def run_until_killed(path: Path, steps: int, answers: int, *before: str) -> tuple[int, list[int]]:
    """The exit code, and the answers that were confirmed."""
    command = [*before, sys.executable, "-c", KILLED, str(path), str(steps), str(answers)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, check=False)
    return done.returncode, [int(line) for line in done.stdout.split()]


def assert_nothing_was_lost(path: Path, confirmed: list[int]) -> None:
    """Everything confirmed is there, pairs are whole, and at most one more than was confirmed."""
    with Book.open(path) as book:
        numbers = [event.body["number"] for event in book.events(made_id(1))]
        kept = numbers[::2]
        assert numbers == [number for number in kept for _ in range(2)]
        assert kept == list(range(len(kept)))
        assert len(confirmed) <= len(kept) <= len(confirmed) + 1
        assert verify(book) == []


@pytest.mark.skipif(sys.platform == "win32", reason="this system has no such signal")
@pytest.mark.parametrize("steps", [1, 40, 171, 333, 480, 601, 777, 1234, 2500])
def test_what_was_confirmed_is_there_after_a_kill(path: Path, steps: int) -> None:
    code, confirmed = run_until_killed(path, steps, answers=30)
    assert code == -signal.SIGKILL
    assert_nothing_was_lost(path, confirmed)


def test_a_program_that_ends_without_closing_loses_nothing(path: Path) -> None:
    code, confirmed = run_until_killed(path, steps=0, answers=5)
    assert (code, confirmed) == (0, [0, 1, 2, 3, 4])
    assert_nothing_was_lost(path, confirmed)


@pytest.mark.campaign
def test_a_kill_at_any_step_loses_nothing(tmp_path: Path) -> None:
    for steps in range(1, 10_000):
        path = tmp_path / f"{steps}.db"
        code, confirmed = run_until_killed(path, steps, answers=2)
        assert_nothing_was_lost(path, confirmed)
        path.unlink()
        if code == 0:
            break
    else:
        pytest.fail("it never came to its end")
    assert steps > 100


ACTS: dict[str, Callable[[Book], None]] = {
    "a start": lambda book: book.start(a_talk(2), [an_event(1, {}), an_event(2, {})]),
    "one answer": lambda book: book.append(made_id(1), [("answered", {})], at(2)),
    "many events": lambda book: book.append(made_id(1), [("answered", {})] * 9, at(2)),
    "a finish": lambda book: book.finish(a_card(a_talk(1)), [("answered", {})] * 3),
}


@pytest.mark.parametrize("act", ACTS.values(), ids=ACTS)
def test_each_act_is_one_transaction(book: Book, act: Callable[[Book], None]) -> None:
    book.start(a_talk(1))
    said: list[str] = []
    book.store.set_trace_callback(said.append)
    act(book)
    book.store.set_trace_callback(None)
    assert said[0] == "BEGIN IMMEDIATE"
    assert said[-1] == "COMMIT"
    assert sum(text.startswith(("BEGIN", "COMMIT", "ROLLBACK", "SAVEPOINT")) for text in said) == 2
    assert not book.store.in_transaction


def syncs(path: Path, answers: int) -> int:
    """How often a run of so many answers asks the system to sync."""
    report = path.with_suffix(".txt")
    trace = ("strace", "-f", "-e", "trace=fsync,fdatasync", "-o", str(report))
    code, confirmed = run_until_killed(path, 0, answers, *trace)
    assert (code, len(confirmed)) == (0, answers)
    return len(re.findall(r"\b(?:fsync|fdatasync)\(", report.read_text(encoding="utf-8")))


@pytest.mark.skipif(shutil.which("strace") is None, reason="nothing here that counts syncs")
def test_each_answer_is_one_sync(tmp_path: Path) -> None:
    assert syncs(tmp_path / "many.db", 25) - syncs(tmp_path / "few.db", 5) == 20


def test_a_real_book_syncs_at_each_commit_through_a_log(path: Path) -> None:
    with Book.open(path) as book:
        (mode,) = book.store.execute("PRAGMA journal_mode").fetchone()
        (synchronous,) = book.store.execute("PRAGMA synchronous").fetchone()
    full = 2  # www.sqlite.org/pragma.html, pragma_synchronous
    assert (mode, synchronous) == ("wal", full)
