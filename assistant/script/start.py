"""How a run by script begins: where its answers and facts come from, and what it prints."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from assistant.book.nobook import NoBook
from assistant.dialogue.messages import Message
from assistant.dialogue.wording import say
from assistant.script.facts_file import FactsFile, NotTomlError, read_facts
from assistant.script.lines import typed_lines
from assistant.script.report import Refusal, Report
from assistant.script.run import REFUSED, USAGE, Script
from assistant.sitting.plain_text import harmless, lines_of
from assistant.sitting.saved import truthful
from assistant.sitting.sitting import Sitting

WIDTH = 72


def run_script(
    sitting: Sitting,
    said: Sequence[Message],
    *,
    answers: str | None = None,
    facts: str | None = None,
    as_json: bool = False,
) -> int:
    """Run a conversation without a person; returns the exit code.

    With neither answers nor facts, standard input is read as answers. With `as_json` one object is
    all that goes to standard output, whatever the exit code.
    """
    report = _run(sitting, tuple(said), answers, facts, as_json=as_json)
    if as_json:
        print(report.as_json())
    elif report.exit:
        print(harmless("\n".join(report.why())), file=sys.stderr)
    return report.exit


def _run(
    sitting: Sitting,
    said: tuple[Message, ...],
    answers: str | None,
    facts: str | None,
    *,
    as_json: bool,
) -> Report:
    printed = Printed(sitting, quiet=as_json)
    try:
        named = read_facts(Path(facts), sitting.job) if facts else None
        lines = typed_lines(answers, standard=named is None)
    except NotTomlError as problem:
        return unreadable(sitting, facts or "", problem)
    except (OSError, UnicodeDecodeError) as problem:
        return unreadable(sitting, answers or "", problem)
    if named and named.refused:
        return not_taken(sitting, named)
    report = Script(sitting, printed.show, named, lines).run(said)
    printed.card()
    return report


def fill_in(sitting: Sitting, said: Sequence[Message], facts: str) -> Report:
    """Answer what a facts file has; the person is asked the rest.

    The last messages, which put the open question, are in `Report.said`.
    """
    try:
        named = read_facts(Path(facts), sitting.job)
    except NotTomlError as problem:
        return unreadable(sitting, facts, problem)
    if named.refused:
        return not_taken(sitting, named)
    script = Script(sitting, lambda _typed, _said: None, named, asks_rest=True)
    return script.run(tuple(said))


def unreadable(sitting: Sitting, path: str, problem: Exception) -> Report:
    """A file that is missing, not text or not TOML; broken TOML names its line."""
    why = (problem.strerror if isinstance(problem, OSError) else None) or str(problem)
    text = say(sitting.job, "script.unreadable", path=path, why=why)
    return Report(sitting, USAGE, Refusal("unreadable", text, file=Path(path).name))


def not_taken(sitting: Sitting, facts: FactsFile) -> Report:
    """Names and values of a facts file that can't be used, all at once."""
    texts = [
        say(sitting.job, f"refused.{each.code}", name=each.name, heard=each.heard[:60])
        for each in facts.refused
    ]
    names = tuple(dict.fromkeys(each.name for each in facts.refused))
    first = facts.refused[0]
    refused = Refusal(first.code, "\n".join(texts), facts=names, file=facts.path, line=first.line)
    return Report(sitting, REFUSED, refused)


@dataclass(slots=True)
class Printed:
    """What goes to standard output: the words of the conversation, then the card."""

    sitting: Sitting
    quiet: bool = False

    def show(self, typed: str, said: tuple[Message, ...]) -> None:
        """Print what was typed and what was said to it."""
        if self.quiet:
            return
        library = self.sitting.job.library
        if typed:
            print(f"> {typed}")
        keeps = not isinstance(self.sitting.book, NoBook)
        for message in truthful(self.sitting, said, keeps=keeps):
            for line in lines_of(library, message, WIDTH):
                print(line)
        with suppress(OSError):
            sys.stdout.flush()

    def card(self) -> None:
        """Print the card that was made."""
        if self.sitting.card and not self.quiet:
            print(f"\n{harmless(self.sitting.card)}")
