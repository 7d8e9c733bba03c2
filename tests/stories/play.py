"""A story played: the real job, a book in memory, a clock that stands, ids that count."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count

from assistant.book.ids import CHANCE_BYTES
from assistant.book.nobook import NoBook
from assistant.calc.catalogue import CATALOGUE
from assistant.checking.shipped import shipped_usual
from assistant.dialogue.events import Typed
from assistant.dialogue.job import Job, State, job_of
from assistant.dialogue.messages import Message
from assistant.dialogue.questions import caution_word
from assistant.flow.load import load
from assistant.flow.model import Library
from assistant.flow.place import flows_folder
from assistant.sitting.ahead import with_ahead
from assistant.sitting.plain_text import lines_of
from assistant.sitting.saying import SHORT
from assistant.sitting.sitting import Sitting, corrected, go_on, open_sitting
from assistant.sitting.world import World
from tests.stories.story import FOLDER, Story, read_story

WIDTH = 72
SPEAKER, PERSON = "Assistant  ", "You        "


@cache
def library() -> Library:
    """The flows that ship."""
    return load(flows_folder())


@cache
def job_named(name: str) -> Job:
    """A job that ships."""
    return job_of(library(), name, CATALOGUE)


def calibrate() -> Job:
    """The main job."""
    return job_named("calibrate")


def world(springs: int = 0) -> World:
    """A morning in spring, so many springs later; each look at the clock is a minute later."""
    minutes, numbers = count(), count(1)
    start = datetime(2026 + springs, 4, 14, 7, 30, tzinfo=UTC)
    return World(
        clock=lambda: start + timedelta(minutes=next(minutes)),
        chance=lambda size: next(numbers).to_bytes(CHANCE_BYTES, "big").ljust(size, b"-"),
    )


@dataclass
class Played:
    """What came of a story: the sitting, its book, and each exchange."""

    sitting: Sitting
    book: NoBook
    exchanges: list[tuple[str | None, tuple[Message, ...]]] = field(default_factory=list)
    states: list[State] = field(default_factory=list)
    prompts: int = 0

    def hear(self, text: str) -> None:
        """One typed line, and what is said to it."""
        said = self.sitting.hear(Typed(text))
        self.prompts += 1
        self.exchanges.append((text, said))
        self.states.append(self.sitting.state)

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


@cache
def played(story: Story) -> Played:
    """A story played to its end, once for all tests that only look at it."""
    return play(story)


def play(story: Story, *, resume_everywhere: bool = False, say: str = "") -> Played:
    """Play a story; `say` is how much is said, if not as much as the story has it.

    With `resume_everywhere` the window is closed after each line, and what a new sitting asks
    before it goes on (cautions, in the main) is answered.
    """
    book = book_after(story.after)
    outside = world(_springs(story))
    sitting, said = open_sitting(job_named(story.job), book, outside, system=story.units)
    level = say or story.say
    said = sitting.saying.begun(level, said)
    if level != SHORT:
        said = with_ahead(sitting.job, shipped_usual(flows_folder())[story.job], said)
    told = Played(sitting, book)
    told.exchanges.append((None, said))
    for kind, text in story.moves:
        if kind == "!":
            told.exchanges.append((AGAIN[text], _opened_again(told, outside, text)))
            continue
        if resume_everywhere and told.sitting.state.moment is None:
            _opened_again(told, outside, "closed")
            _past_guards(told)
        told.hear(text)
    return told


AGAIN = {
    "closed": "(the window is closed; later: drillside resume)",
    "corrected": "(later, with the number of the card: drillside resume)",
}


def _past_guards(told: Played) -> None:
    """Answer the cautions that a new sitting repeats."""
    while (open_ := told.sitting.state.situation.open) and open_.kind == "guard":
        word = caution_word(told.sitting.job, told.sitting.state, open_)
        told.sitting.hear(Typed(word))


def _opened_again(told: Played, outside: World, how: str) -> tuple[Message, ...]:
    talk = told.book.talk(told.sitting.id)
    if talk is None:  # closed before the first answer: nothing is kept
        return ()
    again = corrected if how == "corrected" else go_on
    level = told.sitting.saying.level
    told.sitting, said = again(told.sitting.job, told.book, outside, talk)
    return told.sitting.saying.begun(level, said)


def book_after(name: str) -> NoBook:
    """A book of its own that holds what the book of a story holds; an empty one without a name."""
    book = NoBook()
    if name:
        played(_named(name)).book.store.backup(book.store)
    return book


def _springs(story: Story) -> int:
    return _springs(_named(story.after)) + 1 if story.after else 0


@cache
def _named(name: str) -> Story:
    return read_story(FOLDER / f"{name}.txt")
