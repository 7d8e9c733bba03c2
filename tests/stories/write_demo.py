"""The demo conversations: `python -m tests.stories.write_demo` writes them anew."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.practice.learner import practice_told
from tests.stories.play import played
from tests.stories.story import stories

DEMOS = Path(__file__).parents[2] / "transcripts_demo"
PREFIX = "demo_"
PRACTICE = "A practice drill where something is off: nobody primes, somebody looks; then the truth"
LEVEL, SEED = 3, "2"


def demos() -> Iterator[tuple[str, str]]:
    """The name of each demo file and the conversation in it."""
    for story in stories():
        if story.demo:
            name = f"{story.name.removeprefix(PREFIX)}.txt"
            yield name, f"# {story.title}\n\n{played(story).transcript()}"
    yield "practice.txt", f"# {PRACTICE}\n\n{practice_told(LEVEL, SEED)}"


def main() -> None:
    """Write every demo, and leave no other there."""
    DEMOS.mkdir(exist_ok=True)
    for old in DEMOS.glob("*.txt"):
        old.unlink()
    for name, text in demos():
        (DEMOS / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
