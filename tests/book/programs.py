"""Several programs on one book at the same time, each in a process of its own."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

# Opens, writes, reads and closes the book again and again; says what went wrong. It has more
# patience than a person: in a crowd, SQLite lets some wait long, but refuses none at once.
BUSY = """
import sys
from pathlib import Path
from assistant.book.book import Book
from assistant.book.problems import BookProblem
from tests.book.samples import a_talk, at, made_id

path, number, turns = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
for turn in range(turns):
    try:
        with Book.open(path, patience=60) as book:
            if not turn:
                book.start(a_talk(number))
            book.append(made_id(number), [("answered", {"turn": turn})], at(turn))
            book.unfinished()
    except BookProblem as problem:
        print(problem.code, repr(problem.__cause__))
"""

# Waits for a line, then tries to have a conversation; says whether it has, or who has it.
EAGER = """
import sys
from pathlib import Path
from assistant.book.book import Book
from assistant.book.holding import me
from tests.book.samples import at, made_id

with Book.open(Path(sys.argv[1])) as book:
    print("ready", flush=True)
    sys.stdin.readline()
    other = book.hold(made_id(1), me(), at(1))
    print(f"other {other.who}" if other else f"mine {me()}")
"""


def started(script: str, path: Path, *words: int) -> subprocess.Popen[str]:
    """A program that runs."""
    return subprocess.Popen(
        [sys.executable, "-c", script, str(path), *map(str, words)],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )


def busy_together(path: Path, programs: int, turns: int) -> list[str]:
    """Lets so many programs write at once, each in a conversation of its own; what they said."""
    running = [started(BUSY, path, number, turns) for number in range(1, programs + 1)]
    return [program.communicate()[0] for program in running]


def eager_together(path: Path, programs: int) -> list[str]:
    """Lets so many programs ask for one conversation at once; what each said."""
    running = [started(EAGER, path) for _ in range(programs)]
    for program in running:
        assert program.stdout
        assert program.stdout.readline() == "ready\n"
    for program in running:
        assert program.stdin
        program.stdin.write("\n")
        program.stdin.flush()
    return [program.communicate()[0].strip() for program in running]
