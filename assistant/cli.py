"""The command line: what was asked for, and who does it."""

from __future__ import annotations

import argparse
import errno
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack, suppress
from dataclasses import fields
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from assistant.flow.place import flows_folder
from assistant.terminal import commands, flow_files
from assistant.terminal.book_commands import COMMANDS, LIKE
from assistant.terminal.desk import NO_BOOK, Desk, Options
from assistant.terminal.help_texts import job_text, jobs_in, main_text, text_of, with_book
from assistant.terminal.hints import naming
from assistant.terminal.leaving import (
    HUNG_UP,
    INTERRUPTED,
    TROUBLE,
    USAGE,
    Ended,
    NotDone,
    ended_by_signals,
)
from assistant.terminal.misuse import Misuse
from assistant.terminal.screen import laid_out, tell

if TYPE_CHECKING:
    from assistant.dialogue.messages import Message
    from assistant.sitting.sitting import Sitting

PROGRAM = "drillside"
OPTIONS = (
    *("help", "version", "plain", "units", "say", "book", "answers", "facts", "json", "all"),
    *("page", "yes", "csv", "report", "part", "level", "seed", "trials"),
)
OPTIONS_OF_LISTS = tuple(option.removeprefix("--") for option in LIKE)
FURTHER = {name: f"book {name}" for name in COMMANDS} | {
    **{name: f"flows {name}" for name in ("check", "draw", "facts", "diff")},
    **{name: f"--{name}" for name in ("help", "version")},
}
"""Commands under a command and options, for who types their names alone."""
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
        words = flow_files.words_of(folder)
    except (OSError, ValueError, KeyError):
        return TROUBLE if flow_files.told_faults(folder) else 0
    with ExitStack() as told_to_type:
        try:
            do, options = parsed(parser_for(words, folder), argv)
            told_to_type.enter_context(naming(PROGRAM, with_book(folder), options.book))
            with Desk(folder, options, by_script) as desk:
                return do(desk)
        except Misuse as misuse:
            why = NotDone(USAGE, "usage", misuse.sentence(words))
        except NotDone as not_done:
            why = not_done
        except Exception as trouble:  # noqa: BLE001  whatever it is, a person gets a sentence
            why = broken_off(trouble, words)
        return told(why, as_json="--json" in argv)


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


def practice(desk: Desk) -> int:
    """A job beside a practice drill; nothing of it goes into the book. At its end the truth."""
    from assistant.practice.practicing import JOB, at_the_catch, begun
    from assistant.practice.uncovering import uncovered

    level, seed = desk.options.level, desk.options.seed or new_seed()
    system = desk.options.units or "us"
    sitting, said = begun(
        desk.job(JOB), desk.open_book(), desk.world(), system=system, level=int(level), seed=seed
    )
    if desk.options.trials:
        said = (*said[:1], *at_the_catch(sitting))
    code = desk.converse(sitting, said)
    tell("\n" + "\n".join(uncovered(sitting, level=level, seed=seed)))
    return code


def new_seed() -> str:
    """Four digits by chance, short enough to be typed again."""
    return f"{int.from_bytes(os.urandom(2)) % 10_000:04}"


def broken_off(trouble: Exception, words: Words) -> NotDone:
    """Trouble on this machine, told; a report is written where it is the program's own."""
    from assistant.terminal.report import sentence

    if isinstance(trouble, OSError) and trouble.errno in {errno.EIO, errno.EPIPE}:
        raise Ended(HUNG_UP)  # nobody is there to read a sentence
    return NotDone(TROUBLE, getattr(trouble, "code", "trouble"), sentence(trouble, words))


def told(why: NotDone, *, as_json: bool) -> int:
    """Say why something is not done: a sentence, or the object that a script was promised."""
    if as_json:
        from assistant.script.report import not_begun

        print(not_begun(why.exit_code, why.code, why.sentence))
    else:
        tell(why.sentence, sys.stderr)
    return why.exit_code


def let_go() -> None:
    """Nobody reads along any more: what is still to be written goes nowhere."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        for stream in (sys.stdout, sys.stderr):
            os.dup2(nowhere, stream.fileno())


# -- what can be typed ------------------------------------------------------------------------


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
            further = FURTHER if action.nargs == argparse.PARSER else None
            raise Misuse(str(value), action.choices, further)

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
    add_practice(add("practice", text=partial(text_of, words, "practice")))
    add("jobs", text=partial(text_of, words, "jobs")).set_defaults(do=commands.list_jobs)
    add_book(add("book", text=partial(text_of, words, "book")), words)
    add_flows(add("flows", text=partial(text_of, words, "flows")), words)
    add_misread(add("misread", text=partial(text_of, words, "misread")), words)
    return parser


def add_practice(parser: Parser) -> None:
    """What a practice drill can be told; it is kept in no book."""
    parser.flags("--plain", "--trials")
    parser.level()
    parser.add_argument("--units", choices=("us", "metric"))
    parser.add_argument("--level", choices=("1", "2", "3"))
    for option in ("--seed", "--answers"):
        parser.add_argument(option)
    parser.set_defaults(do=practice, book=NO_BOOK)


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
    diff = add("diff")
    diff.add_argument("old")
    diff.add_argument("new", nargs="?")
    diff.flags("--json")
    diff.set_defaults(do=flow_files.diff)


def add_misread(parser: Parser, words: Words) -> None:
    """What can be done with refused lines; alone, how it stands with them."""
    parser.set_defaults(do=partial(commands.misread, act="told"))
    add = parser.add_subparsers().add_parser
    for name in ("on", "off", "show", "erase"):
        one = add(name, text=partial(text_of, words, "misread"))
        one.set_defaults(do=partial(commands.misread, act=name))
