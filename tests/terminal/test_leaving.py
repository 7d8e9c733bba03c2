"""Signals end a run with their code, and a terminal that is gone is seen."""

from __future__ import annotations

import os
import signal

import pytest

from assistant.terminal.leaving import Ended, ended_by_signals, gone


@pytest.mark.parametrize(("number", "code"), [(signal.SIGHUP, 129), (signal.SIGTERM, 143)])
def test_a_signal_ends_the_run_with_its_code(number: signal.Signals, code: int) -> None:
    before = signal.signal(number, signal.SIG_DFL)  # under nohup a hang-up comes in ignored
    try:
        with pytest.raises(Ended) as ended, ended_by_signals():
            os.kill(os.getpid(), number)
    finally:
        signal.signal(number, before)
    assert ended.value.code == code


def test_a_second_signal_does_not_disturb_the_leaving() -> None:
    with ended_by_signals():
        with pytest.raises(Ended):
            os.kill(os.getpid(), signal.SIGTERM)
        os.kill(os.getpid(), signal.SIGTERM)
    assert signal.getsignal(signal.SIGTERM) is signal.SIG_DFL


def test_a_hang_up_that_was_ignored_stays_ignored() -> None:
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        with ended_by_signals():
            os.kill(os.getpid(), signal.SIGHUP)
            assert signal.getsignal(signal.SIGHUP) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGHUP, before)


@pytest.mark.terminal
def test_a_closed_terminal_is_seen() -> None:
    keyboard, terminal = os.openpty()
    try:
        assert gone(terminal) is False
        os.close(keyboard)
        assert gone(terminal) is True
    finally:
        os.close(terminal)
