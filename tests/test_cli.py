"""The command line: help, slips, exit codes, the book, and trouble that stays a sentence."""

from __future__ import annotations

import argparse
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest

from assistant import __version__
from assistant.book.book import Book
from assistant.book.problems import BookProblem, Code
from assistant.book.records import StoredCard, Talk
from assistant.book.schema import VERSION
from assistant.cli import FURTHER, main, parsed, parser_for
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from assistant.terminal.flow_files import words_of
from assistant.terminal.misuse import Misuse

ROOT = Path(__file__).resolve().parents[1]
Out = pytest.CaptureFixture[str]
AT = "2026-04-14T07:30:00Z"
TALK_ID, CARD_ID = "06eq3p7r8hm6b4c2d1f0", "06eq3p7r8hm6b4c2d1f1"


@pytest.fixture(autouse=True)
def a_machine_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("HOME", "XDG_DATA_HOME", "LOCALAPPDATA", "USERPROFILE"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "book.db"))
    monkeypatch.setenv("COLUMNS", "72")


@pytest.fixture
def filled_book(tmp_path: Path) -> None:
    """A book with two cards: one held by a person, one by script."""
    with Book.open(tmp_path / "book.db") as book:
        for number, scripted in ((0, False), (1, True)):
            talk, card = f"{TALK_ID[:-1]}{number * 2}", f"{CARD_ID[:-1]}{number * 2 + 1}"
            book.start(Talk(talk, "calibrate", AT, __version__, "", "", scripted))
            facts = {
                "row_count": {"value": 24, "unit": "", "shown": "24", "from": "counted"},
                "other_half.caught_rate": {"value": 0.009, "unit": "kg/m^2", "shown": "80 lb/ac"},
            }
            lines: list[object] = ["CARD FOR THE LID", "Drill: big\x1b[2J red"]
            book.finish(
                StoredCard(
                    *(card, talk, AT, "calibrate", "big red", "wheat", "4471", "proven", scripted),
                    facts,
                    lines,
                )
            )


KEYS = [
    *("format", "program", "job", "id", "finished", "outcome", "exit"),
    *("needs", "refused", "notes", "facts", "series"),
]
"""What the object of a script always holds."""

ABOUT = "the hill drill"


def said(capsys: Out, *argv: str) -> tuple[int, str, str]:
    code = main(list(argv))
    captured = capsys.readouterr()
    return code, captured.out, captured.err


# -- help -------------------------------------------------------------------------------------


def parsers(parser: argparse.ArgumentParser, name: str) -> Iterator[tuple[str, str, set[str]]]:
    """Every command: its name, its help, and the options that it has of its own."""
    options = {each for action in parser._actions for each in action.option_strings}
    yield name, parser.format_help(), options - {"-h", "--help"}
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            for under, one in action.choices.items():
                yield from parsers(one, f"{name} {under}")


def all_commands() -> Iterator[list[str]]:
    """Every command and command under a command, as it is typed."""
    folder = flows_folder()
    for name, _, _ in parsers(parser_for(words_of(folder), folder), ""):
        yield name.split()


