"""The whole program in a pseudo-terminal: started, left in every way, and gone on with."""

from __future__ import annotations

import os
import re
import signal
import time
from pathlib import Path

import pytest

from assistant.book.book import Book
from tests.terminal.pseudo import SOON, running

pytestmark = pytest.mark.terminal

FIRST, SECOND, THIRD = "What do you call this drill?", "How does seed leave", "How many rows"
WHOLE = """
cautions_read = true
drill = "big red"
feed = "fluted"
row_count = 24
row_spacing = "7.5 in"
drive_halves = "one"
crop = "wheat"
lot = "4471"
treated = "no"
target = "80 lb/ac"
wheel_method = "taped"
distance_per_turn = "81.5 in"
scale_step = "0.01 lb"
rows_caught = 6
turns = 30
lever_top = "10"
widest_opening = "40 mm"
lever_opens = "higher"
start_opening = "14 mm"
final_lever_mark = "4.5"
tare = "0 lb"
[[trials]]
opening = "14 mm"
catch_weight = "1.39 lb"
[[trials]]
opening = "14 mm"
catch_weight = "1.41 lb"
"""
STYLE = re.compile(rb"\x1b\[[0-9;]*m")
MOST_AFTER_CLOSE = 0.5  # of the processor's time that the start took, once the terminal is gone


@pytest.fixture
def book(tmp_path: Path) -> str:
    return str(tmp_path / "book.db")


def kept(book: str) -> int:
    """How many answers of the one conversation are in the book."""
    with Book.open(Path(book)) as opened:
        (left,) = opened.unfinished()
        return [event.kind for event in opened.events(left.id)].count("answered")


def test_the_program_alone_asks_one_numbered_question_and_begins(book: str) -> None:
    with running("--book", book) as terminal:
        terminal.ready(
            "What shall we do? 1 Set a drill for its seed 2 New seed lot on the same drill "
            "3 Set an air drill for its seed 4 Find what is not right "
            "5 Check the seed that a field took 6 Plan a seed mix 7 More"
        )
        terminal.type("1\r")
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        assert terminal.lines()[-1] == "" or terminal.screen.cursor.y < 20
        terminal.type("pause\r")
        assert terminal.ended() == 0
        assert "Saved. Type drillside --book" in terminal.text()
    with running("--book", book) as terminal:
        left = "Set a drill for its seed, big red. Last: Drill, big red. Left just now"
        terminal.ready(f"1 Go on: {left}")
        terminal.type("\r")
        terminal.ready(SECOND)


def test_ctrl_c_clears_a_line_and_then_leaves(book: str) -> None:
    with running("calibrate", "--book", book) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        terminal.type("flut")
        terminal.wait("> flut")
        terminal.type("\x03")
        terminal.ready(SECOND)
        terminal.type("\x03")
        assert terminal.ended(SOON) == 130
        assert "Saved." in terminal.text()
    assert kept(book) == 1


def test_ctrl_d_pauses(book: str) -> None:
    with running("calibrate", "--book", book) as terminal:
        terminal.ready(FIRST)
        terminal.type("\x04")
        assert terminal.ended(SOON) == 0
        assert "Nothing to save yet." in terminal.text()


@pytest.mark.parametrize(("number", "code"), [(signal.SIGHUP, 129), (signal.SIGTERM, 143)])
@pytest.mark.parametrize("options", [[], ["--plain"]], ids=["prompt", "plain"])
def test_told_to_end_it_is_gone_in_time_with_all_answers_kept(
    number: signal.Signals, code: int, options: list[str], book: str
) -> None:
    with running("calibrate", "--book", book, *options) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        terminal.child.kill(number)
        assert terminal.ended(SOON) == code
        assert "Traceback" not in terminal.text()
    assert kept(book) == 1


def test_killed_at_once_it_goes_on_at_the_same_question(book: str) -> None:
    with running("calibrate", "--book", book) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        terminal.type("1\r")
        terminal.ready(THIRD)
        terminal.child.kill(signal.SIGKILL)
        terminal.ended(SOON)
    with running("resume", "--book", book) as terminal:
        terminal.ready(THIRD)
        assert "You left it just now." in terminal.text()


def ignore_hang_ups() -> None:
    signal.signal(signal.SIGHUP, signal.SIG_IGN)


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="no processor times to read")
@pytest.mark.parametrize("before", [None, ignore_hang_ups], ids=["told", "not told"])
@pytest.mark.parametrize("options", [[], ["--plain"]], ids=["prompt", "plain"])
def test_a_closed_window_ends_it_without_spinning(
    before: object, options: list[str], book: str
) -> None:
    with running("calibrate", "--book", book, *options, before=before) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        ticks = processor_time(terminal.child.pid)  # by far the most of it is the start
        terminal.child.ptyproc.fileobj.close()  # no signal of ours goes with it
        code, used = waited_for(terminal.child.pid)
        terminal.forget()
        assert code == 129
        assert used - ticks < MOST_AFTER_CLOSE * ticks
    assert kept(book) == 1


