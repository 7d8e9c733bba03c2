"""The command line: what was asked for, and who does it."""

from __future__ import annotations

import argparse
import errno
import os
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import ExitStack, suppress
from dataclasses import fields
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from assistant.flow.load import flat, read
from assistant.flow.place import flows_folder
from assistant.terminal import commands, flow_files
from assistant.terminal.book_commands import COMMANDS, LIKE
from assistant.terminal.desk import Desk, Options
from assistant.terminal.hints import naming
from assistant.terminal.leaving import HUNG_UP, INTERRUPTED, TROUBLE, USAGE, Ended, ended_by_signals
from assistant.terminal.screen import filled, laid_out, tell

if TYPE_CHECKING:
    from assistant.dialogue.messages import Message
    from assistant.sitting.sitting import Sitting

PROGRAM = "drillside"
OPTIONS = (
    *("help", "version", "plain", "units", "say", "book", "answers", "facts", "json", "all"),
    *("page", "yes", "csv", "report", "part"),
)
OPTIONS_OF_LISTS = tuple(option.removeprefix("--") for option in LIKE)
Words = Mapping[str, str]
Command = Callable[[Desk], int]


def main(argv: list[str] | None = None) -> int:
    """Run the program; returns its exit code. No traceback is ever shown."""
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        with suppress(AttributeError, ValueError):
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]  # stand-ins lack it
    try:
        with ended_by_signals():
            return run(sys.argv[1:] if argv is None else argv)
    except SystemExit as ended:
        if ended.code == HUNG_UP:
            let_go()
        return ended.code if isinstance(ended.code, int) else 0
    except KeyboardInterrupt:
        return INTERRUPTED


def run(argv: Sequence[str]) -> int:
    """Read the command line and do what it says."""
    folder = flows_folder()
    try:
        words = words_of(folder)
    except (OSError, ValueError, KeyError):
        return TROUBLE if flow_files.told_faults(folder) else 0
    with ExitStack() as told_to_type:
        try:
            do, options = parsed(parser_for(words, folder), argv)
            told_to_type.enter_context(naming(PROGRAM, with_book(folder), options.book))
            with Desk(folder, options, by_script) as desk:
                return do(desk)
        except Misuse as misuse:
            tell(misuse.sentence(words), sys.stderr)
            return USAGE
        except Exception as trouble:  # noqa: BLE001  whatever it is, a person gets a sentence
            return told(trouble, words)


def words_of(folder: Path) -> Words:
    """The program's own sentences, without the rest of the flow files."""
    words = dict(read(folder / "words.toml"))
    words.pop("commands")
    return flat(words)


def by_script(
    options: Options, sitting: Sitting, said: Sequence[Message], *, person: bool
) -> int | Sequence[Message]:
    """Answer from files or a pipe: the exit code, or what is said where a `person` goes on."""
    from assistant.script.start import fill_in, run_script

    if not person:
        return run_script(
            sitting, said, answers=options.answers, facts=options.facts, as_json=options.json
        )
    report = fill_in(sitting, said, options.facts or "")
    if report.refused:
        tell("\n".join(report.why()), sys.stderr)
        return report.exit
    return report.said


def told(trouble: Exception, words: Words) -> int:
    """A sentence about trouble on this machine, and a report where it is the program's own."""
    from assistant.book.places import report_folder
    from assistant.book.problems import BookProblem
    from assistant.terminal.report import report

    if isinstance(trouble, OSError) and trouble.errno in {errno.EIO, errno.EPIPE}:
        raise Ended(HUNG_UP)  # nobody is there to read a sentence
    if isinstance(trouble, BookProblem):
        tell(filled(words[f"book.{trouble.code}"], path=str(trouble.path)), sys.stderr)
        return TROUBLE
    try:
        path = report(trouble, report_folder())
        tell(filled(words["trouble.reported"], path=str(path)), sys.stderr)
    except (OSError, BookProblem):
        tell(words["trouble.unreported"], sys.stderr)
    return TROUBLE


