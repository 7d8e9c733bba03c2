"""What a command has at hand: options, flow files, book, screen and keyboard."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from assistant.flow.model import Library
from assistant.terminal.colour import accessible, coloured, dumb
from assistant.terminal.flow_files import trusted
from assistant.terminal.reading import Reader, on_terminal, output_on_terminal, reader_for
from assistant.terminal.screen import Screen

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.dialogue.job import Calculation, Job
    from assistant.dialogue.messages import Message
    from assistant.sitting.sitting import Sitting
    from assistant.sitting.world import World


NO_BOOK = "none"
"""What `--book` is told where nothing is to be kept."""


@dataclass(frozen=True, slots=True)
class Options:
    """What was said on the command line, under the names that it has there."""

    plain: bool = False
    book: str | None = None
    units: str | None = None
    say: str | None = None
    answers: str | None = None
    facts: str | None = None
    json: bool = False
    job: str = ""
    id: str | None = None
    page: str | None = None
    all: bool = False
    drill: str | None = None
    crop: str | None = None
    lot: str | None = None
    since: str | None = None
    until: str | None = None
    last: str | None = None
    words: Sequence[str] = ()
    ids: Sequence[str] = ()
    file: str | None = None
    csv: bool = False
    report: bool = False
    part: str | None = None
    old: str = ""
    new: str | None = None
    yes: bool = False
    level: str = "1"
    seed: str | None = None
    trials: bool = False
    text: Callable[[], str] = str


class ByScript(Protocol):
    """What answers without a keyboard."""

    def __call__(
        self, options: Options, sitting: Sitting, said: Sequence[Message], *, person: bool
    ) -> int | Sequence[Message]:
        """The exit code, or what is said where a `person` goes on."""
        ...


@dataclass(slots=True)
class Desk:
    """One run of the program. The reader is one for the whole run, made when first asked for."""

    folder: Path
    options: Options
    by_script: ByScript
    _screen: Screen | None = None
    _library: Library | None = None
    _shipped: bool | None = None
    _reader: Reader | None = None
    _open: ExitStack = field(default_factory=ExitStack)

    def __enter__(self) -> Desk:
        return self

    def __exit__(self, *_: object) -> None:
        self._open.close()

    @property
    def scripted(self) -> bool:
        """Whether no person answers."""
        options = self.options
        return bool(options.answers or options.json) or not on_terminal()

    @property
    def shipped(self) -> bool:
        """Whether the flow files are just as they shipped: every file is hashed once a run."""
        if self._shipped is None:
            from assistant.checking.shipped import as_shipped

            self._shipped = as_shipped(self.folder)
        return self._shipped

    @property
    def library(self) -> Library:
        """The flow files, once they are trusted. Raises Ended when they have faults."""
        if self._library is None:
            self._library = trusted(self.folder, shipped=self.shipped)
        return self._library

    @property
    def screen(self) -> Screen:
        """The one screen."""
        if self._screen is None:
            wished = self.options.plain or accessible(os.environ)
            seen = output_on_terminal()
            colour = coloured(os.environ, plain=wished, terminal=seen)
            plain = wished or dumb(os.environ) or not seen
            self._screen = Screen(self.library, colour=colour, plain=plain)
        return self._screen

    @property
    def reader(self) -> Reader:
        """The one keyboard."""
        if self._reader is None:
            self._reader = reader_for(self.screen)
            self._open.enter_context(self._reader)
        return self._reader

    def open_book(self) -> Book:
        """The book that was named, else the user's own. Raises BookProblem.

        A person is asked what to do about a damaged one.
        """
        from assistant.book.nobook import chosen_book
        from assistant.book.problems import BookProblem

        try:
            return self._open.enter_context(chosen_book(self.options.book, os.environ))
        except BookProblem as problem:
            from assistant.terminal.safety import offered

            if problem.code != "damaged" or self.scripted or not offered(self, problem):
                raise
        return self._open.enter_context(chosen_book(self.options.book, os.environ))

    @property
    def named_book(self) -> bool:
        """Whether a book was named: only such a one lends its cards to a script."""
        from assistant.book.places import told_path

        return bool(told_path(self.options.book, os.environ))

    @property
    def keeps(self) -> bool:
        """Whether anything is kept at all."""
        from assistant.book.places import NONE, told_path

        return told_path(self.options.book, os.environ) != NONE

    def job(self, name: str) -> Job:
        """A job of the library, compiled."""
        from assistant.checking.shipped import shipped_sets
        from assistant.dialogue.job import Job, job_of
        from assistant.flow.graph import compiled

        if self.shipped:
            graph = compiled(self.library, name, shipped_sets(self.folder))
            return Job(graph, self.library, catalogue)
        return job_of(self.library, name, catalogue())

    def usual_prompts(self, name: str) -> int:
        """How many prompts a job usually takes."""
        if self.shipped:
            from assistant.checking.shipped import shipped_usual

            return shipped_usual(self.folder)[name]
        from assistant.checking.report import usual_prompts

        return usual_prompts(self.folder)[name]

    def world(self) -> World:
        """The clock, chance for ids, and how the jobs were checked."""
        from assistant.sitting.world import World

        return World(clock=now, chance=os.urandom, proof=self.proof)

    def proof(self, job: str) -> Mapping[str, Any]:
        """What the check found of a job that shipped; nothing where flow files were changed."""
        from assistant.checking.shipped import shipped_proof

        return shipped_proof(self.folder, job) if self.shipped else {}

    def converse(self, sitting: Sitting, said: Sequence[Message]) -> int:
        """Hold a conversation with whoever answers; returns the exit code.

        The backup comes last: the card is on the screen by then, and nobody waits for it.
        """
        from assistant.terminal.elsewhere import let_go

        if self.options.say:
            said = sitting.saying.begun(self.options.say, tuple(said))
        try:
            code = self._held(sitting, said)
        finally:
            let_go(sitting)
        if sitting.finish and sitting.kept and self.keeps:
            from assistant.terminal.safety import back_up_after

            back_up_after(self, sitting.book)
        return code

    def _held(self, sitting: Sitting, said: Sequence[Message]) -> int:
        from assistant.terminal.loop import converse

        if self.scripted or self.options.facts:
            heard = self.by_script(self.options, sitting, said, person=not self.scripted)
            if isinstance(heard, int):
                return heard
            said = heard

        return converse(sitting, said, self.screen, self.reader, keeps=self.keeps)


def catalogue() -> Mapping[str, Calculation]:
    """The calculations, imported when the first one is run."""
    from assistant.calc.catalogue import CATALOGUE

    return CATALOGUE


def now() -> datetime:
    """This moment."""
    return datetime.now(UTC)
