"""Where typed lines come from: a prompt that can be edited, or plain lines."""

from __future__ import annotations

import os
import select
import sys
from contextlib import suppress
from types import TracebackType
from typing import TYPE_CHECKING, Any, Protocol, Self

from assistant.terminal.colour import dumb
from assistant.terminal.leaving import HUNG_UP, Ended, gone, stop_here, told_to_go_on
from assistant.terminal.screen import Screen, tell
from assistant.terminal.waiting_keys import echo_off, echo_on, throw_away

if TYPE_CHECKING:
    from prompt_toolkit import PromptSession

MARK = "> "
LOOK_UP = 0.5  # seconds: a signal that came just before the waiting began is seen then
ONE_GO = 0.02  # seconds: lines that follow within this were not typed by hand


class Reader(Protocol):
    """What a conversation needs of the keyboard."""

    def read(self, again: str = "") -> str:
        """The next line; `again` is a refused one, to be mended. A paste is several lines.

        Raises KeyboardInterrupt for Ctrl-C and EOFError for Ctrl-D on an empty line, Ended when
        the terminal is gone.
        """
        ...

    def forget_keys(self) -> None:
        """Throw away what was typed before it was asked for."""
        ...

    def __enter__(self) -> Self: ...

    def __exit__(
        self,
        kind: type[BaseException] | None,
        value: BaseException | None,
        trace: TracebackType | None,
    ) -> None: ...


class PlainReader:
    """Lines as the terminal hands them over: no editing of ours, no moving cursor."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        return

    def read(self, again: str = "") -> str:
        """The next line; a refused one is not offered again."""
        del again
        try:
            with told_to_go_on(self._mark_again):
                self._mark()
                while not waits(LOOK_UP):
                    pass
                lines = [input()]
            with suppress(EOFError, OSError):  # told at the next line, if it lasts
                while waits(ONE_GO, if_unknown=False):
                    lines.append(input())
            return "\n".join(lines)
        except EOFError:
            if gone(sys.stdin.fileno()):
                raise Ended(HUNG_UP) from None
            self._end_line()
            raise
        except KeyboardInterrupt:
            self._end_line()
            raise
        except OSError:
            raise Ended(HUNG_UP) from None

    def forget_keys(self) -> None:
        """Throw away waiting keys, where there is a keyboard."""
        throw_away()

    def _mark(self) -> None:
        sys.stdout.write(MARK)
        sys.stdout.flush()

    def _mark_again(self) -> None:
        self._screen.repeat()
        self._mark()

    def _end_line(self) -> None:
        sys.stdout.write("\n")


class PromptReader:
    """One prompt for the whole process, made at the first line, after the first question."""

    def __init__(self, screen: Screen, *, source: Any = None, sink: Any = None) -> None:
        self._screen, self._source, self._sink = screen, source, sink
        self._session: PromptSession[str] | None = None
        self._before: Any = None

    def __enter__(self) -> Self:
        self._before = echo_off()  # what is typed before the prompt stands there is shown by it
        return self

    def __exit__(self, *_: object) -> None:
        echo_on(self._before)

    def read(self, again: str = "") -> str:
        """The next line; a refused one stands there selected: typing replaces it."""
        from assistant.terminal.prompting import Cleared, KeyedEnd, ask, lines_ahead, new_session

        if self._session is None:
            self._session = new_session(
                colour=self._screen.colour, stop=self._stop, source=self._source, sink=self._sink
            )
        try:
            line = ask(self._session, MARK, again, self._stop)
        except Cleared:
            tell(self._screen.word("leave.cleared"))
            return self.read()
        except KeyedEnd:
            raise EOFError from None
        except (EOFError, OSError):
            raise Ended(HUNG_UP) from None
        return "\n".join([line, *lines_ahead(self._session)])

    def forget_keys(self) -> None:
        """Throw away waiting keys, and those that the prompt has read ahead."""
        throw_away()
        if self._session is not None:
            from assistant.terminal.prompting import forget_ahead

            forget_ahead(self._session)

    def _stop(self) -> None:
        echo_on(self._before)
        stop_here()
        self._before = echo_off()
        self._screen.repeat()


def on_terminal() -> bool:
    """Whether a person sits at the keyboard."""
    return sys.stdin is not None and sys.stdin.isatty()


def output_on_terminal() -> bool:
    """Whether what is written goes to a terminal."""
    return sys.stdout is not None and sys.stdout.isatty()


def waits(seconds: float, *, if_unknown: bool = True) -> bool:
    """Whether a line waits to be read, or comes in time; the console of Windows can't be asked."""
    try:
        return bool(select.select([sys.stdin], [], [], seconds)[0])
    except (OSError, ValueError):
        return if_unknown


def reader_for(screen: Screen) -> PlainReader | PromptReader:
    """The prompt where the terminal can do it, else plain lines."""
    able = on_terminal() and output_on_terminal() and not dumb(os.environ)
    return PromptReader(screen) if able and not screen.plain else PlainReader(screen)