def let_go() -> None:
    """Nobody reads along any more: what is still to be written goes nowhere."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        for stream in (sys.stdout, sys.stderr):
            os.dup2(nowhere, stream.fileno())


# -- what can be typed ------------------------------------------------------------------------


class Misuse(Exception):  # noqa: N818  a slip on the command line
    """A piece of the command line that is not known, or after which something is missing."""

    def __init__(self, heard: str, known: Iterable[str] | None = None) -> None:
        super().__init__(heard)
        self.heard, self.known = heard, known

    def sentence(self, words: Words) -> str:
        """What was not understood, and what is near it."""
        import difflib

        if self.known is None:
            return filled(words["cli.lacks"], heard=self.heard)
        marks = "--" if self.heard.startswith("--") else ""
        bare = self.heard.removeprefix(marks)
        near = [marks + each for each in difflib.get_close_matches(bare, list(self.known), n=3)]
        name = "cli.near" if near else "cli.unknown"
        return filled(words[name], heard=self.heard, near=words["cli.or"].join(near))


class Parser(argparse.ArgumentParser):
    """A parser whose help is a text from the flow files, examples first."""

    def __init__(self, *, text: Callable[[], str], **plain: Any) -> None:
        super().__init__(allow_abbrev=False, argument_default=argparse.SUPPRESS, **plain)
        self.text = text
        self.set_defaults(text=text)

    def format_help(self) -> str:
        """The text, folded to the terminal."""
        return "\n".join(laid_out(self.text())) + "\n"

    def error(self, message: str) -> NoReturn:
        """Only what lacks something comes here; what is not known is told by `_check_value`."""
        raise Misuse(next((w.strip(":") for w in message.split() if w[:2] == "--"), self.prog))

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        if action.choices is not None and value not in action.choices:
            raise Misuse(str(value), action.choices)

    def flags(self, *names: str) -> None:
        """Options that are there or not."""
        for name in names:
            self.add_argument(name, action="store_true")

    def shared(self) -> None:
        """What can stand before a command and after it."""
        self.flags("--plain")
        self.add_argument("--book")
        self.add_argument("--units", choices=("us", "metric"))

    def level(self) -> None:
        """How much is said."""
        self.add_argument("--say", choices=("short", "normal", "teach"))

    def talk(self) -> None:
        """What a conversation takes."""
        self.shared()
        self.level()
        self.flags("--json")
        self.add_argument("--answers")
        self.add_argument("--facts")


def parsed(parser: Parser, argv: Sequence[str]) -> tuple[Command, Options]:
    """The command and its options; raises Misuse for what is left over."""
    found, unknown = parser.parse_known_args(argv)
    if unknown:
        raise Misuse(unknown[0], (*OPTIONS, *OPTIONS_OF_LISTS))
    told = {each.name: vars(found)[each.name] for each in fields(Options) if each.name in found}
    return found.do, Options(**told)


def parser_for(words: Words, folder: Path) -> Parser:
    """Every command with its options. The titles of jobs are read when a help text needs them."""
    jobs = jobs_in(folder)
    parser = Parser(prog=PROGRAM, text=partial(main_text, words, jobs))
    parser.add_argument("--version", action="store_const", dest="do", const=commands.version)
    parser.shared()
    parser.level()
    parser.set_defaults(do=commands.start)
    add = parser.add_subparsers().add_parser
    for job in jobs:
        one = add(job.stem, text=partial(job_text, words, job))
        one.talk()
        one.set_defaults(do=commands.hold, job=job.stem)
    again = add("resume", text=partial(text_of, words, "resume"))
    again.talk()
    again.add_argument("id", nargs="?")
    again.set_defaults(do=commands.resume)
    add("jobs", text=partial(text_of, words, "jobs")).set_defaults(do=commands.list_jobs)
    add_book(add("book", text=partial(text_of, words, "book")), words)
    add_flows(add("flows", text=partial(text_of, words, "flows")), words)
    add_misread(add("misread", text=partial(text_of, words, "misread")), words)
    return parser


def add_book(parser: Parser, words: Words) -> None:
    """What can be done with the book; alone, its list."""
    parser.shared()
    parser.set_defaults(do=COMMANDS["list"].do)
    add = parser.add_subparsers().add_parser
    for name, command in COMMANDS.items():
        one = add(name, text=partial(text_of, words, command.help))
        one.shared()
        one.flags(*command.flags)
        for option in command.options:
            one.add_argument(option)
        for typed, often in command.typed.items():
            one.add_argument(typed, nargs=often)
        one.set_defaults(do=command.do)


def add_flows(parser: Parser, words: Words) -> None:
    """What can be done with the flow files; alone, their check."""
    parser.set_defaults(do=flow_files.check)
    add = partial(parser.add_subparsers().add_parser, text=partial(text_of, words, "flows"))
    add("check").flags("--report", "--json")
    draw, facts = add("draw"), add("facts")
    for one, do in ((draw, flow_files.draw), (facts, flow_files.facts)):
        one.add_argument("job")
        one.set_defaults(do=do)
    draw.add_argument("--part")
    facts.flags("--json")


def add_misread(parser: Parser, words: Words) -> None:
    """What can be done with refused lines; alone, how it stands with them."""
    parser.set_defaults(do=partial(commands.misread, act="told"))
    add = parser.add_subparsers().add_parser
    for name in ("on", "off", "show", "erase"):
        one = add(name, text=partial(text_of, words, "misread"))
        one.set_defaults(do=partial(commands.misread, act=name))


# -- help -------------------------------------------------------------------------------------


def main_text(words: Words, jobs: Iterable[Path]) -> str:
    """The help of the whole program, its jobs listed."""
    lines = (filled(words["cli.job"], name=job.stem, title=title_of(job)) for job in jobs)
    return filled(words["cli.help.drillside"], jobs="\n".join(lines))


def job_text(words: Words, job: Path) -> str:
    """The help of a job."""
    return filled(text_of(words, "job"), job=job.stem, title=title_of(job))


def text_of(words: Words, name: str) -> str:
    """The help of a command."""
    return filled(words[f"cli.help.{name}"], options=words["cli.options.talk"])


def with_book(folder: Path) -> list[str]:
    """The commands that work on a book."""
    return [*(job.stem for job in jobs_in(folder)), "resume", "book"]


def jobs_in(folder: Path) -> list[Path]:
    """The files of the jobs."""
    return sorted((folder / "jobs").glob("*.toml"))


def title_of(job: Path) -> str:
    """The title of a job; its name while the file has a fault, which is told later."""
    try:
        return str(read(job)["part"]["title"])
    except (OSError, ValueError, KeyError):
        return job.stem
