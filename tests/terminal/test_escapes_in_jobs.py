"""No text told to a job that ships drives the terminal: its names, and a person's reasons.

Each is told all dangerous signs at once, and a part of the corpus. (The tests of a small job, in
test_escapes.py, tell it every sequence alone.)
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.cli import main
from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State
from assistant.sitting.sitting import open_sitting
from assistant.terminal.screen import Screen
from tests.book.samples import a_card, a_talk
from tests.stories.play import book_after, job_named, library, play, played, world
from tests.stories.story import FOLDER, Story, read_story
from tests.terminal.escapes import CHUNKS, RAW, harmless

Out = pytest.CaptureFixture[str]
ENDS = {"\n", "\r", "\u2028", "\u2029"}  # a text with these is no line, and refused for that
POISONS = ("".join(sorted(RAW - ENDS)), *CHUNKS[::3])
WHY = "it slipped"


ASKED: dict[str, dict[str, tuple[str, ...]]] = {
    "fluted_pounds": {"drill": ("drill",), "crop": ("crop", "lot")},
    "air_electric": {"drill": ("drill",), "tank": ("tank",), "crop": ("crop", "lot")},
    "mix_by_weight": {"mix_of": ("mix_of",)},
}
"""Stories that are asked for a text, and the texts that each such question takes."""
OFF_A_CARD = {"recheck": {"drill"}}
"""What a job would ask for if its card did not tell it, as each card does."""


def test_every_text_that_a_job_asks_is_told(capsys: Out) -> None:
    for name, questions in ASKED.items():
        job = job_named(story_of(name).job)
        for fact in questions:
            for poison in POISONS:
                tell(job, asked(name, fact), [poison, f"barn {poison}", "yes", "review"], capsys)


def test_no_job_asks_for_another_text() -> None:
    told: dict[str, set[str]] = {}
    for name, questions in ASKED.items():
        told.setdefault(story_of(name).job, set()).update(*questions.values())
    for name in library().jobs:
        assert texts_asked(job_named(name)) == told.get(name, OFF_A_CARD.get(name, set())), name


def texts_asked(job: Job) -> set[str]:
    """The texts that a job asks a person for; a quiet step asks nobody."""
    steps = (node for node in job.graph.nodes.values() if node.step.kind == "ask")
    asked = {fact for node in steps if not node.step.quiet for fact in node.facts}
    return {fact for fact in asked if job.fact(fact).kind == "text"}


@pytest.mark.parametrize("poison", POISONS[:2], ids=["all signs", "some"])
@pytest.mark.parametrize(
    ("name", "line", "reason"),
    [
        ("struck_row", "drop the bag fell off", f"drop {WHY} {{}}"),
        ("corrected_germination", "yes", f"{WHY} {{}}"),
    ],
)
def test_a_reason(name: str, line: str, reason: str, poison: str, capsys: Out) -> None:
    story = story_of(name)
    assert story.moves.count((">", line)) == 1
    moves = ((kind, reason.format(poison) if text == line else text) for kind, text in story.moves)
    told = play(replace(story, moves=tuple(moves)))
    screen = Screen(library())
    for _, said in told.exchanges:
        screen.show(said)
    screen.lines(told.sitting.card.split("\n"))
    shown = capsys.readouterr().out
    assert WHY in shown
    assert harmless(shown)


def test_a_note(tmp_path: Path, capsys: Out) -> None:
    file = tmp_path / "book.db"
    with Book.open(file) as book:
        talk = a_talk()
        book.start(talk)
        book.finish(a_card(talk))
    for poison in POISONS:
        words = poison.replace("\0", "")
        assert main(["book", "note", "1", "--book", str(file), "--", f"deep {words}"]) == 0
    main(["book", "show", "1", "--book", str(file)])
    main(["book", "find", "deep", "--book", str(file)])
    out = capsys.readouterr().out
    assert out.count("deep") >= len(POISONS)
    assert harmless(out)


def tell(job: Job, state: State, lines: list[str], capsys: Out) -> None:
    """Type lines from a state on: what is shown is harmless, and so is each answer kept."""
    screen = Screen(job.library)
    for line in lines:
        state, reply = advance(job, state, Typed(line))
        screen.show(reply.messages)
    assert harmless(capsys.readouterr().out)
    assert all(entry.settled.isprintable() for entry in state.log.entries)


def story_of(name: str) -> Story:
    return read_story(FOLDER / f"{name}.txt")


def begun(story: Story) -> tuple[State, ...]:
    """The states of a story from its first question on."""
    first, _ = open_sitting(job_named(story.job), book_after(story.after), world())
    return (first.state, *played(story).states)


def asked(name: str, fact: str) -> State:
    """Where a story is asked for a fact."""
    return next(
        state
        for state in begun(story_of(name))
        if state.situation.open and fact in state.situation.open.facts
    )
