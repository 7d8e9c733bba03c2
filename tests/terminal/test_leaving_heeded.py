"""A request to end is heeded even where Python drops the first raise."""

from __future__ import annotations

import signal
import subprocess
import sys

import pytest

LOST = """
import os, signal, time, weakref
from assistant.terminal.leaving import ended_by_signals

class Thing:
    pass

with ended_by_signals():
    thing = Thing()
    held = weakref.ref(thing, lambda _: (os.kill(os.getpid(), signal.SIGTERM), time.sleep(0)))
    del thing
    print("dropped", flush=True)
    time.sleep(20)
"""
CLEANED = """
import os, signal, time
from assistant.terminal.leaving import ended_by_signals

with ended_by_signals():
    try:
        os.kill(os.getpid(), signal.SIGTERM)
        time.sleep(20)
    finally:
        time.sleep(1)
        print("cleaned", flush=True)
"""


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="no such clock")
@pytest.mark.parametrize(("program", "said"), [(LOST, "dropped"), (CLEANED, "cleaned")])
def test_it_ends_once_and_what_is_on_the_way_out_is_not_disturbed(program: str, said: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=15, check=False
    )
    assert done.returncode == 143
    assert said in done.stdout
