"""The best way to cut a line into pieces, each for one fact: a search that takes the cheapest.

A line is short, so every sensible cut is tried, with what was found out kept.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from assistant.answers.evidence import Told, early, its_name, opens_with_its_fact
from assistant.answers.expect import Doubt, Expect, Line, Reading, Refusal, Settled
from assistant.answers.fit import is_possible
from assistant.answers.listing import alike
from assistant.answers.pieces import AT, JOINS, ends_in_word, piece
from assistant.answers.rank import is_usual
from assistant.answers.read import read
from assistant.answers.slips import variant
from assistant.answers.unit_words import ABOUT, UNITS
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import members

LONGEST_PIECE = 8
_FRACTION = re.compile(r"\d{1,2}/(?:2|4|8|16|32)(?!\d)")

NO_WAY = 1_000_000  # words that can not be left
MISSING = 200  # a question without an answer
REFUSED = 250  # a piece for a question that can not read it
REFUSED_BY_NAME = 40  # the same for a question that it names: "0 turns"
UNUSED = 120  # a word that tells nothing
ROUGH = 180  # the same for one that says that the number behind it was not counted
PARTED = 210  # the same for a name whose value is taken otherwise: "lot 12" is no 12 rows
NAMED_OTHERWISE = 40  # a piece that names another fact
COMMA_INSIDE = 6
DOUBTED = 6
NO_SUCH = 3  # a value out of the possible range
SWAPPED = 6  # not in the order asked, and nothing tells which is which
UNCLEAR = 2
PIECE = 1

NO_SUCH_VALUE = frozenset(
    ("zero", "negative", "not_whole", "percent_over_100", "too_small", "too_big", "not_finite")
)
"""Refusals of a value that was read: the piece is for this question, even in front of a line."""


def are_rows(expect: Expect, told: Settled) -> bool:
    """Whether values are one for each row caught: as many, near to each other, each a usual one."""
    if values(told) != expect.as_many or not isinstance(told.value, tuple):
        return False
    return alike(told.value) and all(is_usual(expect, each) for each in members(told.settled) or ())


@dataclass(frozen=True, slots=True)
class Cut:
    """One way to cut a line: its cost, what its pieces tell, and the words that tell nothing."""

    cost: int = 0
    told: tuple[Told, ...] = ()
    unused: tuple[str, ...] = ()

    def plus(self, cost: int, *told: Told, unused: tuple[str, ...] = ()) -> Cut:
        """This cut with one more piece in front."""
        return Cut(self.cost + cost, told + self.told, unused + self.unused)

    def line(self) -> Line:
        """What the cut found, by fact."""
        asked = [each for each in self.told if not each.early]
        return Line(
            found={t.fact: t.reading for t in asked if isinstance(t.reading, Settled)},
            doubts={t.fact: t.reading for t in asked if isinstance(t.reading, Doubt)},
            refused={t.fact: t.reading for t in asked if isinstance(t.reading, Refusal)},
            early={
                t.fact: t.reading for t in self.told if t.early and isinstance(t.reading, Settled)
            },
            unused=piece(self.unused),
        )


def best_cut(
    expects: Sequence[Expect],
    words: Sequence[str],
    others: Sequence[Expect],
    proposed: frozenset[str],
) -> Cut | None:
    """The cheapest cut of these words, None if there is none; of equals the one in order."""
    return _sound(_Search(expects, words, others, proposed).best(0, frozenset(), -1, apart=False))


def _sound(cut: Cut) -> Cut | None:
    return cut if cut.cost < NO_WAY else None


def rest_of_line(
    name: Expect, words: Sequence[str], others: Sequence[Expect]
) -> Callable[[int], Cut | None]:
    """How a line is cut whose first words, up to a place, are a name; None if they are no name.

    One search serves every place: the ends of the line are the same.
    """
    search = _Search((name,), words, others, frozenset())

    def cut_at(end: int) -> Cut | None:
        text = piece(words[:end])
        if not text:
            return None
        rest = search.best(end, frozenset((name.fact,)), 0, apart=True)
        return _sound(rest.plus(PIECE, Told(name.fact, read(name, text))))

    return cut_at


def _parts_value(text: str, rest: Sequence[str]) -> bool:
    """Whether a cut after this text would part a number from its unit, or from its fraction.

    Where names come first, a unit before another number is a name: "caught 6 turns 30". In
    "10 turns 24.5" it is the unit of the one before.
    """
    if not rest or not text[-1].isdigit():
        return False
    unit, whole = rest[0].lower(), text.rsplit(maxsplit=1)[-1]
    mixed = whole.isdecimal() and _FRACTION.match(unit) is not None
    names_next = not text[0].isdigit() and any(word[0].isdigit() for word in rest[1:2])
    return mixed or (unit in UNITS and unit not in JOINS and not names_next)


def takes_many(expect: Expect) -> bool:
    """Whether several values can be one answer."""
    return expect.many or any(each.many for each in expect.variants)


def values(reading: Reading) -> int:
    """How many values a reading is a list of, 0 where it is none."""
    first = reading.readings[0] if isinstance(reading, Doubt) else reading
    return len(members(first.settled) or ()) if isinstance(first, Settled) else 0


def _no_such_value(expect: Expect, reading: Settled) -> bool:
    """Whether a value lies out of the possible range of its fact."""
    fact = variant(expect, reading.fact)
    if KINDS[fact.kind].form == "words":
        return False
    return not all(is_possible(fact, one) for one in members(reading.settled) or (reading.settled,))


class _Search:
    """The search over one line. `at` is the next word, `taken` the facts that are told so far."""

    def __init__(
        self,
        expects: Sequence[Expect],
        words: Sequence[str],
        others: Sequence[Expect],
        proposed: frozenset[str],
    ) -> None:
        self.expects, self.words, self.others, self.proposed = expects, words, others, proposed
        self.longest = len(words) if any(e.many or e.variants for e in expects) else LONGEST_PIECE
        self.one_list = sum(takes_many(each) for each in expects) == 1  # of two, a comma parts them
        self.names = {name for each in others for name in each.names}
        self.best = lru_cache(maxsize=None)(self._best)
        self.read = lru_cache(maxsize=None)(lambda at, text: read(expects[at], text))
        self.early = lru_cache(maxsize=None)(lambda text: early(others, text))

    def _best(self, at: int, taken: frozenset[str], last: int, *, apart: bool) -> Cut:
        """The cheapest cut from `at` on.

        `last` is the question answered last, by its place; `apart` says that the piece before
        ended in a word, so that words may stay unused.
        """
        if at == len(self.words):
            return Cut(self._missing(taken))
        ways = list(self._asked(at, taken, last))
        ways += self._others(at, taken, last)
        if last >= 0:
            ways += self._rows_at_spacing(at, taken, last)
        if apart and taken:
            rest = self.best(at + 1, taken, last, apart=True)
            ways.append(rest.plus(self._left(at, rest), unused=(self.words[at],)))
        return min(ways, key=lambda cut: cut.cost, default=Cut(NO_WAY))

    def _left(self, at: int, rest: Cut) -> int:
        """What it costs to leave a word; more for a name whose value is taken for another fact."""
        value = tuple(self.words[at + 1 : at + 2])
        is_name = self.words[at].lower() in self.names
        rough = self.words[at].lower() in ABOUT
        return UNUSED + ROUGH * rough + (PARTED if is_name and rest.unused[:1] != value else 0)

    def _missing(self, taken: frozenset[str]) -> int:
        left = [each.fact for each in self.expects if each.fact not in taken]
        return sum(PIECE if fact in self.proposed else MISSING for fact in left)

    def _pieces(self, at: int) -> Iterator[tuple[int, str]]:
        for end in range(min(len(self.words), at + self.longest), at, -1):
            text = piece(self.words[at:end])
            if text and not _parts_value(text, self.words[end:]):
                yield end, text

    def _asked(self, at: int, taken: frozenset[str], last: int) -> Iterator[Cut]:
        for end, text in self._pieces(at):
            for place, expect in enumerate(self.expects):
                if expect.fact not in taken:
                    cost = self._cost(place, last, text, self.read(place, text))
                    if cost is not None:
                        next_apart = ends_in_word(text)
                        rest = self.best(end, taken | {expect.fact}, place, apart=next_apart)
                        yield rest.plus(cost, Told(expect.fact, self._reading(place, last, text)))

    def _reading(self, place: int, last: int, text: str) -> Reading:
        """What a piece is for a question, read back where it could be otherwise.

        So are a setting told out of the order asked, and two weights that may be a setting and one.
        """
        reading, setting = self.read(place, text), self.expects[place].fact in self.proposed
        out_of_order = place < last and setting
        may_be_two = values(reading) == 2 and bool(self.proposed)  # noqa: PLR2004  two facts
        if (out_of_order or may_be_two) and isinstance(reading, Settled):
            return replace(reading, clear=False)
        return reading

    def _cost(self, place: int, last: int, text: str, reading: Reading) -> int | None:
        """What it costs to take a piece for a question; None if it can not be."""
        several = values(reading)
        commas = 0 if several and self.one_list else text.split().count(",")
        cost = PIECE + COMMA_INSIDE * commas
        named = bool(its_name(self.expects[place], text))
        if not named and any(its_name(e, text) for e in (*self.expects, *self.others)):
            cost += NAMED_OTHERWISE
        if isinstance(reading, Refusal):
            value = reading.code in NO_SUCH_VALUE
            if len(self.expects) == 1 or (last < 0 and not value):
                return None
            return cost + (REFUSED_BY_NAME if value and named else REFUSED)
        if place < last and not named:
            cost += SWAPPED
        if isinstance(reading, Doubt):
            return cost + DOUBTED
        if _no_such_value(self.expects[place], reading):
            cost += NO_SUCH
        wanted = variant(self.expects[place], reading.fact)
        if several == 2 and not are_rows(wanted, reading):  # noqa: PLR2004  may be two facts
            cost += UNCLEAR
        return cost if reading.clear else cost + UNCLEAR

    def _others(self, at: int, taken: frozenset[str], last: int) -> Iterator[Cut]:
        for end, text in self._pieces(at):
            told = self.early(text)
            first = not taken and not opens_with_its_fact(self.others, text)
            if told and told.fact not in taken and not first:
                rest = self.best(end, taken | {told.fact}, last, apart=True)
                yield rest.plus(PIECE, told)

    def _rows_at_spacing(self, at: int, taken: frozenset[str], last: int) -> Iterator[Cut]:
        """`24 at 7 1/2`: a number of rows and their spacing, or the spacing after rows asked."""
        rows = next((each for each in self.others if each.kind == "rows"), None)
        spacing = [each for each in self.others if each.kind == "row_spacing"]
        if len(spacing) != 1 or spacing[0].fact in taken:
            return
        for middle in range(at, min(len(self.words), at + 4)):
            if self.words[middle].lower() not in AT:
                continue
            counted = self._rows_before(rows, at, middle, taken, last)
            for end in range(min(len(self.words), middle + 3), middle + 1, -1):
                apart = read(spacing[0], piece(self.words[middle + 1 : end]))
                if counted is not None and isinstance(apart, Settled):
                    told = (*counted, Told(spacing[0].fact, apart, early=True))
                    rest = self.best(end, taken | {each.fact for each in told}, last, apart=True)
                    yield rest.plus(PIECE, *told)

    def _rows_before(
        self, rows: Expect | None, at: int, middle: int, taken: frozenset[str], last: int
    ) -> tuple[Told, ...] | None:
        """The rows told before "at": none more if rows were just asked; None if it is no such."""
        if at == middle:
            return () if self.expects[last].kind == "rows" else None
        if rows is None or rows.fact in taken:
            return None
        count = read(rows, piece(self.words[at:middle]))
        return (Told(rows.fact, count, early=True),) if isinstance(count, Settled) else None
