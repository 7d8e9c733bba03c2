"""What the check of flows costs: `python -m tests.checking.growth`. No test, so no verdict.

The flows that ship, then made ones of 10, 100 and 1,000 steps in four shapes, each written to files
and judged whole, in seconds of this process. As many milliseconds a step in each size is linear.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from assistant.checking.check import check
from assistant.checking.judge import findings
from assistant.flow.place import flows_folder
from assistant.flowfile.gate import shape_faults
from tests.flowfile.small import CALCULATIONS, written

SIZES = (10, 100, 1000)
STEPS_IN_PART = 10
TIMES = 3


def main() -> None:
    """Measure, and print a small table."""
    started = time.process_time()
    assert findings(flows_folder()) == []
    print(f"{'the flows that ship':24}{time.process_time() - started:18.2f} s")
    alone = with_made(lambda _: iter(()), 0)
    print(f"{'small ones alone':24}{alone:18.2f} s")
    for shape in (told, asked, branched, in_parts):
        for steps in SIZES:
            more = with_made(shape, steps) - alone
            each = 1000 * more / steps
            print(f"{shape.__name__:24}{steps:8,}{more:10.2f} s{each:8.1f} ms a step", flush=True)


def with_made(shape: Shape, steps: int) -> float:
    """The seconds that the check of the small flows takes with a made job beside theirs."""
    with TemporaryDirectory() as folder:
        flows = written(Path(folder))
        for name, text in shape(steps):
            (flows / name).write_text(text, encoding="utf-8")
        return judged(flows)


def judged(folder: Path) -> float:
    """The seconds of a whole judgement, the fastest of a few; the flows must be sound."""
    taken = []
    for _ in range(TIMES):
        started = time.process_time()
        found = shape_faults(folder) or check(folder, CALCULATIONS)
        taken.append(time.process_time() - started)
        assert found == [], found[:3]
    return min(taken)


# -- made flows ----------------------------------------------------------------------------------

Shape = Callable[[int], Iterator[tuple[str, str]]]


def told(steps: int) -> Iterator[tuple[str, str]]:
    """A straight job that only tells: nothing new is known at any step."""
    yield "jobs/made.toml", HEAD + "".join(say(f"s{n}") for n in range(steps)) + END


def asked(steps: int) -> Iterator[tuple[str, str]]:
    """A straight job in which every step asks a fact of its own."""
    yield "facts/made.toml", "".join(fact(f"made_{n}") for n in range(steps))
    yield "jobs/made.toml", HEAD + "".join(ask(f"s{n}", f"made_{n}") for n in range(steps)) + END


def branched(steps: int) -> Iterator[tuple[str, str]]:
    """Forks that join again: a choice, and a text on either side; each has its own fact."""
    forks = range(steps // 3)
    yield "facts/made.toml", "".join(choice(f"made_{n}") for n in forks)
    yield "jobs/made.toml", HEAD + "".join(fork(n, len(forks)) for n in forks) + END


def in_parts(steps: int) -> Iterator[tuple[str, str]]:
    """A job of parts, each of which asks ten facts and gives the last."""
    parts = range(max(1, steps // STEPS_IN_PART))
    yield "facts/made.toml", "".join(fact(f"made_{n}") for n in range(len(parts) * STEPS_IN_PART))
    for part in parts:
        facts = [f"made_{part * STEPS_IN_PART + n}" for n in range(STEPS_IN_PART)]
        head = f'[part]\ntitle = "Made"\ngives = {{ done = ["{facts[-1]}"] }}\n'
        yield f"parts/made_{part}.toml", head + "".join(ask(f"ask_{f}", f) for f in facts) + END
    uses = "".join(f'\n[[step]]\nid = "s{n}"\nuse = "made_{n}"\n' for n in parts)
    yield "jobs/made.toml", HEAD + uses + END


HEAD = '[part]\ntitle = "Made"\n'
END = '\n[[step]]\nid = "end"\nfinish = "done"\n'


def say(name: str, then: str = "") -> str:
    """A step that tells."""
    onward = f'next = "{then}"\n' if then else ""
    return f'\n[[step]]\nid = "{name}"\nsay = "On it goes."\n{onward}'


def ask(name: str, about: str) -> str:
    """A step that asks."""
    return f'\n[[step]]\nid = "{name}"\nask = "{about}"\n'


def fork(number: int, of: int) -> str:
    """A choice with two ways that join again."""
    then = f"s{number + 1}" if number + 1 < of else "end"
    ways = f'next = {{ left = "l{number}", right = "r{number}" }}\n'
    asks = ask(f"s{number}", f"made_{number}")
    return asks + ways + say(f"l{number}", then) + say(f"r{number}", then)


def fact(name: str) -> str:
    """The declaration of a length."""
    return (
        f'[{name}]\nkind = "length"\nlabel = "{name}"\nask = "How long?"\nwhy = "It counts."\n'
        'help = "Lay a tape."\nexample = "12 ft"\naccepts = ["12 ft"]\nrefuses = ["12 lb"]\n'
        'us = "ft"\nmetric = "m"\nbare = ["ft"]\n'
        'possible = ["1 ft", "900 ft"]\nusual = ["2 ft", "300 ft"]\nunknown = "stop"\n'
        "for_scripts = true\n\n"
    )


def choice(name: str) -> str:
    """The declaration of a choice."""
    names = '{ name = "left", label = "Left" }, { name = "right", label = "Right" }'
    return (
        f'[{name}]\nkind = "choice"\nlabel = "{name}"\nask = "Which way?"\nwhy = "It counts."\n'
        'help = "Look."\nexample = "1"\naccepts = ["left"]\nrefuses = ["3"]\n'
        f'unknown = "stop"\nchoices = [{names}]\n\n'
    )


if __name__ == "__main__":
    main()
