"""What bad input gets: typed, from a file, and from the machine around the program."""

from __future__ import annotations

import io
import json
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest

from assistant.answers.expect import CODES
from assistant.book.book import Book
from assistant.cli import main
from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Ask, Offer, ReadBack, Trouble
from assistant.sitting.plain_text import folded
from tests.bad_input.questions import answered, at_question
from tests.histories.talk import talk_of
from tests.script.running import BASE, Facts, calibrate, run, toml, without

ROOT = Path(__file__).parents[2]
WIDTH, LINES = 72, 2

ROWS = ("row_count", "row_spacing")
TURN = ("distance_per_turn",)
LAP = ("opening", "catch")
TAG = ("seeds_per_weight", "germination")
GERMINATION = ("germination", "hard_seed")
PLAN = ("rows_caught", "turns")

REFUSED = [
    ("nothing", ("feed",), "", "empty"),
    ("nothing but spaces", TURN, "   ", "empty"),
    ("letters for a number", TURN, "about so far", "not_a_number"),
    ("a letter in a number", TURN, "8l.5 in", "letter_in_number"),
    ("a unit of another kind", TURN, "81.5 lb", "unit_of_another_kind"),
    ("a unit that nobody knows", TURN, "81.5 smoots", "unknown_unit"),
    ("a room for a weight", LAP, "11.7 fl oz", "volume"),
    ("zero rows", ROWS, "0 at 7.5 in", "zero"),
    ("zero turns", PLAN, "6 rows, 0 turns", "zero"),
    ("zero turns alone", PLAN, "0 turns", "zero"),
    ("rows below zero", ROWS, "-24 rows", "negative"),
    ("a catch below zero", LAP, "-1.4 lb", "negative"),
    ("half a row", ROWS, "24.5 rows", "not_whole"),
    ("more rows than there are", PLAN, "25, 30", "too_big"),
    ("without end", TURN, "inf", "not_finite"),
    ("no number at all", TURN, "NaN", "not_finite"),
    ("too many zeros", TURN, "1e99 in", "too_big"),
    ("hardly anything", TURN, "0.001 in", "too_small"),
    ("divided by nothing", TURN, "1/0 in", "division_by_zero"),
    ("110 percent", ("germination", "hard_seed"), "110 %, 0", "percent_over_100"),
    ("a range", TURN, "80-82 in", "range"),
    ("two numbers", TURN, "81 83", "two_numbers"),
    ("a list where one is asked", TURN, "81 82 83 84", "list"),
    ("doubled marks", TURN, "81..5 in", "doubled_mark"),
    ("a date", TURN, "12/5/24", "date"),
    ("a choice that is none", ("feed",), "9", "unknown_choice"),
    ("control characters", TURN, "81.5 in\x07", "control"),
    ("a terminal's escape", TURN, "\x1b[2J81.5 in", "control"),
    ("an escape in a name", ("drill",), "\x1b]0;mine\x07", "control"),
    ("ten thousand letters", TURN, "8" * 10_000, "too_long"),
    ("a name of a thousand letters", ("drill",), "x" * 1000, "too_long"),
    ("a pasted block", TURN, "81.5 in\n24\n7.5 in", "many_lines"),
    ("a unit alone", TURN, "in", "no_number"),
    ("a weight by bags", LAP, "2 bags", "bags"),
    ("a weight by bushels", LAP, "2 bu", "bushels"),
    ("a unit that differs by place", LAP, "3 quintal", "unit_varies"),
    ("a part of the whole", ("start_opening",), "half open", "part_of_full"),
    ("a rough count", ("crank_turns", "crank_area"), "about 58 turns", "about"),
    ("more counts than a hand has time for", ("seeds_counted",), "9 " * 66, "too_many"),
    ("a name that is an answer", ("drill",), "yes", "not_understood"),
]


@pytest.mark.parametrize(
    ("facts", "text", "code"), [each[1:] for each in REFUSED], ids=[each[0] for each in REFUSED]
)
def test_what_can_not_be_is_refused_with_a_sentence_and_an_example(
    facts: tuple[str, ...], text: str, code: str
) -> None:
    state = at_question(*facts)
    after, said = answered(state, text)
    (trouble,) = (each for each in said if isinstance(each, Trouble))
    assert trouble.code == code
    assert f"refused.{code}" in calibrate().library.words
    sentence, example = trouble.text.split("\n")
    assert len(folded(sentence, WIDTH)) <= LINES
    like = f"Like this: {calibrate().fact(trouble.fact).example}"
    assert example == like or example.startswith("Did you mean ")
    assert isinstance(said[-1], Ask)
    assert trouble.fact in said[-1].facts
    assert set(state.situation.known) <= set(after.situation.known)


