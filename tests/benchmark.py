"""What things cost, as ratios within one run: `python -m tests.benchmark`. No test, so no verdict.

Each ratio is the median of pairs that were timed in turn, so that a busy machine troubles both
sides. The `transitions` package is measured against if it is there.
"""

from __future__ import annotations

import gc
import importlib
import os
import pty
import select
import signal
import statistics
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache, partial
from itertools import chain, pairwise
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from assistant.book.book import Book
from assistant.calc.catalogue import CATALOGUE
from assistant.dialogue.advance import advance, begin
from assistant.dialogue.events import Typed
from assistant.dialogue.fold import applied, replayed
from assistant.dialogue.job import Job, State, job_of
from assistant.dialogue.log import Answered
from assistant.flow.load import load
from assistant.flow.model import Choice, Fact, Library, Part, Step
from assistant.flow.place import flows_folder
from assistant.sitting.sitting import open_sitting
from tests.answers.reading_times import reading_times
from tests.book.exchange_growth import exchange_growth
from tests.book.growth import FEW, MANY, growth
from tests.script.running import world
from tests.script.test_answers import STORY

PAIRS = 11
ROOT = Path(__file__).parents[1]
SECOND_QUESTION = "How does seed leave the box?"
FIRST_QUESTION = "What do you call this drill?"
BARE_PROMPT = f"""
print({FIRST_QUESTION!r}, flush=True)
from prompt_toolkit import PromptSession
PromptSession().prompt("> ")
print({SECOND_QUESTION!r}, flush=True)
import time
time.sleep(9)
"""
PROGRAM = """
import sys
sys.modules["numpy"] = None  # it comes with scipy, for the tests alone; pint would bring it in
from assistant.cli import main
sys.exit(main())
"""
BARE_START = f"print({FIRST_QUESTION!r}, flush=True); import time; time.sleep(9)"


def main() -> None:
    """Measure everything and print a small table."""
    print(f"{'':34}{'measured':>10}{'goal':>10}")
    row("first question / bare start", first_question(), "<= 6")
    row("first answer / bare prompt", first_answer(), "<= 1.15")
    row("steps of the fold / transitions", against_transitions(retold), ">= 2")
    row("whole answers / transitions", against_transitions(talked), "")
    row("replay of 160 answers / of 40", replay_growth(), "about 4")
    row("memory, 2,000 prompts / 200", memory_growth(), "about 1")
    for name, measured, goal in reading_times():
        row(name, measured, goal)
    print(f"{FEW:,} to {MANY:,} cards")
    for name, measured, goal in chain(growth(), exchange_growth(resident)):
        row(name, measured, goal)


def row(name: str, measured: float | None, goal: str) -> None:
    """One line of the table."""
    shown = "not here" if measured is None else f"{measured:.2f}"
    print(f"{name:34}{shown:>10}{goal:>10}", flush=True)


def paired(one: Callable[[], float], other: Callable[[], float], pairs: int = PAIRS) -> float:
    """The median of the ratios of two costs, measured in turn; the first pair is not counted."""
    ratios = [one() / other() for _ in range(pairs + 1)]
    return statistics.median(ratios[1:])


# -- in a pseudo-terminal ---------------------------------------------------------------------


def seen_after(command: Sequence[str], marks: Sequence[str]) -> float:
    """Seconds until the last mark is on the screen; Enter is pressed on "x" at each before it."""
    started = time.perf_counter()
    child, terminal = pty.fork()
    if child == 0:
        os.chdir(ROOT)
        os.environ["TERM"] = "xterm"
        os.execv(sys.executable, [sys.executable, *command])  # noqa: S606  a pseudo-terminal of its own
    heard = b""
    try:
        for place, mark in enumerate(marks):
            heard = read_until(terminal, mark.encode(), heard)
            if place + 1 < len(marks):
                os.write(terminal, b"x\r")
        return time.perf_counter() - started
    finally:
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        os.close(terminal)


def read_until(terminal: int, mark: bytes, heard: bytes) -> bytes:
    """All that was written up to a mark; the cursor's place is told when it is asked for."""
    while mark not in heard:
        if not select.select([terminal], [], [], 20)[0]:
            raise TimeoutError(heard.decode(errors="replace"))
        piece = os.read(terminal, 65_536)
        if b"\x1b[6n" in piece:
            os.write(terminal, b"\x1b[1;1R")
        heard += piece
    return heard


def program(folder: str) -> list[str]:
    """The command with a book of its own, made when it is first needed."""
    return ["-c", PROGRAM, "calibrate", "--book", f"{folder}/book.db"]


def first_question() -> float:
    """The first question on the screen, in bare starts of the interpreter."""
    with TemporaryDirectory() as folder:
        ours = partial(seen_after, program(folder), [FIRST_QUESTION])
        return paired(ours, partial(seen_after, ["-c", BARE_START], [FIRST_QUESTION]))


def first_answer() -> float:
    """The first answer taken, stored and the next question put, against a bare prompt script."""
    marks = [FIRST_QUESTION, SECOND_QUESTION]
    with TemporaryDirectory() as folder:
        ours = partial(seen_after, program(folder), marks)
        return paired(ours, partial(seen_after, ["-c", BARE_PROMPT], marks))


