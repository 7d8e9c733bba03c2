"""The shape of files of texts: the card, sentences of findings, plain questions, plain rules."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from assistant.flowfile.shape import Plain, Shape, Text, Texts, Under


class BlockShape(Shape):
    """Lines that stand together on the page to print."""

    look: Literal["plain", "flow", "warn", "big", "check", "write"]
    lines: Texts
    title: Text = ""
    half: bool = False
    only: Under = Field(default_factory=dict)


class PageShape(Shape):
    """The page to print."""

    lang: Text
    title: Text
    name: Text
    guess: Text
    first_half: Text
    other_half: Text
    block: Annotated[list[BlockShape], Field(min_length=1)]


class CardShape(Shape):
    """The whole of `card.toml`."""

    title: Text
    proven: Text
    one_catch: Text
    worked_out: Text
    dated: Text
    half: Text
    lines: Texts
    half_lines: Texts
    shared_lines: Texts
    after: Texts
    after_with: dict[str, Texts] = Field(default_factory=dict)
    page: PageShape


class SentenceShape(Shape):
    """What a finding says, its cure, and what stands for the cure where a name looks mistyped."""

    says: Text
    cure: Text
    near: Text = ""


class QuestionShape(Shape):
    """A plain question of `questions/`: what it is about, how it is asked, its answer and basis."""

    about: Plain
    asked: Texts
    answer: Text
    before: Plain = ""
    basis: Text


class AskingShape(Shape):
    """The whole of `asking.toml`."""

    opens: Texts
    inside: Texts
    elsewhere: Texts
    vague: Texts
    same: dict[str, Texts]


class MostShape(Shape):
    """The most of each measure of a text."""

    grade: int
    ungraded: int
    sentence: int
    question: int
    line: int


class PlainShape(Shape):
    """The whole of `plain.toml`: how the texts on the screen are written."""

    avoid: Texts
    at_most: MostShape
    one_name: dict[str, Texts]
    leave: dict[str, Texts] = Field(default_factory=dict)
