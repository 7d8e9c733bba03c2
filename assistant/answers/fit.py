"""Which of our units a typed unit, or a number alone, can mean at one question."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from assistant.answers.expect import Expect, Trouble
from assistant.answers.phrase import Phrase, phrase
from assistant.quantities.kinds import KINDS, Kind
from assistant.quantities.settled import exact, spell
from assistant.quantities.units import same_dimension

COMPLETED = {
    ("rate", "lb"): ("lb/ac",),
    ("rate", "kg"): ("kg/ha",),
    ("live_rate", "lb"): ("lb/ac",),
    ("live_rate", "kg"): ("kg/ha",),
    ("bushel_rate", "bu"): ("bu/ac",),
    ("bulk_density", "lb"): ("lb/bu",),
    ("bulk_density", "kg"): ("kg/hL",),
    ("seeds_per_weight", "g"): ("g",),
    ("seeds_per_row_length", "seed"): ("seed/ft",),
    ("plants_per_row_length", "plant"): ("plant/ft",),
}
"""What people leave out: at a rate "80 lb" is per acre and "80 kg" per hectare."""

COUNTED_NOUNS = ("seed", "plant", "row", "turn", "mark", "tooth")
LITERAL_FROM = 1000  # from here on a bare number of seeds per weight is never short for thousands


@dataclass(frozen=True, slots=True)
class Guess:
    """One reading of a typed value.

    `sure` is False if the text could have meant another one; `stretched` marks a reading that is
    not the literal one ("12.5" for 12,500).
    """

    number: Fraction
    unit: str
    sure: bool = True
    stretched: bool = False

    def spelled(self) -> str:
        """The settled spelling."""
        return spell(self.number, self.unit)


def guesses(expect: Expect, numbers: tuple[Fraction, ...], said: str) -> list[Guess]:
    """All readings of a number (likelier first) with the unit words typed after it, or none.

    Raises: Trouble for a unit that is unknown, of another kind, or missing.
    """
    kind = KINDS[expect.kind]
    if kind.form == "percent":
        return _shares(numbers, said)
    if not said:
        return _alone(expect, kind, numbers)
    typed = phrase(said)
    units = units_for(expect, typed)
    if not units:
        raise Trouble(_why_not(typed), ("unit", said))
    return [Guess(n, unit, typed.sure) for n in numbers for unit in units]


def units_for(expect: Expect, typed: Phrase) -> tuple[str, ...]:
    """Our units for a typed one, in the terms of this question's kind; none if of another kind."""
    kind = KINDS[expect.kind]
    if typed.live and not kind.live:
        return ()
    if kind.form == "number":
        nouns = COUNTED_NOUNS if kind.name == "count" else (kind.plain,)
        return ("",) if typed.above[0] in nouns and not typed.below else ()
    below = _without_own_per(expect, kind, typed.below)
    found: list[str] = []
    for above in typed.above:
        found.extend(_in_kind(expect, kind, above, below))
    return tuple(found)


def _without_own_per(expect: Expect, kind: Kind, below: str) -> str:
    """What stands below the line without the "per row" or "per turn" that the kind supplies."""
    own = {kind.per, "each"} if kind.per == "row" or expect.many else {kind.per}
    return "" if below in own else below


def _in_kind(expect: Expect, kind: Kind, above: str, below: str) -> tuple[str, ...]:
    if below == "1000":
        return (above,) if kind.name == "seeds_per_weight" and above in ("g", "oz") else ()
    if below and "/" in above + below:  # "km/h per hour", "per rpm"
        return ()
    counts = {"row", "turn", "mark", "%"} - {kind.noun}  # "12 turns per lb" is a unit
    if below in ("row", "turn", "each", "%") or above in counts:
        return ()
    if not below and (kind.name, above) in COMPLETED:
        return COMPLETED[kind.name, above]
    if not below and above and above == kind.noun:
        return _by_noun(expect, kind)
    if not above and not kind.noun:  # "80/ac": what the question takes per acre
        return tuple(unit for unit in expect.bare if unit.endswith(f"/{below}"))
    unit = (above or kind.noun) + (f"/{below}" if below else "")
    return (unit,) if same_dimension(unit, kind.name) else ()


def _by_noun(expect: Expect, kind: Kind) -> tuple[str, ...]:
    """Units for "1.2 million seeds", which does not say per what."""
    told = tuple(unit for unit in expect.bare if unit.startswith(f"{kind.noun}/"))
    return told or tuple(unit for unit, _ in kind.us)


def _why_not(typed: Phrase) -> str:
    if "bu" in typed.above and typed.below in ("", "ac"):
        return "bushels"
    return "unit_of_another_kind"


def _alone(expect: Expect, kind: Kind, numbers: tuple[Fraction, ...]) -> list[Guess]:
    units = ("",) if kind.form == "number" else expect.bare
    if not units:
        raise Trouble("no_unit")
    literal = [Guess(n, unit) for n in numbers for unit in units]
    if kind.name != "seeds_per_weight" or any(n == 0 for n in numbers):
        return literal
    return _seeds_per_weight(expect, literal)


def _seeds_per_weight(expect: Expect, literal: list[Guess]) -> list[Guess]:
    """A small number alone is short for thousands, or the weight of a thousand seeds in grams."""
    if any(is_possible(expect, each.spelled()) for each in literal):
        return literal
    small = [each for each in literal if each.number < LITERAL_FROM and each.unit != "g"]
    stretched = [replace(each, number=each.number * 1000, stretched=True) for each in small]
    weights = [Guess(each.number, "g", stretched=True) for each in small]
    return [*stretched, *weights] or literal


def is_possible(expect: Expect, settled: str) -> bool:
    """Whether a value lies in the possible range of the fact, or else of its kind."""
    value = exact(expect.kind, settled)
    kind = KINDS[expect.kind]
    ranged = expect.least is not None or expect.most is not None
    least, most = (expect.least, expect.most) if ranged else (kind.least, kind.most)
    return (least is None or value >= least) and (most is None or value <= most)


def _shares(numbers: tuple[Fraction, ...], said: str) -> list[Guess]:
    if said:
        if phrase(said).above != ("%",) or phrase(said).below:
            raise Trouble("unit_of_another_kind", ("unit", said))
        return [Guess(n, "%") for n in numbers]
    found: list[Guess] = []
    for n in numbers:
        if n == 1:
            found += [Guess(n, "%"), Guess(n * 100, "%")]
        elif 0 < n < 1:
            found += [Guess(n * 100, "%", stretched=True), Guess(n, "%", stretched=True)]
        else:
            found.append(Guess(n, "%"))
    return found