def test_every_code_of_a_refusal_has_a_sentence_of_its_own() -> None:
    words = calibrate().library.words
    assert {code for code in CODES if f"refused.{code}" not in words} == set()


def codes_heard(job: Job, state: State, text: str) -> list[str]:
    """The codes of the trouble that a line gets."""
    said = advance(job, state, Typed(text))[1].messages
    return [each.code for each in said if isinstance(each, Trouble)]


def test_every_code_of_a_refusal_is_heard_in_a_conversation() -> None:
    """By the table above, but for a limit that is changed and a mix: a code beyond is dead."""
    mix = talk_of("mix")
    elsewhere = [
        *codes_heard(calibrate(), at_question(*LAP), "change ruler step 7"),
        *codes_heard(mix.job, mix.state, "oats 30 of, peas"),
    ]
    assert elsewhere == ["no_unit", "kinds"]
    assert {code for *_, code in REFUSED} | {*elsewhere} == CODES


ASKED = [
    ("feet typed as decimals", TURN, "6.10", ("6.1 ft", "82 in")),
    ("a comma that could be either", ("seeds_per_weight",), "1,250", ()),
    ("one for germination", GERMINATION, "1, 0", ("1 %", "100 %")),
]


@pytest.mark.parametrize(
    ("facts", "text", "readings"), [each[1:] for each in ASKED], ids=[each[0] for each in ASKED]
)
def test_what_could_be_either_is_asked_and_never_guessed(
    facts: tuple[str, ...], text: str, readings: tuple[str, ...]
) -> None:
    state = at_question(*facts)
    after, said = answered(state, text)
    assert after.moment is not None
    assert facts[0] not in {e.fact for e in after.log.entries if e not in state.log.entries}
    offer = said[-1]
    assert isinstance(offer, Offer)
    if readings:
        assert offer.choices == readings
        settled, _ = answered(after, "2")
        assert settled.moment is None


READ = [
    ("germination as a share", GERMINATION, "0.9, 0", "germination", "90 %"),
    ("curly quotes", TURN, "6’ 9½”", "distance_per_turn", "81.5 in"),
    ("primes", TURN, "6′ 9 1⁄2″", "distance_per_turn", "81.5 in"),
    ("wide digits", TURN, "８１．５ in", "distance_per_turn", "81.5 in"),
    ("a space that does not break", TURN, "81.5\u00a0in", "distance_per_turn", "81.5 in"),
    ("a weight with its tub and without", LAP, "2.5 full 1.4 empty", "catch", "1.1 lb"),
    ("the tub first", LAP, "1.4 empty 2.5 full", "catch", "1.1 lb"),
]


@pytest.mark.parametrize(
    ("facts", "text", "name", "settled"), [each[1:] for each in READ], ids=[e[0] for e in READ]
)
def test_what_people_do_type_is_read(
    facts: tuple[str, ...], text: str, name: str, settled: str
) -> None:
    after, said = answered(at_question(*facts), text)
    assert not [each for each in said if isinstance(each, Trouble)]
    told = [(each.fact, each.settled) for each in after.log.entries if each.typed == text]
    assert told[0] == (name, settled)


def test_a_share_typed_as_a_fraction_is_read_back() -> None:
    _, said = answered(at_question(*GERMINATION), "0.9, 0")
    assert any("90 %" in each.text for each in said if isinstance(each, ReadBack))


def test_what_is_told_early_but_hardly_can_be_is_handed_back() -> None:
    _, said = answered(at_question("treated"), "no 4000 lb/ac")
    (trouble,) = (each for each in said if isinstance(each, Trouble))
    assert trouble.code == "unused"
    assert "4000 lb/ac" in trouble.text


# -- in scripts -------------------------------------------------------------------------------

