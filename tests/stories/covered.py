"""How much of what there is the stories come to: `python -m tests.stories.covered`.

`python -m tests.stories.covered steps` names which steps are left, and so with each other line.
Tests hold what must not be left: steps and outcomes in `tests/stories/test_stories.py`, refusals in
`tests/bad_input/test_bad_input.py`.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from typing import Any
from unittest.mock import patch

from assistant.answers.expect import CODES
from assistant.calc.catalogue import CATALOGUE
from assistant.dialogue import steps
from assistant.dialogue.messages import Trouble
from assistant.dialogue.walk import Walk
from tests.histories import edges
from tests.stories import play
from tests.stories.play import job_named, library, played
from tests.stories.story import stories

Names = tuple[str, ...]

TALKED = frozenset(
    (
        *("read_back", "told_early", "told_unusual", "told_at_once", "ask", "help", "checked"),
        *("sure", "why", "ahead", "glossary", "aside", "convert", "old_card", "unknown", "later"),
        *("back", "pause", "units", "say", "resume", "recall", "review", "rows", "uses", "from"),
        *("change", "corrected", "suppose", "fits", "under", "doubt", "unusual", "shown"),
        "refused",
    )
)
"""What a conversation is made of in `flows/words.toml`; the rest is said around it."""


@dataclass(frozen=True)
class Covered:
    """Of what there is, what was come to."""

    there: AbstractSet[Names]
    come_to: AbstractSet[Names]

    @property
    def left(self) -> list[str]:
        """What no story comes to."""
        return [" ".join(each) for each in sorted(self.there - self.come_to)]

    def __str__(self) -> str:
        return f"{len(self.there & self.come_to)} of {len(self.there)}"


class Noted(dict[str, str]):
    """Words that note which of them are looked up."""

    def __init__(self, words: Mapping[str, str]) -> None:
        super().__init__(words)
        self.asked: set[Names] = set()

    def __getitem__(self, name: str) -> str:
        self.asked.add((name,))
        return super().__getitem__(name)

    def get(self, name: str, other: Any = None) -> Any:
        """The word of a name, or what stands in for it."""
        self.asked.add((name,))
        return super().get(name, other)


@dataclass
class Notes:
    """What leaves no trace in a log: words that were looked up, and how calculations came out."""

    words: Noted
    worked: set[Names] = field(default_factory=set)


@contextmanager
def noting() -> Iterator[Notes]:
    """Stories that are played meanwhile are noted."""
    notes, ran = Notes(Noted(library().words)), steps.ran
    noted = replace(library(), words=notes.words)

    def and_note(walk: Walk) -> Any:
        result = ran(walk)
        notes.worked.add((walk.node.step.what[0], result[2]))
        return result

    with (
        patch.object(play, "library", lambda: noted),
        patch.object(play, "job_named", lambda name: replace(job_named(name), library=noted)),
        patch.object(steps, "ran", and_note),
    ):
        yield notes


def covered() -> dict[str, Covered]:
    """What the stories come to, of each kind of thing that there is; none was played before."""
    with noting() as notes:
        for story in stories():
            played(story).transcript()
    places = {(job, place) for job in library().jobs for place in job_named(job).graph.nodes}
    results = {(name, outcome) for name in CATALOGUE for outcome in CATALOGUE[name].outcomes}
    words = {(name,) for name in library().words if name.partition(".")[0] in TALKED}
    return {
        "steps": Covered(edges.every_step(), edges.steps_told()),
        "places": Covered(places, edges.places_told()),
        "outcomes": Covered(edges.every(), edges.told()),
        "choices": Covered(choices(), answered()),
        "calculations": Covered({(n,) for n in CATALOGUE}, {(n,) for n, *_ in notes.worked}),
        "results": Covered(results, notes.worked),
        "refusals": Covered({(code,) for code in CODES}, refusals()),
        "words": Covered(words, notes.words.asked),
    }


def choices() -> set[Names]:
    """Every choice of every question."""
    nodes = [n for name in library().jobs for n in job_named(name).graph.nodes.values()]
    asked = {fact for node in nodes if node.step.kind == "ask" for fact in node.step.what}
    return {(fact, choice.name) for fact in asked for choice in library().facts[fact].choices}


def answered() -> set[Names]:
    """Every answer of every story, by its fact as it was declared."""
    return {
        (job_named(story.job).graph.declared.get(entry.fact, entry.fact), entry.settled)
        for story in stories()
        for state in played(story).states
        for entry in state.log.entries
    }


def refusals() -> set[Names]:
    """Every code of trouble that is told in a story."""
    said = (each for s in stories() for _, said in played(s).exchanges for each in said)
    return {(each.code,) for each in said if isinstance(each, Trouble)}


def main(names: list[str]) -> None:
    """Print the figures, and what is left of what is named."""
    for name, each in covered().items():
        print(f"{name}: {each}")
        for left in each.left if name in names else ():
            print(f"  {left}")


if __name__ == "__main__":
    main(sys.argv[1:])