@pytest.mark.parametrize("command", list(all_commands()), ids=" ".join)
@pytest.mark.parametrize("columns", [30, 40, 80])
@pytest.mark.parametrize("option", ["--help", "-h"])
def test_help_starts_with_examples_and_fits(
    option: str, command: list[str], columns: int, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    code, out, err = said(capsys, *command, option)
    lines = out.split("\n")
    assert (code, err) == (0, "")
    assert lines[0] in {"Example:", "Examples:"}
    assert lines[1].startswith("  drillside")
    assert max(map(len, lines)) <= columns


def test_every_option_stands_in_the_help_of_its_command() -> None:
    folder = flows_folder()
    whole = parser_for(words_of(folder), folder)
    missing = [
        (name, option)
        for name, text, options in parsers(whole, "drillside")
        for option in options
        if option not in text and not (name.startswith("drillside book") and option != "--book")
    ]
    assert missing == []


def test_the_help_lists_each_job_by_its_title_and_the_exit_codes(capsys: Out) -> None:
    _, out, _ = said(capsys, "-h")
    assert "calibrate: Set a drill for its seed" in out
    assert all(code in out for code in ("0 ", "1 ", "2 ", "3 ", "4 ", "129", "130", "143"))


def test_the_help_lists_each_command_under_another(capsys: Out) -> None:
    _, out, _ = said(capsys, "-h")
    listed = dict(re.findall(r"- (\w+): (.+?)(?= - )", " ".join(out.split())))
    under = [each.split() for each in FURTHER.values() if not each.startswith("-")]
    assert [each for each in under if each[1] not in listed[each[0]].split(", ")] == []


def test_the_version_comes_first_then_the_formats_and_it_needs_no_book(
    tmp_path: Path, capsys: Out
) -> None:
    (tmp_path / "book.db").write_bytes(b"not a book at all, and long enough to be looked at")
    code, out, err = said(capsys, "--version")
    first, book, *flows = out.splitlines()
    assert (code, err) == (0, "")
    assert first == f"drillside {__version__}"
    assert book == f"book format {VERSION}"
    for line, job in zip(flows, load(flows_folder()).jobs, strict=True):
        assert re.fullmatch(rf"job {job}, flow [0-9a-f]{{16}}", line)


@pytest.mark.usefixtures("filled_book")
def test_the_version_tells_the_flow_that_a_card_names(tmp_path: Path, capsys: Out) -> None:
    facts = tmp_path / "facts.toml"
    facts.write_text('drill = "red"\n', encoding="utf-8")
    told = json.loads(said(capsys, "calibrate", "--facts", str(facts), "--json")[1])
    with Book.open(tmp_path / "book.db") as book:
        talk = book.talk(told["id"])
    assert talk
    assert f"job calibrate, flow {talk.shape}\n" in said(capsys, "--version")[1]


# -- slips ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("calibrat", "I don't know 'calibrat'. Did you mean calibrate?"),
        ("resum", "Did you mean resume?"),
        ("book lst", "I don't know 'lst'. Did you mean list?"),
        ("calibrate --unit us", "Did you mean --units"),
        ("calibrate --units imperial", "I don't know 'imperial'. Type drillside --help."),
        ("calibrate --say shrt", "I don't know 'shrt'. Did you mean short?"),
        ("misread of", "I don't know 'of'. Did you mean off?"),
        ("calibrate --fact x.toml", "Did you mean --facts?"),
        ("zebra", "I don't know 'zebra'. Type drillside --help."),
        ("where", "I don't know 'where'. Did you mean book where?"),
        ("verfy", "I don't know 'verfy'. Did you mean book verify?"),
        ("check", "I don't know 'check'. Did you mean flows check?"),
        ("help", "I don't know 'help'. Did you mean --help?"),
        ("calibrate --version", "'--version' does not go with that command."),
        ("book show --last 3", "'--last' does not go with that command."),
        ("calibrate --answers nowhere.txt", "I can't read nowhere.txt: No such file or directory"),
        ("calibrate --facts nowhere.toml", "I can't read nowhere.toml: No such file or directory"),
        ("calibrate extra", "I don't know 'extra'."),
        ("calibrate --book", "Something is missing after '--book'."),
        ("book import", "Something is missing after 'drillside book import'."),
        ("flows facts", "Something is missing after 'drillside flows facts'."),
        ("flows facts zebra", "I don't know 'zebra'."),
        ("resume 06zz", "The book knows no '06zz'."),
        ("resume", "Nothing was left to go on with."),
        ("book show 06zz", "The book knows no '06zz'."),
        ("book card", "No card here yet."),
        ("", "nobody is at the keyboard"),
    ],
)
def test_a_slip_is_told_in_a_sentence_and_ends_with_2(
    line: str, sentence: str, capsys: Out
) -> None:
    code, out, err = said(capsys, *line.split())
    assert (code, out) == (2, "")
    assert sentence in err.replace("\n", " ")


