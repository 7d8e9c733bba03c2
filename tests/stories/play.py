"""A story played: the real job, a book in memory, a clock that stands, ids that count."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count

from assistant.book.nobook import NoBook
from assistant.calc.catalogue import CATALOGUE
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State, job_of
from assistant.dialogue.messages import Message
from assistant.dialogue.questions import caution_word
from assistant.flow.load import load
from assistant.flow.model import Library
from assistant.flow.place import flows_folder
from assistant.sitting.plain_text import lines_of
from assistant.sitting.sitting import Sitting, World, go_on, open_sitting
from tests.stories.story import FOLDER, Story, read_story

WIDTH = 72
SPEAKER, PERSON = "Assistant  ", "You        "


@cache
def library() -> Library:
    """The flows that ship."""
    return load(flows_folder())


@cache
def calibrate() -> Job:
    """The main job."""
    return job_of(library(), "calibrate", CATALOGUE)


def world() -> World:
    """A morning in spring; each look at the clock is a minute later."""
    minutes, numbers = count(), count(1)
    start = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)
    return World(
        clock=lambda: start + timedelta(minutes=next(minutes)),
        chance=lambda size: next(numbers).to_bytes(size, "big"),
    )


@dataclass
class Played:
    """What came of a story: the sitting, its book, and each exchange."""

    sitting: Sitting
    book: NoBook
    exchanges: list[tuple[str | None, tuple[Message, ...]]] = field(default_factory=list)
    states: list[State] = field(default_factory=list)
    prompts: int = 0

    def transcript(self) -> str:
        """The whole conversation as a person saw it."""
        lines: list[str] = []
        for typed, said in self.exchanges:
            if typed is not None:
                lines.append((PERSON + typed).rstrip())
            lines += _indented(_lines(said))
        if self.sitting.card:
            lines += ["", *self.sitting.card.split("\n")]
        return "\n".join(lines) + "\n"

    def heard(self) -> str:
        """All that was said, as one text without line breaks."""
        return " ".join(line for _, said in self.exchanges for line in _lines(said))


def _lines(said: tuple[Message, ...]) -> list[str]:
    width = WIDTH - len(SPEAKER)
    return [line for message in said for line in lines_of(library(), message, width)]


def _indented(lines: list[str]) -> Iterator[str]:
    for at, line in enumerate(lines):
        yield ((SPEAKER if at == 0 else " " * len(SPEAKER)) + line).rstrip()


def play(story: Story, *, lines: int | None = None, resume_everywhere: bool = False) -> Played:
    """Play a story, to its last line or to the one given.

    With `resume_everywhere` the window is closed after each line, and what a new sitting asks
    before it goes on (cautions, in the main) is answered.
    """
    book = _book_of(story)
    outside = world()
    sitting, said = open_sitting(calibrate(), book, outside, system=story.units)
    played = Played(sitting, book)
    played.exchanges.append((None, said))
    for kind, text in story.moves[:lines]:
        if kind == "!":
            played.exchanges.append((CLOSED, _again(played, outside)))
            continue
        if resume_everywhere and played.sitting.state.moment is None:
            _again(played, outside)
            _past_guards(played)
        said = played.sitting.hear(Typed(text))
        played.prompts += 1
        played.exchanges.append((text, said))
        played.states.append(played.sitting.state)
    return played


CLOSED = "(the window is closed; later: drillside resume)"


def _past_guards(played: Played) -> None:
    """Answer the cautions that a new sitting repeats."""
    while (open_ := played.sitting.state.situation.open) and open_.kind == "guard":
        word = caution_word(calibrate(), played.sitting.state, open_)
        played.sitting.hear(Typed(word))


def _again(played: Played, outside: World) -> tuple[Message, ...]:
    talk = played.book.talk(played.sitting.id)
    if talk is None:  # closed before the first answer: nothing is kept
        return ()
    played.sitting, said = go_on(calibrate(), played.book, outside, talk)
    return said


def _book_of(story: Story) -> NoBook:
    if not story.after:
        return NoBook()
    return play(read_story(FOLDER / f"{story.after}.txt")).book
