"""Messages as plain lines: the same words on a terminal, in a pipe and in a transcript."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator

from assistant.dialogue.messages import (
    Ask,
    Finish,
    Message,
    Offer,
    Paused,
    ReadBack,
    Review,
    ReviewLine,
    Say,
    Todo,
    Trouble,
    Warn,
    Work,
)
from assistant.flow.model import Library

TOGETHER = "\N{NO-BREAK SPACE}"
UNIT_AFTER = re.compile(r"(?<=\d) (?=[a-z%])")
"""A number and its unit stay on one line."""
LISTED = re.compile(r"- |\d+ (?![a-z%])")
"""A line of a list; "6 rows" begins a sentence."""


def lines_of(library: Library, message: Message, width: int) -> list[str]:
    """One message as lines no longer than `width`; control characters are made harmless."""
    return [line for text in texts_of(library, message) for line in folded(text, width)]


def texts_of(library: Library, message: Message) -> Iterator[str]:
    """The paragraphs of a message, the question last."""
    match message:
        case Say(text) | ReadBack(text) | Trouble(_, text) | Paused(text) | Work(_, _, text):
            yield text
        case Finish():
            yield message.text
        case Todo(text, ask):
            yield from (text, ask)
        case Warn():
            yield from (message.text, message.ask)
        case Offer(text, choices, ask):
            yield from (text, *numbered(choices), ask)
        case Review():
            yield from review_lines(library, message)
        case Ask():
            yield from ask_lines(library, message)


def ask_lines(library: Library, message: Ask) -> Iterator[str]:
    """A question: its choices and what Enter takes come before its last line."""
    before, _, question = message.text.rstrip().rpartition("\n")
    if before:
        yield before
    enter = library.words["ask.enter"].replace("{proposal}", message.proposal)
    if message.choices:
        yield question
        yield from numbered(message.choices)
        yield (
            f"{library.words['ask.pick']} {enter}"
            if message.proposal
            else library.words["ask.pick"]
        )
        return
    if message.proposal:
        yield enter
    yield question


def numbered(choices: Iterable[str]) -> Iterator[str]:
    """Choices by number."""
    return (f"{number} {choice}" for number, choice in enumerate(choices, 1))


def review_lines(library: Library, review: Review) -> Iterator[str]:
    """Every value on a line, its origin after it; results after what can be changed."""
    yield library.words["review.title"]
    results = [line for line in review.lines if not line.number]
    for line in review.lines:
        if line.number:
            yield review_line(line, str(line.number))
    if results:
        yield library.words["review.worked"]
        plain = library.words["from.worked_out"]
        yield from (review_line(line, "-", plain) for line in results)
    yield review.last


def review_line(line: ReviewLine, mark: str, plain: str = "") -> str:
    """A number or a dash, what it is, its value, and where it came from unless that is plain."""
    origin = f" ({line.origin})" if line.origin not in {"", plain} else ""
    return f"{mark} {line.label}: {line.value}{origin}"


def folded(text: str, width: int) -> list[str]:
    """A text folded to a width, each of its own lines apart; lists are set in."""
    lines: list[str] = []
    for line in UNIT_AFTER.sub(TOGETHER, harmless(text).strip("\n")).split("\n"):
        indent = "  " if LISTED.match(line) else ""
        lines += textwrap.wrap(line, width, subsequent_indent=indent) or ([""] if line else [])
    return [line.replace(TOGETHER, " ") for line in lines]


def harmless(text: str) -> str:
    """The one way out for text from people, files and the environment: no control characters."""
    return "".join(c if c == "\n" or c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)