def processor_time(pid: int) -> float:
    """Seconds of the processor that a process has used."""
    fields = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def waited_for(pid: int) -> tuple[int, float]:
    """Exit code and processor time of a child that ends in time."""
    end = time.monotonic() + SOON
    while time.monotonic() < end:
        ended, status, usage = os.wait4(pid, os.WNOHANG)
        if ended:
            return os.waitstatus_to_exitcode(status), usage.ru_utime + usage.ru_stime
        time.sleep(0.01)
    raise AssertionError(pid)


@pytest.mark.parametrize(
    ("options", "environ"),
    [(["--plain"], {}), ([], {"TERM": "dumb"}), ([], {"TERM": "dumb", "LC_ALL": "C"})],
    ids=["--plain", "TERM=dumb", "LC_ALL=C"],
)
def test_plain_output_holds_nothing_but_text_and_ends_of_lines(
    options: list[str], environ: dict[str, str], book: str
) -> None:
    with running("calibrate", "--book", book, *options, environ=environ) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        terminal.type("7\r")
        terminal.ready("type a number from the list.")
        terminal.type("1\r")
        terminal.ready(THIRD)
        terminal.type("\x04")
        assert terminal.ended() == 0
        assert b"\x1b" not in terminal.written


def test_no_colour_means_no_code_for_a_style(book: str) -> None:
    with running("calibrate", "--book", book, environ={"NO_COLOR": "1"}) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        terminal.ready(SECOND)
        terminal.type("\x04")
        terminal.ended()
        assert STYLE.findall(terminal.written) == []


def test_the_terminal_is_asked_nothing_and_keeps_its_cursor_and_its_scrollback(book: str) -> None:
    with running("calibrate", "--book", book) as terminal:
        terminal.ready(FIRST)
        terminal.type("\x03")
        terminal.ended()
        for unwanted in (b"\x1b[6n", b"\x1b[?1049h", b"\x1b]0;", b"\x1b[?1000h"):
            assert unwanted not in terminal.written
        assert not terminal.screen.cursor.hidden


def test_keys_typed_early_do_not_answer_a_stop_caution(book: str) -> None:
    with running("calibrate", "--book", book) as terminal:
        terminal.ready(FIRST)
        for keys, then in (
            ("big red\r", SECOND),
            ("1\r", THIRD),
            ("24 at 7 1/2\r", "1 Every row"),
            ("1\r", "Which crop"),
            ("wheat 4471\r", "Is the seed treated?"),
        ):
            terminal.type(keys)
            terminal.ready(then)
        terminal.type("1\rgloves")
        terminal.ready("STOP. Treated seed")


def test_half_a_line_outlives_another_size_of_the_window(book: str) -> None:
    with running("calibrate", "--book", book, size=(24, 80)) as terminal:
        terminal.ready(FIRST)
        terminal.type("big r")
        terminal.wait("> big r")
        terminal.resize(20, 40)
        terminal.wait("> big r")
        terminal.type("ed\r")
        terminal.ready(SECOND)
        assert terminal.text().count("big red") == 1


@pytest.mark.parametrize("size", [(20, 40), (24, 80), (15, 30)])
def test_no_word_is_cut_at_the_edge(size: tuple[int, int], book: str) -> None:
    with running("calibrate", "--book", book, size=size) as terminal:
        terminal.ready(FIRST)
        terminal.type("big red\r")
        shown = terminal.ready("Type a number or a name.")
        assert "2 Cup with a drive range and a lever" in shown


def test_facts_from_a_file_are_filled_in_and_the_person_is_asked_the_rest(
    book: str, tmp_path: Path
) -> None:
    facts = tmp_path / "facts.toml"
    facts.write_text('drill = "big red"\nfeed = "fluted"\n', encoding="utf-8")
    with running("calibrate", "--facts", str(facts), "--book", book) as terminal:
        terminal.ready(THIRD)
        terminal.type("pause\r")
        assert terminal.ended() == 0
    facts.write_text('feed = "zebra"\n', encoding="utf-8")
    with running("calibrate", "--facts", str(facts), "--book", book) as terminal:
        assert terminal.ended() == 4
        assert "I read 'zebra'." in terminal.text()


def test_a_finished_job_opens_at_its_review_and_a_change_begins_a_new_one(
    book: str, tmp_path: Path
) -> None:
    facts = tmp_path / "facts.toml"
    facts.write_text(WHOLE, encoding="utf-8")
    with running("calibrate", "--facts", str(facts), "--book", book, size=(60, 72)) as terminal:
        assert terminal.ended() == 0
        assert "CARD FOR THE LID" in terminal.text()
    with Book.open(Path(book)) as opened:
        (first,) = opened.cards()
    with running("resume", first.talk, "--book", book, size=(60, 72)) as terminal:
        terminal.ready("All right?")
        terminal.type("change lot 4472\r")
        terminal.wait("Were they made like that too?")
        terminal.type("1\r")
        terminal.wait("Do it?")
        terminal.type("yes\r")
        terminal.ready("All right?")
        terminal.type("\r")
        assert terminal.ended() == 0
    with Book.open(Path(book)) as opened:
        corrected, old = opened.cards()
        talk = opened.talk(corrected.talk)
    assert (old.lot, corrected.lot) == ("4471", "4472")
    assert talk is not None
    assert talk.follows == first.talk
