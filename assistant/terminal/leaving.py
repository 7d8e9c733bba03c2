"""How a run ends: its exit codes, signals from outside, a terminal that is gone."""

from __future__ import annotations

import os
import select
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType

TROUBLE, USAGE = 1, 2
HUNG_UP, INTERRUPTED, TERMINATED = 129, 130, 143
NOT_HEEDED = 0.3
"""Seconds after which a raise was lost."""
ENDING = {"SIGHUP": HUNG_UP, "SIGTERM": TERMINATED}


class Ended(SystemExit):
    """The conversation ends here; `code` is the exit code.

    A SystemExit, because an event loop lets that pass and swallows everything else.
    """


class NotDone(Exception):  # noqa: N818  a wish that can't be met is no mistake of the program
    """What was asked for is not done: the exit code, and why, as a code and as a sentence."""

    def __init__(self, exit_code: int, code: str, sentence: str) -> None:
        super().__init__(code)
        self.exit_code, self.code, self.sentence = exit_code, code, sentence


@contextmanager
def ended_by_signals() -> Iterator[None]:
    """While it lasts, a hang-up or a request to end raises Ended; one that is ignored stays so."""
    before = {}
    for name, code in ENDING.items():
        number = getattr(signal, name, None)  # Windows knows no hang-up
        if number is not None and signal.getsignal(number) is not signal.SIG_IGN:
            before[number] = signal.signal(number, ending_with(code))
    try:
        yield
    finally:
        if hasattr(signal, "setitimer"):
            signal.setitimer(signal.ITIMER_REAL, 0)
        for number, old in before.items():
            signal.signal(number, old)


def ending_with(code: int) -> Callable[[int, FrameType | None], None]:
    """What a signal calls: it raises Ended once, and lets a second one pass."""

    def end(number: int, _frame: FrameType | None) -> None:
        signal.signal(number, signal.SIG_IGN)
        until_heeded(code)
        raise Ended(code)

    return end


def until_heeded(code: int) -> None:
    """Raise Ended again and again where nothing is being ended.

    Python drops what is raised while it calls a weak reference's callback, so that once may not do.
    """
    if not hasattr(signal, "setitimer"):  # Windows has no such clock
        return

    def still(_number: int, _frame: FrameType | None) -> None:
        if sys.exc_info()[1] is None:
            raise Ended(code)

    signal.signal(signal.SIGALRM, still)
    signal.setitimer(signal.ITIMER_REAL, NOT_HEEDED, NOT_HEEDED)


def stop_here() -> None:
    """Stop this job, as the shell's key for it asks, until the shell lets it go on."""
    before = signal.signal(signal.SIGTSTP, signal.SIG_DFL)
    os.kill(0, signal.SIGTSTP)
    signal.signal(signal.SIGTSTP, before)


@contextmanager
def told_to_go_on(call: Callable[[], None]) -> Iterator[None]:
    """While it lasts, `call` is called whenever a stopped job goes on."""
    number = getattr(signal, "SIGCONT", None)  # Windows stops no job
    if number is None:
        yield
        return
    before = signal.signal(number, lambda *_: call())
    try:
        yield
    finally:
        signal.signal(number, before)


def gone(descriptor: int) -> bool:
    """Whether the terminal behind a descriptor has been closed."""
    if not hasattr(select, "poll"):
        return False
    poll = select.poll()
    poll.register(descriptor, 0)  # a hang-up is told without being asked for
    return any(what & (select.POLLHUP | select.POLLNVAL) for _, what in poll.poll(0))
