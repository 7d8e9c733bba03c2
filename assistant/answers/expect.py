"""What a question can take, and what reading an answer can come to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from assistant.quantities.kinds import KINDS


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the named choices of a fact, with the other words that people type for it."""

    name: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Expect:
    """What one question can take.

    `bare`: the units that a number alone may mean here, best first. `names`: words that name this
    fact in a line. `many`: several values are one answer. Ranges are in SI: possible, then usual.
    `variants`: a fact that is one of several, told apart by the unit; what is settled then carries
    the variant's name. `decimal`: the tool shows decimals, so that "1.3 lb" has one reading.
    `by_unit`: in a line of several facts a value may go here by its unit alone. `as_many`: so many
    values are a whole answer, 0 where any number is. `order`: the kinds that values may be told
    with, as the fact `order_of` has them.
    """

    fact: str
    kind: str
    bare: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    many: bool = False
    least: Fraction | None = None
    most: Fraction | None = None
    usual_least: Fraction | None = None
    usual_most: Fraction | None = None
    variants: tuple[Expect, ...] = ()
    decimal: bool = False
    by_unit: bool = False
    as_many: int = 0
    order: tuple[str, ...] = ()
    order_of: str = ""

    @property
    def whole(self) -> bool:
        """Whether a part of one makes no sense: rows, seeds, teeth, bags."""
        return KINDS[self.kind].whole or self.kind == "count"


@dataclass(frozen=True, slots=True)
class Settled:
    """One value: its settled spelling and its SI value (a choice is its name, a list a tuple).

    `clear` is False where the text could have meant something else: worth a read-back.
    """

    fact: str
    settled: str
    value: float | str | tuple[float, ...]
    clear: bool = True


@dataclass(frozen=True, slots=True)
class Doubt:
    """Two or three readings that are more than 2 % apart: ask which."""

    readings: tuple[Settled, ...]


About = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Refusal:
    """A named problem. `heard` is what was typed, shortened; `about` holds names and values."""

    code: str
    heard: str = ""
    about: About = ()


Reading = Settled | Doubt | Refusal

CODES = frozenset(
    (
        *("empty", "too_long", "control", "many_lines", "not_a_number", "no_number", "no_unit"),
        *("unit_of_another_kind", "unknown_unit", "unit_varies", "volume", "bags", "bushels"),
        *("two_numbers", "list", "too_many", "range", "about", "part_of_full", "date"),
        *("zero", "negative", "not_whole", "percent_over_100", "too_small", "too_big"),
        *(
            "not_finite",
            "division_by_zero",
            "doubled_mark",
            "letter_in_number",
            "unknown_choice",
            "not_understood",
            "kinds",
        ),
    )
)
"""Every code that a refusal can have."""


@dataclass(frozen=True, slots=True)
class Unusual:
    """A possible value outside its usual range, and the likeliest slip that would be usual."""

    likely: Settled | None = None
    about: About = ()


@dataclass(frozen=True, slots=True)
class Line:
    """What was found in one line: for the question itself, told early, and what was not used."""

    found: Mapping[str, Settled] = field(default_factory=dict)
    doubts: Mapping[str, Doubt] = field(default_factory=dict)
    refused: Mapping[str, Refusal] = field(default_factory=dict)
    early: Mapping[str, Settled] = field(default_factory=dict)
    unused: str = ""


class Trouble(Exception):  # noqa: N818  # a plain case, caught in `read`, not a fault
    """Why a text can not be read; `read` turns it into a Refusal."""

    def __init__(self, code: str, *about: tuple[str, str]) -> None:
        super().__init__(code)
        self.code = code
        self.about: About = about