IN_FILES = [
    ("target", "lots"),
    ("target", "80 in"),
    ("target", ""),
    ("row_count", "0"),
    ("row_count", "-24"),
    ("row_count", "24.5"),
    ("row_spacing", "7.5 lb"),
    ("row_spacing", "7-8 in"),
    ("row_spacing", "7.5 in\n8 in"),
    ("row_spacing", "\u001b[2J7.5 in"),
    ("row_spacing", "9" * 10_000),
    ("distance_per_turn", "6.10"),
    ("distance_per_turn", "nan"),
    ("distance_per_turn", "1e99 in"),
    ("turns", "0"),
    ("lot", "\u001b]0;mine\u0007"),
    ("feed", "wide"),
    ("treated", "perhaps so"),
]


@pytest.mark.parametrize(("name", "text"), IN_FILES)
def test_a_bad_fact_ends_a_run_with_4_and_what_came_before_is_kept(name: str, text: str) -> None:
    ran = run({**BASE, name: text}, as_json=False)
    assert ran.code == 4
    where, sentence, *_ = ran.err.splitlines()
    assert where.startswith("facts.toml, line ")
    assert where.endswith(f", {name}:")
    assert sentence.isprintable()
    assert len(folded(sentence, WIDTH)) <= LINES
    assert ran.sitting.kept is (name != "drill")
    assert "Traceback" not in ran.err + ran.out


@pytest.mark.parametrize(("name", "text"), [each for each in IN_FILES if each[0] != "turns"])
def test_a_bad_line_ends_a_run_with_4_when_it_is_the_last(name: str, text: str) -> None:
    line = text.replace("\n", " ")
    facts = without(BASE, name)
    ran = run(facts, [line])
    two_readings = text == "6.10"  # the next line would say which
    assert ran.code == (3 if two_readings else 4)
    assert ran.data["needs"]


def test_names_and_types_are_all_told_at_once_each_in_one_line() -> None:
    facts = {**BASE, "\u001b[31mred": "1", "row_counts": 24, "turns": 29.5, "treated": True}
    ran = run(facts, as_json=False)
    assert ran.code == 4
    assert len(ran.err.splitlines()) == 5
    assert "\u001b" not in ran.err


@pytest.mark.parametrize(
    "text", ["= 1", "lot = ", "[[trials]", 'lot = "A', "\x00", "lot = 'a\x1b'"]
)
def test_broken_toml_ends_with_2_and_names_its_line(text: str) -> None:
    ran = run(f"turns = 30\n{text}\n", as_json=False)
    assert ran.code == 2
    assert "line 2" in ran.err
    assert ran.out == ""


# -- the machine around it --------------------------------------------------------------------


@dataclass(frozen=True)
class Done:
    """How a run of the command ended."""

    code: int
    out: str
    err: str


Program = Callable[..., Done]


@pytest.fixture
def program(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Program:
    """The command, run in this process with what is piped into it."""

    def run_it(*arguments: str | Path, typed: str = "") -> Done:
        piped = io.TextIOWrapper(io.BytesIO(typed.encode()), encoding="utf-8")
        monkeypatch.setattr(sys, "stdin", piped)
        code = main([*map(str, arguments)])
        said = capsys.readouterr()
        return Done(code, said.out, said.err)

    return run_it


def ends(done: Done, code: int) -> str:
    """The one sentence with which a run ended."""
    assert done.code == code, done.err
    assert "Traceback" not in done.err
    assert "\x1b" not in done.err
    return " ".join(done.err.split())


def book_of(kind: str, path: Path, program: Program) -> None:
    """A file in the place of the book that can't be one."""
    if kind == "text":
        path.write_text("no book\n" * 200, encoding="utf-8")
        return
    with closing(sqlite3.connect(path)) as store:
        store.execute("CREATE TABLE other (a)")
        if kind == "newer":
            ours = path.with_name("ours.db")
            assert program("calibrate", "--book", ours, typed="the old one\n").code == 3
            with closing(sqlite3.connect(ours)) as made:
                store.execute(f"PRAGMA application_id = {pragma(made, 'application_id')}")
                store.execute(f"PRAGMA user_version = {pragma(made, 'user_version') + 1}")
        store.commit()


def pragma(store: sqlite3.Connection, name: str) -> int:
    return int(store.execute(f"PRAGMA {name}").fetchone()[0])


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("text", "is no book"),
        ("foreign", "belongs to another program"),
        ("newer", "made by a newer version"),
    ],
)
def test_a_file_that_is_not_our_book_is_left_as_it_is(
    tmp_path: Path, program: Program, kind: str, says: str
) -> None:
    path = tmp_path / "book.db"
    book_of(kind, path, program)
    before = path.read_bytes()
    done = program("calibrate", "--book", path, typed="the old one\n")
    assert says in ends(done, 1)
    assert path.read_bytes() == before


