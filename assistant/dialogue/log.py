"""The log of a conversation: entries, what was told early, what a book offered.

The book keeps the journal of records; the log is its fold, `Log.after` one step of that fold.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

UNKNOWN = "?"
"""What a question settles to when the person does not know and the job goes on without."""
GUESS, LATER, LAST_TIME, LAST_GUESS = "guess", "later", "last_time", "last_guess"
LENT = {LAST_TIME, LAST_GUESS}
"""What a card lent; a guess of then stays one."""
GUESSED = {GUESS, LATER, LAST_GUESS}


@dataclass(frozen=True, slots=True)
class Entry:
    """What was settled at a step. `settled` alone is replayed; `typed` is kept for people.

    `variant` names the fact that a one-of question settled, such as `row_weights` for `catch`.
    """

    place: str
    visit: int
    fact: str
    settled: str
    variant: str = ""
    typed: str = ""
    origin: str = ""
    sure: bool = False
    sitting: int = 1


@dataclass(frozen=True, slots=True)
class Told:
    """A fact told early: it waits until the step that asks it is reached.

    `given` says that a script gave it: then it is used, unusual or not, and noted.
    """

    fact: str
    settled: str
    variant: str = ""
    typed: str = ""
    origin: str = ""
    sure: bool = False
    given: bool = False


@dataclass(frozen=True, slots=True)
class CardOffer:
    """A card that the book offers: its id, a line to know it by, and the facts it lends."""

    id: str
    line: str
    facts: tuple[Told, ...]


@dataclass(frozen=True, slots=True)
class Answered:
    """A person, a file or the pool settled these entries together."""

    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class GivenEarly:
    """Facts told before their step."""

    facts: tuple[Told, ...]


@dataclass(frozen=True, slots=True)
class Offered:
    """What the book answered to a fetch at a place; `match` is what its cards had to match.

    Journals of older programs do not tell that.
    """

    place: str
    visit: int
    cards: tuple[CardOffer, ...]
    match: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WentBack:
    """The entries of one question were taken back; their values are offered again."""

    place: str
    visit: int


@dataclass(frozen=True, slots=True)
class Changed:
    """An entry got another value; `fresh` are the entries of rows that were made otherwise.

    `reason` is why a finished record was corrected, in the person's words.
    """

    entry: Entry
    fresh: tuple[Entry, ...] = ()
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Struck:
    """A row of a series was dropped for a reason: all its entries go, later ones move up."""

    entries: tuple[Entry, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class WentStale:
    """Answers that may no longer hold after a pause: asked again, their values offered."""

    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Resumed:
    """The conversation went on after a pause, or moved to another part: a new sitting.

    `corrects` is the id of the finished conversation that this one was opened to correct.
    """

    corrects: str = ""


@dataclass(frozen=True, slots=True)
class UnitsSet:
    """The person chose the units that are shown."""

    system: str


@dataclass(frozen=True, slots=True)
class Began:
    """The conversation began in a system of units."""

    system: str


@dataclass(frozen=True, slots=True)
class FlowChanged:
    """The flow is another than the answers were given in: these stood at places that are gone."""

    gone: tuple[Entry, ...]


Record = (
    Began
    | FlowChanged
    | Answered
    | GivenEarly
    | Offered
    | WentBack
    | Changed
    | Struck
    | WentStale
    | Resumed
    | UnitsSet
)


@dataclass(frozen=True, slots=True)
class Log:
    """The fold of the journal. Entries match by place and visit; those that wait are here too."""

    entries: tuple[Entry, ...] = ()
    told: tuple[Told, ...] = ()
    offers: tuple[Offered, ...] = ()
    again: Mapping[tuple[str, int, str], Entry] = field(default_factory=dict)
    sitting: int = 1
    system: str = "us"
    convert: bool = False
    replaced: tuple[Entry, ...] = ()
    struck: tuple[Struck, ...] = ()
    corrects: str = ""
    corrected_from: int = 0
    reason: str = ""

    def offered(self, place: str, visit: int) -> Offered | None:
        """What the book answered last to a fetch at a place."""
        here = [each for each in self.offers if (each.place, each.visit) == (place, visit)]
        return here[-1] if here else None

    def after(self, record: Record) -> Log:
        """The log after one more record."""
        match record:
            case Began(system):
                return replace(self, system=system)
            case UnitsSet(system):
                return replace(self, system=system, convert=True)
            case Resumed(corrects):
                return self._resumed(corrects)
            case Offered():
                return replace(self, offers=(*self.offers, record))
            case Answered(entries):
                return self._answered(entries)
            case GivenEarly(facts):
                names = {told.fact for told in facts}
                return self._without(e for e in self.entries if e.fact in names).with_told(facts)
        return self._reshaped(record)

    def _reshaped(self, record: WentBack | Changed | Struck | WentStale | FlowChanged) -> Log:
        """The log after a record that takes something away."""
        match record:
            case WentBack(place, visit):
                gone = [e for e in self.entries if (e.place, e.visit) == (place, visit)]
                return self._offered_again(gone)
            case WentStale(entries):
                return self._offered_again(entries)
            case Changed(entry):
                return self._changed(record, entry)
            case FlowChanged(gone):
                told = tuple(Told(e.fact, e.settled, e.variant, e.typed, e.origin) for e in gone)
                return self._without(gone).with_told(told)
            case Struck(entries):
                left = self._without(entries).renumbered({e.place for e in entries})
                struck = (*self.struck, record)
                return replace(left, struck=struck, reason=record.reason).unreviewed()

    def _resumed(self, corrects: str) -> Log:
        sitting = self.sitting + 1
        if not corrects:
            return replace(self, sitting=sitting)
        return replace(self, sitting=sitting, corrects=corrects, corrected_from=sitting, reason="")

    def with_told(self, facts: tuple[Told, ...]) -> Log:
        """The log with more facts told early; a fact told again replaces the first."""
        names = {each.fact for each in facts}
        kept = tuple(each for each in self.told if each.fact not in names)
        again = {k: entry for k, entry in self.again.items() if entry.fact not in names}
        return replace(self, told=kept + facts, again=again)

    def _answered(self, entries: tuple[Entry, ...]) -> Log:
        keys = {key(entry) for entry in entries}
        kept = tuple(each for each in self.entries if key(each) not in keys)
        again = {k: v for k, v in self.again.items() if k not in keys}
        return replace(self, entries=kept + entries, again=again)

    def _offered_again(self, gone: Iterable[Entry]) -> Log:
        again = {**self.again, **{key(e): e for e in gone}}
        return replace(self._without(gone), again=again).unreviewed()

    def _changed(self, record: Changed, entry: Entry) -> Log:
        if record.reason:
            return replace(self, reason=record.reason).after(replace(record, reason=""))
        if record.fresh:
            return self._without(record.fresh).after(Changed(entry))
        at = next((n for n, e in enumerate(self.entries) if key(e) == key(entry)), None)
        if at is None:
            return replace(self, entries=(*self.entries, entry)).unreviewed()
        entries = (*self.entries[:at], entry, *self.entries[at + 1 :])
        log = replace(self, entries=entries, replaced=(*self.replaced, self.entries[at]))
        return log.unreviewed()

    def _without(self, gone: Iterable[Entry]) -> Log:
        keys = {key(entry) for entry in gone}
        return replace(self, entries=tuple(e for e in self.entries if key(e) not in keys))

    def renumbered(self, places: set[str]) -> Log:
        """Give the entries at these places their visits anew, in order, closing the gaps."""
        order = {
            place: {v: n + 1 for n, v in enumerate(sorted(self._visits(place)))} for place in places
        }
        entries = tuple(
            replace(e, visit=order[e.place][e.visit]) if e.place in order else e
            for e in self.entries
        )
        return replace(self, entries=entries)

    def _visits(self, place: str) -> set[int]:
        return {e.visit for e in self.entries if e.place == place}

    def unreviewed(self) -> Log:
        """A review's "right" never survives a change."""
        return replace(self, entries=tuple(e for e in self.entries if e.fact != REVIEW))


REVIEW = "!review"


def key(entry: Entry) -> tuple[str, int, str]:
    """What an entry is matched by."""
    return (entry.place, entry.visit, entry.fact)


def fold(records: Iterable[Record], start: Log | None = None) -> Log:
    """The log of a whole journal."""
    log = start or Log()
    for record in records:
        log = log.after(record)
    return log
