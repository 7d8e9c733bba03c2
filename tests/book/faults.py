"""Runs a script whose n-th change of a file fails or kills it, and holds what must be left.

What a script does is an `Act`: other things that write files beside the book add theirs to `ACTS`
in `tests/book/acts.py`.
"""

import atexit
import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import count
from pathlib import Path
from tempfile import mkdtemp

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE = Path(__file__).with_suffix(".c")
COMPILER = shutil.which("gcc")
KINDS = ("kill", "full", "full_once", "failed")
MOST = 2000  # changes of files: no act here makes so many

NEEDS_SHIM = pytest.mark.skipif(
    sys.platform != "linux" or COMPILER is None,
    reason="a library in front of the system's own needs Linux and gcc",
)

# Goes before and after each script, which defines `act(folder, say)`.
HEAD = """
import sys
from pathlib import Path
from assistant.book.problems import BookProblem

def tried(deed):
    try:
        deed()
    except BookProblem:
        deed()
"""
TAIL = """
def say(text):
    print(text, flush=True)

try:
    act(Path(sys.argv[1]), say)
except BookProblem as problem:
    say(f"problem {problem.code}")
"""


@dataclass(frozen=True, slots=True)
class Ran:
    """How a script ended, and what it said before; `fault` is the change that met the fault."""

    code: int
    said: list[str]
    trouble: str
    fault: str


@dataclass(frozen=True, slots=True)
class Act:
    """A script over a folder: what is there before, and what must hold after, whatever struck.

    `after` takes the folder and what the script said: what it told as kept must be there.
    """

    name: str
    script: str
    before: Callable[[Path], None]
    after: Callable[[Path, list[str]], None]


@cache
def shim() -> Path:
    """The library that brings the faults, compiled once for a run of the tests."""
    folder = Path(mkdtemp())
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    library = folder / "faults.so"
    assert COMPILER
    subprocess.run([COMPILER, "-shared", "-fPIC", "-o", library, SOURCE, "-ldl"], check=True)
    return library


def faulted(script: str, folder: Path, n: int, kind: str) -> Ran:
    """Runs a script over a folder; its n-th change of a file there meets a fault of that kind."""
    faults = {"FAULT_FOLDER": f"{folder}/", "FAULT_AT": str(n), "FAULT_KIND": kind}
    done = subprocess.run(
        [sys.executable, "-c", HEAD + script + TAIL, str(folder)],
        cwd=ROOT,
        env=os.environ | faults | {"LD_PRELOAD": str(shim())},
        capture_output=True,
        text=True,
        check=False,
    )
    mark, _, rest = done.stderr.partition("\n")
    fault = mark.removeprefix("fault: ") if mark.startswith("fault: ") else ""
    trouble = rest if fault else done.stderr
    return Ran(done.returncode, done.stdout.splitlines(), trouble, fault)


def strike(act: Act, folder: Path, n: int, kind: str) -> Ran:
    """Lets one fault meet an act, and holds that it ended in order and lost nothing."""
    folder.mkdir()
    act.before(folder)
    ran = faulted(act.script, folder, n, kind)
    about = (act.name, kind, n, ran)
    assert ran.trouble == "", about
    if kind == "kill" and ran.fault:
        assert ran.code == -signal.SIGKILL, about
    else:
        assert ran.code == 0, about
    act.after(folder, ran.said)
    return ran


def strikes(act: Act, folder: Path, kind: str, first: int, step: int) -> Iterator[Ran]:
    """Every `step`-th fault of a kind, from the `first`, until an act runs to its end untouched."""
    for n in count(first, step):
        ran = strike(act, folder / f"{kind}_{n}", n, kind)
        shutil.rmtree(folder / f"{kind}_{n}")
        if not ran.fault:
            assert not any(line.startswith("problem") for line in ran.said)
            return
        assert n < MOST
        yield ran