@pytest.mark.parametrize(
    ("line", "exit_code", "code"),
    [
        ("calibrate --json --bogus", 2, "usage"),
        ("resume --json", 2, "nothing_left"),
        ("resume 06zz --json", 2, "unknown"),
        ("flows facts zebra --json", 2, "unknown"),
        ("book list --json", 2, "usage"),
        ("calibrate --json --book .", 1, "not_a_database"),
    ],
)
def test_a_script_is_told_in_its_object_why_nothing_began(
    line: str, exit_code: int, code: str, capsys: Out
) -> None:
    ended, out, err = said(capsys, *line.split())
    told = json.loads(out)
    assert (ended, err) == (exit_code, "")
    assert list(told) == KEYS
    assert (told["exit"], told["refused"]["code"]) == (exit_code, code)
    assert (told["job"], told["id"], told["facts"]) == (None, None, {})
    assert told["refused"]["text"].endswith(".")


def test_a_script_is_told_of_trouble_inside_the_program_too(
    monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError(ABOUT)

    monkeypatch.setattr("assistant.sitting.sitting.open_sitting", broken)
    ended, out, err = said(capsys, "calibrate", "--json")
    told = json.loads(out)
    assert (ended, err) == (1, "")
    assert (told["exit"], told["refused"]["code"]) == (1, "trouble")
    assert ABOUT not in out


def test_a_command_cut_short_is_never_acted_on() -> None:
    folder = flows_folder()
    with pytest.raises(Misuse):
        parsed(parser_for(words_of(folder), folder), ["cal"])
    with pytest.raises(Misuse):
        parsed(parser_for(words_of(folder), folder), ["calibrate", "--pla"])


def test_options_work_before_the_command_and_after_it() -> None:
    folder = flows_folder()
    parser = parser_for(words_of(folder), folder)
    _, before = parsed(parser, ["--plain", "--book", "none", "calibrate", "--units", "metric"])
    _, after = parsed(parser, ["calibrate", "--plain", "--book", "none", "--units", "metric"])
    assert (before.plain, before.book, before.units, before.job) == (
        *(True, "none", "metric"),
        "calibrate",
    )
    assert (after.plain, after.book, after.units) == (True, "none", "metric")


# -- the book ---------------------------------------------------------------------------------


@pytest.mark.usefixtures("filled_book")
def test_the_list_shows_a_line_for_each_card_and_leaves_out_scripts(capsys: Out) -> None:
    line = f"1 2026-04-14 big red, wheat 4471: proven. {TALK_ID}\n"
    assert said(capsys, "book", "list") == (0, line, "")
    assert said(capsys, "book")[1] == line
    assert said(capsys, "book", "list", "--all")[1].count("big red") == 2


@pytest.mark.usefixtures("filled_book")
@pytest.mark.parametrize(
    ("option", "name", "found"),
    [
        ("--drill", "Big Red", True),
        ("--drill", "old one", False),
        ("--crop", "wheat", True),
        ("--crop", "oats", False),
        ("--lot", "4471", True),
        ("--lot", "1", False),
    ],
)
def test_the_list_can_be_cut_down(option: str, name: str, found: bool, capsys: Out) -> None:
    code, out, _ = said(capsys, "book", "list", option, name)
    assert code == 0
    assert ("big red" in out) is found


@pytest.mark.usefixtures("filled_book")
@pytest.mark.parametrize("sought", [[], [TALK_ID], [CARD_ID], [TALK_ID.upper()]])
def test_a_card_is_found_by_its_own_id_by_its_jobs_or_as_the_newest(
    sought: list[str], capsys: Out
) -> None:
    code, out, err = said(capsys, "book", "card", *sought)
    assert (code, err) == (0, "")
    assert out.startswith("CARD FOR THE LID\n")
    assert "\x1b" not in out


@pytest.mark.usefixtures("filled_book")
def test_a_card_in_full_names_each_fact_and_where_it_came_from(capsys: Out) -> None:
    _, out, _ = said(capsys, "book", "show", TALK_ID)
    assert "- Rows that drop: 24 (counted)\n" in out
    assert out.index("OTHER HALF") < out.index("80 lb/ac")


def test_where_names_the_files_even_of_a_book_that_cannot_be_opened(
    tmp_path: Path, capsys: Out
) -> None:
    (tmp_path / "book.db").write_bytes(b"x" * 200)
    code, out, _ = said(capsys, "book", "where")
    assert code == 0
    assert str(tmp_path / "book.db") in out
    assert "(200 bytes)" in out
    assert "reports" in out


# -- jobs and flows ---------------------------------------------------------------------------


def test_the_jobs_are_listed_a_line_each(capsys: Out) -> None:
    assert said(capsys, "jobs") == (
        0,
        (
            "air: Set an air drill for its seed\n"
            "calibrate: Set a drill for its seed\n"
            "fault: Find what is not right\n"
            "field: Check the seed that a field took\n"
            "mix: Plan a seed mix\n"
            "recheck: New seed lot on the same drill\n"
        ),
        "",
    )


def test_sound_flows_are_called_sound(monkeypatch: pytest.MonkeyPatch, capsys: Out) -> None:
    monkeypatch.setattr("assistant.checking.judge.faults", lambda _folder: [])
    assert said(capsys, "flows", "check") == (0, "The flow files are sound.\n", "")


@pytest.mark.parametrize("command", ["flows check", "jobs", "calibrate"])
def test_faulty_flows_are_told_before_anyone_talks_to_them(
    command: str, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    monkeypatch.setattr("assistant.checking.shipped.as_shipped", lambda _folder: False)
    monkeypatch.setattr("assistant.checking.judge.faults", lambda _folder: ["one", "two"])
    assert said(capsys, *command.split()) == (1, "", "one\ntwo\n")


def test_flows_that_lack_their_words_are_told_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    (tmp_path / "words.toml").write_text("menu = [", encoding="utf-8")
    monkeypatch.setattr("assistant.cli.flows_folder", lambda: tmp_path)
    monkeypatch.setattr("assistant.checking.judge.faults", lambda _folder: ["line 1"])
    assert said(capsys, "calibrate") == (1, "", "line 1\n")


def test_the_facts_of_a_job_are_told_as_lines_and_as_data(capsys: Out) -> None:
    code, out, _ = said(capsys, "flows", "facts", "calibrate", "--json")
    facts = json.loads(out)
    assert code == 0
    assert {"name", "kind", "unit", "choices", "needed", "example", "unknown"} == set(facts[0])
    _, lines, _ = said(capsys, "flows", "facts", "calibrate")
    assert all(f"{fact['name']}: " in lines for fact in facts)
    assert "one of: fluted, cup" in lines


# -- runs by script ---------------------------------------------------------------------------


def test_answers_from_a_file_run_until_they_run_out(tmp_path: Path, capsys: Out) -> None:
    answers = tmp_path / "answers.txt"
    answers.write_text("big red\n1\n", encoding="utf-8")
    code, out, _ = said(capsys, "calibrate", "--answers", str(answers), "--json")
    told = json.loads(out)
    assert (code, told["exit"]) == (3, 3)
    assert told["facts"]["drill"]["value"] == "big red"
    code, out, _ = said(capsys, "resume", told["id"], "--answers", str(answers), "--json")
    assert json.loads(out)["id"] == told["id"]


@pytest.mark.parametrize(
    ("line", "question"),
    [
        ("--say short calibrate", "Drill?\n"),
        ("calibrate --say normal", "What do you call this drill?\n"),
        ("calibrate --say teach", "The book keeps its settings under this name.\n"),
    ],
)
def test_how_much_is_said_can_be_chosen_at_the_start(
    line: str, question: str, tmp_path: Path, capsys: Out
) -> None:
    (tmp_path / "none.txt").write_text("")
    _, out, _ = said(capsys, *line.split(), "--answers", str(tmp_path / "none.txt"))
    assert out.startswith(question)


def test_units_can_be_asked_for_at_the_start_and_when_going_on(tmp_path: Path, capsys: Out) -> None:
    answers = tmp_path / "answers.txt"

    def spacing(typed: str, command: str, units: str) -> str:
        answers.write_text(typed, encoding="utf-8")
        arguments = (command, "--answers", str(answers), "--json", "--units", units)
        return shown_spacing(said(capsys, *arguments)[1])

    assert spacing("big red\n1\n24 at 19\n", "calibrate", "metric") == "19 cm"
    assert spacing("big red\n1\n24 at 7.5\n", "calibrate", "us") == "7.5 in"
    assert spacing("", "resume", "metric") == "19.1 cm"


def shown_spacing(out: str) -> str:
    """How the row spacing of a run's JSON is shown."""
    return str(json.loads(out)["facts"]["row_spacing"]["shown"])


# -- trouble ----------------------------------------------------------------------------------


@pytest.mark.parametrize("code", get_args(Code))
def test_each_trouble_with_the_book_has_its_own_sentence(
    code: Code, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    def stand_in_the_way(*_: object) -> None:
        raise BookProblem(code, Path("the.db"))

    monkeypatch.setattr("assistant.book.nobook.chosen_book", stand_in_the_way)
    exit_code, out, err = said(capsys, "book", "list")
    assert (exit_code, out) == (1, "")
    assert "the.db" in err or code in {"full", "taken_over"}
    assert err == err.strip() + "\n"
    sentences = {words_of(flows_folder())[f"book.{each}"] for each in get_args(Code)}
    assert len(sentences) == len(get_args(Code))


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"x" * 200, "is no book"), (b"SQLite format 3\x00", "is damaged")],
)
def test_a_file_that_is_no_book_is_told_and_stays_as_it_is(
    content: bytes, words: str, tmp_path: Path, capsys: Out
) -> None:
    (tmp_path / "book.db").write_bytes(content)
    code, _, err = said(capsys, "book", "list")
    assert code == 1
    assert words in err.replace("\n", " ")
    assert (tmp_path / "book.db").read_bytes() == content