# -- steps ------------------------------------------------------------------------------------

STEPS = 20


@cache
def library() -> Library:
    """The flows that ship."""
    return load(flows_folder())


@cache
def interview(steps: int) -> Job:
    """A straight job of so many questions: names, lengths and choices in turn."""
    facts = {f"answer_{n}": question(n) for n in range(steps)}
    asked = tuple(Step(f"s{n}", "ask", (f"answer_{n}",)) for n in range(steps))
    part = Part("interview", "Interview", (*asked, Step("end", "finish", ("done",))), {})
    ours = replace(library(), facts={**library().facts, **facts}, jobs={"interview": part})
    return job_of(ours, "interview", CATALOGUE)


def question(number: int) -> Fact:
    """The fact of one question."""
    name = f"answer_{number}"
    if number % 3 == 0:
        return Fact(name, "text", name, ask=f"{name}?")
    if number % 3 == 1:
        return Fact(name, "length", name, ask=f"{name}?", us="in", metric="cm", bare=("in",))
    choices = (Choice("first", "First"), Choice("second", "Second"))
    return Fact(name, "choice", name, ask=f"{name}?", choices=choices)


ANSWERS = ("Bench", "6 ft 9 in", "2")


def talked(steps: int) -> State:
    """A whole interview."""
    job = interview(steps)
    state, _ = begin(job)
    for number in range(steps):
        state, _ = advance(job, state, Typed(ANSWERS[number % 3]))
    return state


def seconds(act: Callable[[], Any], times: int = 5) -> float:
    """How long an act takes, the fastest of a few times."""
    taken = []
    for _ in range(times):
        started = time.perf_counter()
        act()
        taken.append(time.perf_counter() - started)
    return min(taken)


def retold(steps: int) -> State:
    """The same interview as a fold: its answers were read before."""
    job = interview(steps)
    state, _ = begin(job)
    for record in records(steps):
        state, _, _ = applied(job, state, (record,))
    return state


@cache
def records(steps: int) -> tuple[Answered, ...]:
    """The records of a whole interview."""
    return tuple(Answered((entry,)) for entry in talked(steps).log.entries)


def against_transitions(ours: Callable[[int], State]) -> float | None:
    """Steps a second against a machine of the same length in `transitions`, fresh for each walk."""
    try:
        machine = importlib.import_module("transitions").Machine
    except ImportError:
        return None
    states = [f"s{n}" for n in range(STEPS + 1)]
    rules = [
        {"trigger": "answer", "source": one, "dest": other, "conditions": "fits", "after": "keep"}
        for one, other in pairwise(states)
    ]
    shared = machine(None, states=states, transitions=rules, initial="s0", auto_transitions=False)
    walked = partial(seconds, partial(walk, shared), 30)
    return paired(walked, partial(seconds, partial(ours, STEPS), 30))


class Answers:
    """What a machine of `transitions` works on: it checks and keeps each answer."""

    answer: Callable[[str], bool]
    state: str

    def __init__(self) -> None:
        self.kept: list[str] = []

    def fits(self, text: str) -> bool:
        """Whether an answer can be taken."""
        return bool(text.strip())

    def keep(self, text: str) -> None:
        """Keep an answer."""
        self.kept.append(text)


def walk(machine: Any) -> None:
    """One walk through the machine by a model of its own."""
    model = Answers()
    machine.add_model(model)
    for number in range(STEPS):
        model.answer(ANSWERS[number % 3])
    machine.remove_model(model)


def replay_growth() -> float:
    """How much longer the replay of four times the answers takes."""
    logs = {steps: talked(steps).log for steps in (40, 160)}
    return paired(
        partial(seconds, partial(replayed, interview(160), logs[160])),
        partial(seconds, partial(replayed, interview(40), logs[40])),
    )


# -- memory -----------------------------------------------------------------------------------


def memory_growth() -> float:
    """Resident memory after 2,000 prompts against that after 200, through the real loop."""
    from prompt_toolkit.input import create_pipe_input
    from prompt_toolkit.output import DummyOutput

    from assistant.terminal.reading import PromptReader
    from assistant.terminal.screen import Screen

    with TemporaryDirectory() as folder, create_pipe_input() as keys:
        reader = PromptReader(Screen(library()), source=keys, sink=DummyOutput())
        with Book.open(Path(folder) / "book.db") as book:
            job = job_of(library(), "calibrate", CATALOGUE)
            sitting, _ = open_sitting(job, book, world())
            held: dict[int, int] = {}
            for count, line in enumerate(lines(2000), 1):
                keys.send_text(line + "\r")
                sitting.hear(Typed(reader.read()))
                if count in {200, 2000}:
                    gc.collect()
                    held[count] = resident()
    return held[2000] / held[200]


def lines(count: int) -> Iterator[str]:
    """A story up to its trials, then asides and slips without end."""
    at = STORY.index("1.39 lb")
    yield from STORY[:at]
    asides = ("why", "help", "review", "dog 3", "units metric", "units us", "repeat", "12 fathoms")
    for number in range(count - at):
        yield asides[number % len(asides)]


def resident() -> int:
    """Resident memory in pages."""
    return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])


if __name__ == "__main__":
    main()
