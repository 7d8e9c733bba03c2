"""The program in a real pseudo-terminal of 40 columns and 20 rows, its screen emulated."""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pexpect
import pyte

ROOT = Path(__file__).resolve().parents[2]
ROWS, COLUMNS = 20, 40
PATIENCE = 20.0  # seconds; a busy machine is slow, a broken program never answers
SOON = 2.0  # within this a run that is told to end has ended
UNWANTED = ("NO_COLOR", "FORCE_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "COLUMNS", "LINES")


def as_from_a_shell() -> None:
    """Give the program its signals back: tests run in the background hold them ignored."""
    for each in (signal.SIGINT, signal.SIGHUP):
        signal.signal(each, signal.SIG_DFL)


class Terminal:
    """One run of the program: keys in, the emulated screen out."""

    def __init__(
        self,
        home: str,
        *arguments: str,
        program: tuple[str, ...] = ("-m", "assistant"),
        environ: Mapping[str, str] | None = None,
        size: tuple[int, int] = (ROWS, COLUMNS),
        before: Callable[[], None] | None = None,
    ) -> None:
        rows, columns = size
        kept = {name: value for name, value in os.environ.items() if name not in UNWANTED}
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.screen)
        self.written = b""
        self.child: Any = pexpect.spawn(  # bytes or text: its stubs know only text
            sys.executable,
            [*program, *arguments],
            dimensions=(rows, columns),
            cwd=str(ROOT),
            env={**kept, "HOME": home, "XDG_DATA_HOME": home, "TERM": "xterm", **(environ or {})},
            preexec_fn=before or as_from_a_shell,
        )

    def type(self, keys: str) -> None:
        """Press keys; a carriage return is Enter."""
        self.child.send(keys)

    def lines(self) -> list[str]:
        """The rows of the screen, without the spaces behind them."""
        return [line.rstrip() for line in self.screen.display]

    def text(self) -> str:
        """The screen as one text, its rows joined by spaces."""
        return " ".join(" ".join(self.lines()).split())

    def wait(self, wanted: str) -> str:
        """Wait until the screen shows a text in its last lines before the mark, or ever."""
        return self._until(lambda: wanted in self.text(), wanted)

    def ready(self, wanted: str) -> str:
        """Wait until a text stands on the screen and the cursor waits behind an empty mark."""
        return self._until(lambda: wanted in self.text() and self._at_mark(), wanted)

    def leaf_to(self, wanted: str) -> str:
        """Press Enter, page by page, until a text stands there."""
        self.ready("Enter shows more.")
        while wanted not in self.text():
            page = self.text()
            self.type("\r")
            self._until(partial(self._turned, page), wanted)
        return self.text()

    def _turned(self, page: str) -> bool:
        return self.text() != page and self._at_mark()

    def _at_mark(self) -> bool:
        return self.lines()[self.screen.cursor.y] == ">" and self.screen.cursor.x == 2

    def _until(self, holds: Callable[[], bool], wanted: str) -> str:
        end = time.monotonic() + PATIENCE
        while not holds():
            assert time.monotonic() < end, f"{wanted!r} never came:\n" + "\n".join(self.lines())
            if not self._read():
                assert holds(), f"{wanted!r} never came:\n" + "\n".join(self.lines())
        return self.text()

    def _read(self) -> bool:
        try:
            read = self.child.read_nonblocking(4096, timeout=0.1)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            return False
        self.written += read
        self._stream.feed(read)
        return True

    def ended(self, within: float = PATIENCE) -> int:
        """The exit code once the run has ended; a run that goes on fails the test."""
        end = time.monotonic() + within
        while self.child.isalive():
            assert time.monotonic() < end, "it goes on:\n" + "\n".join(self.lines())
            self._read()
        while self._read() and time.monotonic() < end:
            pass
        return self.child.exitstatus if self.child.exitstatus is not None else -1

    def forget(self) -> None:
        """The run was waited for, and its terminal closed, by the test itself."""
        for each in (self.child, self.child.ptyproc):
            each.closed = each.terminated = True

    def resize(self, rows: int, columns: int) -> None:
        """Give the window another size."""
        self.screen.resize(rows, columns)
        self.child.setwinsize(rows, columns)


@contextmanager
def running(*arguments: str, **how: object) -> Iterator[Terminal]:
    """A run that is ended whatever happens."""
    with TemporaryDirectory() as home:
        terminal = Terminal(home, *arguments, **how)  # type: ignore[arg-type]  # as they came
        try:
            yield terminal
        finally:
            if not terminal.child.terminated and terminal.child.isalive():
                terminal.child.kill(signal.SIGKILL)
            terminal.child.close()
