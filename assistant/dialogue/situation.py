"""Where a conversation stands: what is known, the rows of each series, and the open question."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from assistant.dialogue.log import Entry, Told
from assistant.flow.model import Only

Value = float | str | tuple[float, ...]
"""A plain value: SI float, name of a choice or text, or several floats."""


@dataclass(frozen=True, slots=True)
class Known:
    """A value that is known, or known to be unknown (`value` is None).

    `settled` is its spelling when a person gave it, empty when it was worked out from `inputs`.
    `guess` says that it is a guess or rests on one.
    """

    value: Value | None
    settled: str = ""
    origin: str = ""
    guess: bool = False
    sure: bool = False
    inputs: tuple[str, ...] = ()


def never_asked(known: Known) -> bool:
    """Whether a fact is not known because nobody was asked for it."""
    return known.value is None and not known.settled


Row = Mapping[str, Known]


@dataclass(frozen=True, slots=True)
class Open:
    """What the machine waits for: the kind of question, where, and for which facts."""

    kind: str
    place: str
    visit: int
    facts: tuple[str, ...] = ()
    hazard: str = ""


@dataclass(slots=True)
class Situation:
    """The mutable working copy of one walk; `copy` before you walk on."""

    place: str
    visits: dict[str, int] = field(default_factory=dict)
    known: dict[str, Known] = field(default_factory=dict)
    rows: dict[str, tuple[Row, ...]] = field(default_factory=dict)
    partial: dict[str, dict[str, Known]] = field(default_factory=dict)
    lap: dict[str, tuple[Entry, ...]] = field(default_factory=dict)
    laps: dict[str, tuple[tuple[Entry, ...], ...]] = field(default_factory=dict)
    here: set[str] = field(default_factory=set)
    used: list[Entry] = field(default_factory=list)
    pool: dict[str, Told] = field(default_factory=dict)
    guarded: set[tuple[str, str]] = field(default_factory=set)
    open: Open | None = None
    guards: int = 0
    trail: list[tuple[str, str]] = field(default_factory=list)

    @property
    def visit(self) -> int:
        """How many times the present place has been come to."""
        return self.visits.get(self.place, 0)

    def copy(self) -> Situation:
        """A copy that can be walked on without touching this one."""
        return replace(
            self,
            visits=dict(self.visits),
            known=dict(self.known),
            rows=dict(self.rows),
            partial={name: dict(row) for name, row in self.partial.items()},
            lap=dict(self.lap),
            laps=dict(self.laps),
            here=set(self.here),
            used=list(self.used),
            pool=dict(self.pool),
            guarded=set(self.guarded),
            trail=list(self.trail),
        )

    def move(self, place: str) -> None:
        """Come to a place: one more visit."""
        self.place = place
        self.visits[place] = self.visits.get(place, 0) + 1
        self.here.clear()

    def choice(self, name: str) -> str:
        """The name of the choice that a fact stands at, empty while it is not known."""
        known = self.known.get(name)
        return str(known.value) if known and known.value is not None else ""

    def learn(self, name: str, known: Known) -> None:
        """A fact is answered: what was worked out from it is forgotten."""
        self.forget_after(name)
        self.known[name] = known

    def forget_after(self, name: str) -> None:
        """Forget all that was worked out from a fact or a series."""
        stale = [each for each, known in self.known.items() if name in known.inputs]
        for each in stale:
            if each in self.known:
                del self.known[each]
                self.forget_after(each)

    def add_row(self, series: str) -> None:
        """Every member of a row is answered."""
        self.rows[series] = (*self.rows[series], self.partial.pop(series))
        self.laps[series] = (*self.laps[series], self.lap.pop(series))
        self.forget_after(series)

    def empty(self, series: str, members: Iterable[str]) -> None:
        """The part that gathers a series is entered: it starts empty."""
        self.rows[series] = ()
        self.partial.pop(series, None)
        self.lap.pop(series, None)
        self.laps[series] = ()
        self.forget_after(series)
        for member in members:
            self.known.pop(member, None)


def counts(only: Only, member: str, situation: Situation) -> bool:
    """Whether a member counts under the choices made."""
    return holds(only.get(member, {}), situation)


def holds(under: Mapping[str, Iterable[str]], situation: Situation) -> bool:
    """Whether every choice fact named stands at one of its names."""
    return all(situation.choice(fact) in names for fact, names in under.items())
