"""The shape of each kind of flow file: which keys it may hold, and of which type.

`assistant.flow.model` holds the same keys as plain values; a test holds the two equal.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Text = Annotated[str, Field(min_length=1)]
Plain = Annotated[str, Field(pattern=r"^[^{}]+$")]  # a text without holes
Texts = Annotated[list[Text], Field(min_length=1)]
Names = dict[str, Text]
Target = Text | Names
Ends = Annotated[list[Text], Field(min_length=2, max_length=2)]
Under = dict[str, Texts]


class Shape(BaseModel):
    """A table that takes the keys it names, of just these types, and no others."""

    model_config = ConfigDict(extra="forbid", strict=True)


class ChoiceShape(Shape):
    """One choice of a fact."""

    name: Text
    label: Text
    words: list[Text] = []


class FindOut(Shape):
    """A part that finds out what a person does not know."""

    part: Text


class Guess(Shape):
    """What stands in for what a person does not know."""

    guess: Text


class FactShape(Shape):
    """One fact of `facts/` or `limits.toml`."""

    kind: Text
    label: Text
    brief: Plain = ""
    ask: Text = ""
    why: Text = ""
    help: Text = ""
    example: Text = ""
    told: Text = "told"
    us: Text = ""
    metric: Text = ""
    bare: list[Text] = []
    names: list[Text] = []
    choices: list[ChoiceShape] = []
    variants: Names = {}
    variant_by: Text = ""
    many: bool = False
    signed: bool = False
    in_hundred: bool = False
    of_doubt: bool = False
    exact: bool = False
    main: bool = False
    card: bool = False
    possible: Ends = []
    usual: Ends = []
    usual_near: Text = ""
    usual_times: Text = ""
    usual_by: Text = ""
    table: Text = ""
    known_words: Text = ""
    by_unit: bool = False
    at_most: Text = ""
    as_many: Text = ""
    in_order_of: Text = ""
    unknown: Literal["go_without", "stop"] | FindOut | Guess = "stop"
    unknown_says: Text = ""
    stands_at: Text = ""
    half_of: Text = ""
    basis: Text = ""
    misses_by: Text = ""
    scatters_by: Text = ""
    scatters_about: Text = ""
    in_step_of: Text = ""
    in_unit_of: Text = ""
    recall: Literal["use", "never"] = "never"
    stale_after: Text = ""
    accepts: list[Text] = []
    refuses: list[Text] = []
    bring: list[Text] = []
    for_scripts: bool = False


class CautionShape(Shape):
    """One caution of `cautions.toml`."""

    grade: Literal["stop", "mind"]
    text: Text
    short: Text
    source: Text
    words: list[Text] = []
    not_sure: Text = ""
    only: Under = {}
    of_seed: bool = False
    undone: bool = False
    bring: list[Text] = []


class PartHead(Shape):
    """The head of a job or part."""

    title: Text
    gives: dict[str, list[Text]] = {}
    state: Plain = ""
    takes: Plain = ""
    ends_within: Annotated[int, Field(ge=1)] | None = None


class SeriesShape(Shape):
    """The series that a part gathers."""

    name: Text
    members: Texts
    last: Texts
    under: list[Text] = []
    only: dict[str, Under] = {}


class Step(Shape):
    """What every step has."""

    id: Text


class Ask(Step):
    """Asks one fact, or a few that people say together."""

    ask: Text | Texts
    question: Text = ""
    say: Text = ""
    brief: Text = ""
    next: Target = ""
    again: bool = False
    quiet: bool = False
    propose: Under = {}
    told: Names = {}
    leave: Names = {}
    corrected: Text = ""
    exposes: list[Text] = []
    state: Plain = ""


class WorkOut(Step):
    """Runs a calculation."""

    work_out: Text
    say: Text = ""
    brief: Text = ""
    next: Target = ""
    reads: Names = {}
    sets: Names = {}
    records: Text = ""


class Say(Step):
    """Says a text; it may wait until something is done."""

    say: Text
    brief: Text = ""
    next: Text = ""
    wait: bool = False
    put_back: bool = False
    leave: Names = {}
    exposes: list[Text] = []
    state: Plain = ""


class CautionStep(Step):
    """Shows a caution, after a list that it passes together with."""

    caution: Text
    say: Text = ""
    exposes: list[Text] = []
    next: Text = ""
    state: Plain = ""


class Recall(Step):
    """Offers cards of the book; a quiet one takes the newest that fits.

    With `waiting` it offers jobs that wait, where they know the first fact already.
    """

    recall: Texts
    waiting: bool = False
    match: list[Text] = []
    reads: Names = {}
    quiet: bool = False
    next: Target = ""


class Use(Step):
    """Uses a part."""

    use: Text
    as_: Text = Field("", alias="as")
    carry: Names = {}
    next: Target = ""


class Split(Step):
    """Goes by a choice made earlier."""

    split: Text
    next: Names


class Finish(Step):
    """Ends a part or a job."""

    finish: Text
    card: bool = False
    say: Text = ""


STEPS: dict[str, type[Step]] = {
    "ask": Ask,
    "work_out": WorkOut,
    "caution": CautionStep,
    "recall": Recall,
    "use": Use,
    "split": Split,
    "finish": Finish,
    "say": Say,
}
"""The shape of a step by the one key that tells its kind; "say" is the kind of a step without."""