def test_trouble_inside_the_program_is_a_sentence_and_a_report(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    def break_down(_desk: object) -> int:
        raise RuntimeError("Anna's drill")  # noqa: TRY003  a message that must not get out

    monkeypatch.setattr("assistant.terminal.commands.list_jobs", break_down)
    monkeypatch.setattr("assistant.book.places.data_folder", lambda: tmp_path)
    code, out, err = said(capsys, "jobs")
    assert (code, out) == (1, "")
    assert err.startswith("Something in the program broke.")
    assert "Traceback" not in err
    (report,) = (tmp_path / "reports").iterdir()
    assert str(report) in err
    assert "Anna" not in err + report.read_text(encoding="utf-8")


def test_a_report_that_cannot_be_written_leaves_the_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    def break_down(_desk: object) -> int:
        raise RuntimeError

    def no_home() -> Path:
        raise BookProblem("no_folder", Path())

    monkeypatch.setattr("assistant.terminal.commands.list_jobs", break_down)
    monkeypatch.setattr("assistant.book.places.report_folder", no_home)
    code, _, err = said(capsys, "jobs")
    assert code == 1
    assert err.startswith("Something in the program broke.")


def test_a_reader_that_went_away_is_no_trouble_worth_a_word() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    with subprocess.Popen(
        [sys.executable, "-m", "assistant", "jobs"],
        cwd=ROOT,
        stdout=writing,
        stderr=subprocess.PIPE,
        stdin=subprocess.DEVNULL,
        text=True,
    ) as ran:
        os.close(writing)
        _, err = ran.communicate()
    assert (ran.returncode, err) == (129, "")


def test_an_ascii_terminal_gets_its_help_too() -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "assistant", "zebré"],
        cwd=ROOT,
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        stdin=subprocess.DEVNULL,
    )
    assert ran.returncode == 2
    assert b"I don't know 'zebre'." in ran.stderr