def test_a_book_that_another_program_holds_is_told_so(tmp_path: Path, program: Program) -> None:
    path = tmp_path / "book.db"
    before = program("calibrate", "--book", path, typed="the old one\n")
    assert before.code == 3
    with closing(sqlite3.connect(path, isolation_level=None)) as store:
        store.execute("BEGIN EXCLUSIVE")
        done = program("calibrate", "--book", path, typed="the new one\n1\n")
        assert "Another program" in ends(done, 1)
    assert program("calibrate", "--book", path, typed="the new one\n").code == 3


def test_a_book_that_can_not_be_written_is_told_so(
    tmp_path: Path, program: Program, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.db"
    assert program("calibrate", "--book", path, typed="the old one\n").code == 3
    book = Book.open(path)
    book.read_only = True  # as it is opened where the file can't be written: see the book's tests
    monkeypatch.setattr(Book, "open", lambda _path: book)
    said = ends(program("calibrate", "--book", path, typed="the new one\n"), 1)
    assert "can't be written" in said
    monkeypatch.undo()
    with closing(Book.open(path)) as kept:
        assert len(kept.unfinished(include_scripted=True)) == 1


def test_without_a_home_a_place_for_the_book_is_asked_for(tmp_path: Path, program: Program) -> None:
    done = program("calibrate", "--book", "~nobody-of-this-name/book.db", typed="the old one\n")
    assert "no folder for the book" in ends(done, 1)
    assert not list(tmp_path.iterdir())


def test_end_of_input_saves_and_says_what_lacks(tmp_path: Path, program: Program) -> None:
    path = tmp_path / "book.db"
    done = program("calibrate", "--book", path, typed="the old one\n1\n24 rows")
    assert "Needed to go on: row_spacing" in ends(done, 3)
    again = program("resume", "--book", path, "--json", typed="7.5 in\n")
    facts = json.loads(again.out)["facts"]
    assert facts["row_count"]["value"] == 24
    assert facts["row_spacing"]["shown"] == "7.5 in"


def test_bytes_that_are_no_text_are_refused_not_fatal(tmp_path: Path, program: Program) -> None:
    answers = tmp_path / "answers.txt"
    answers.write_bytes(b"the old one\n\xff\xfe\n")
    done = program("calibrate", "--book", "none", "--answers", answers)
    assert "I can't read" in ends(done, 2)


@pytest.mark.parametrize("option", ["--answers", "--facts"])
def test_a_file_that_is_not_there_ends_with_2(
    tmp_path: Path, program: Program, option: str
) -> None:
    done = program("calibrate", "--book", "none", option, tmp_path / "nothing.txt")
    assert "nothing.txt" in ends(done, 2)


def test_facts_of_a_file_and_a_refusal_name_file_line_and_fact(
    tmp_path: Path, program: Program
) -> None:
    file = tmp_path / "mine.toml"
    facts: Facts = {**BASE, "row_count": 0}
    file.write_text(toml(facts), encoding="utf-8")
    done = program("calibrate", "--book", "none", "--facts", file)
    assert ends(done, 4).startswith("mine.toml, line 4, row_count: I read '0'.")


def test_a_flow_file_with_a_fault_is_told_with_file_and_line_and_nothing_is_asked(
    tmp_path: Path,
) -> None:
    ignored = shutil.ignore_patterns("__pycache__")
    for name in ("assistant", "flows"):
        shutil.copytree(ROOT / name, tmp_path / name, ignore=ignored)
    job = tmp_path / "flows" / "jobs" / "calibrate.toml"
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace('ask = "feed"', 'ask = "feet"', 1), encoding="utf-8")
    line = text[: text.index('ask = "feed"')].count("\n") + 1
    command = [sys.executable, "-m", "assistant", "calibrate", "--book", "none"]
    done = subprocess.run(
        command,
        input="the old one\n",
        cwd=tmp_path,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 1
    said = done.stdout + done.stderr
    assert "Traceback" not in said
    assert f"jobs/calibrate.toml:{line}" in said
    assert "feet" in said
    assert "What do you call" not in said
