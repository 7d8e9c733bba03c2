"""The plain frozen values of a flow: facts, cautions, steps and parts.

They hold what the flow files say and nothing more.
A value in a flow file is a settled spelling ("7.5 in"); it becomes a number only where it is used.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

Only = Mapping[str, Mapping[str, tuple[str, ...]]]
"""Which member counts under which choices: member, then choice fact, then names."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One named choice of a fact: its label on the screen, and what people type for it."""

    name: str
    label: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unknown:
    """What "don't know" leads to: a part that finds out, a marked guess, without, or a stop."""

    way: Literal["part", "guess", "go_without", "stop"]
    value: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Span:
    """A range: both ends as settled spellings."""

    least: str
    most: str


@dataclass(frozen=True, slots=True)
class Fact:
    """A named value with a kind, declared once; see DEVELOPERS.md for each key of a fact file."""

    name: str
    kind: str
    label: str
    brief: str = ""
    ask: str = ""
    why: str = ""
    help: str = ""
    example: str = ""
    told: str = "told"
    us: str = ""
    metric: str = ""
    bare: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    variants: Mapping[str, str] = field(default_factory=dict)
    variant_by: str = ""
    many: bool = False
    signed: bool = False
    in_hundred: bool = False
    of_doubt: bool = False
    exact: bool = False
    main: bool = False
    card: bool = False
    possible: Span | None = None
    usual: Span | None = None
    usual_near: str = ""
    usual_times: str = ""
    usual_by: str = ""
    table: str = ""
    known_words: str = ""
    by_unit: bool = False
    at_most: str = ""
    as_many: str = ""
    in_order_of: str = ""
    unknown: Unknown | None = None
    stands_at: str = ""
    half_of: str = ""
    basis: str = ""
    misses_by: str = ""
    scatters_by: str = ""
    scatters_about: str = ""
    in_step_of: str = ""
    in_unit_of: str = ""
    recall: Literal["use", "never"] = "never"
    stale_after: str = ""
    accepts: tuple[str, ...] = ()
    refuses: tuple[str, ...] = ()
    bring: tuple[str, ...] = ()
    for_scripts: bool = False


LEANS = (
    *("usual_by", "usual_near", "usual_times", "at_most", "as_many", "in_order_of"),
    *("half_of", "in_step_of", "in_unit_of", "variant_by", "scatters_by", "scatters_about"),
)
"""The keys by which one fact names another."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety reminder; one that has to be `undone` needs a list of what to put back after it."""

    name: str
    grade: Literal["stop", "mind"]
    text: str
    short: str
    source: str
    words: tuple[str, ...] = ()
    not_sure: str = ""
    only: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    of_seed: bool = False
    undone: bool = False
    bring: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Series:
    """Rows gathered over laps: its members, which count when, and what they were gathered under."""

    name: str
    members: tuple[str, ...]
    last: tuple[str, ...]
    under: tuple[str, ...] = ()
    only: Only = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Step:
    """One declared step; which of its keys are filled tells its kind."""

    id: str
    kind: str
    what: tuple[str, ...] = ()
    say: str = ""
    brief: str = ""
    next: Mapping[str, str] | str = ""
    again: bool = False
    quiet: bool = False
    propose: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    told: Mapping[str, str] = field(default_factory=dict)
    ask: str = ""
    leave: Mapping[str, str] = field(default_factory=dict)
    corrected: str = ""
    exposes: tuple[str, ...] = ()
    reads: Mapping[str, str] = field(default_factory=dict)
    sets: Mapping[str, str] = field(default_factory=dict)
    records: str = ""
    match: tuple[str, ...] = ()
    waiting: bool = False
    alias: str = ""
    carry: Mapping[str, str] = field(default_factory=dict)
    wait: bool = False
    put_back: bool = False
    card: bool = False
    state: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """The declared steps of a job, or of a part that several jobs use."""

    name: str
    title: str
    steps: tuple[Step, ...]
    gives: Mapping[str, tuple[str, ...]]
    series: Series | None = None
    file: str = ""
    state: str = ""
    takes: str = ""
    ends_within: int | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """Lines that stand together on the page to print: their look, and under which choices."""

    look: Literal["plain", "flow", "warn", "big", "check", "write"]
    lines: tuple[str, ...]
    title: str = ""
    half: bool = False
    only: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class PageLayout:
    """The card as a page to print, with `{fact}` holes."""

    lang: str
    title: str
    name: str
    guess: str
    first_half: str
    other_half: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class CardLayout:
    """The lines of the card for the lid, with `{fact}` holes.

    `after_with` holds what stands in place of `after` where a fact is known.
    """

    title: str
    outcomes: Mapping[str, str]
    dated: str
    half: str
    lines: tuple[str, ...]
    half_lines: tuple[str, ...]
    shared_lines: tuple[str, ...]
    after: tuple[str, ...]
    after_with: Mapping[str, tuple[str, ...]]
    page: PageLayout


@dataclass(frozen=True, slots=True)
class Library:
    """Everything that the flow files hold; `asides`, questions and how they are put, on demand."""

    facts: Mapping[str, Fact]
    cautions: Mapping[str, Caution]
    words: Mapping[str, str]
    commands: Mapping[str, tuple[str, ...]]
    glossary: Mapping[str, str]
    tables: Mapping[str, Mapping[str, Mapping[str, str]]]
    card: CardLayout
    jobs: Mapping[str, Part]
    parts: Mapping[str, Part]
    asides: Callable[[], tuple[Mapping[str, Any], Mapping[str, Any]]]
