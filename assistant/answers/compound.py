"""Two numbers that are one value: feet and inches, pounds and ounces, full less empty.

Each function gives the readings of one notation, none if the text is not written so.
They settle in the smaller unit: `6' 9 1/2"` is 81.5 in, "1 lb 3 oz" is 19 oz.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from assistant.answers.expect import Expect, Trouble
from assistant.answers.fit import Guess, guesses
from assistant.answers.number import MOST_DIGITS, NUMBER, readings
from assistant.answers.text import one_of
from assistant.answers.unit_words import EMPTY, GROSS, TUBS, UNITS
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import exact, spell
from assistant.quantities.units import same_dimension

SMALLER = {("ft", "in"): 12, ("lb", "oz"): 16, ("m", "cm"): 100, ("kg", "g"): 1000, ("yd", "ft"): 3}
UNSAID = {"ft": "in", "lb": "oz"}
"""The smaller unit that people leave out: "6 ft 9.5"."""

_WORD = r"([a-z]+)\.?"
_WITH_UNITS = re.compile(
    rf"(\d+)\s*{_WORD}[\s,-]*(?:(?:and|y|con)\s+)?({NUMBER})\s*(?:{_WORD})?", re.ASCII
)
_COLON = re.compile(rf"(\d+):({NUMBER})")
_BARE = re.compile(rf"(\d+)([ -])({NUMBER})")
_DOT = re.compile(rf"(\d+)\.(\d{{1,2}})(?:\s*{_WORD})?")
_VALUE = rf"({NUMBER})(?!e[+-]?\d)\s*([a-z]*)"
_ONE = re.compile(_VALUE)
_TWO = re.compile(rf"{_VALUE}\s+{_VALUE}")
LESS = re.compile(rf"{_VALUE}\s*(?:-|\bminus\b|\bless\b|\bmenos\b)\s*{_VALUE}")
_FULL_OR_EMPTY = re.compile(rf"\b(?:{one_of(*GROSS, *EMPTY)})\b")
_EMPTY = re.compile(rf"\b(?:{one_of(*EMPTY)})\b")
_EMPTY_FIRST = re.compile(rf"\s*(?:[\d.,/]+\s*[a-z]*\s*)?(?:{one_of(*EMPTY)})\b")
_TUB_FIRST = re.compile(rf"(?:{one_of(*TUBS)}) {_VALUE},? (?:{one_of(*GROSS)}) {_VALUE}")
_TURNS = one_of(*(word for word, unit in UNITS.items() if unit == "turn" and len(word) > 1))
_OVER = re.compile(
    rf"({NUMBER}) (?:{_TURNS})(?: (?:=|is|are|was|went|makes?|covers?|son|es))? (.+)"
)
_IN = re.compile(rf"(.+) (?:in|for|over|en|por) ({NUMBER}) (?:{_TURNS})")
_NO_VALUE = re.compile(rf"\b(?:{one_of(*GROSS, *EMPTY, *TUBS)})\b|[,;:=]\s")


def large_unit(expect: Expect) -> str:
    """The larger unit of the pair that two bare numbers can mean here: "ft", "lb" or ""."""
    plain = KINDS[expect.kind].plain
    if plain == "m" and ("ft" in expect.bare or expect.kind == "distance_per_turn"):
        return "ft"
    return "lb" if plain == "kg" and "lb" in expect.bare else ""


def with_units(expect: Expect, text: str) -> list[Guess]:
    """`6 ft 9 1/2 in`, `6 ft 9.5`, `1lb3oz`, `2 m 7 cm`."""
    found = _WITH_UNITS.fullmatch(text)
    if not found:
        return []
    large = UNITS.get(found[2], "")
    small = UNITS.get(found[4], "") if found[4] else UNSAID.get(large, "")
    if (large, small) not in SMALLER or not _takes(expect, small):
        return []
    return [_joined(found[1], found[3], large, small, sure=True)]


def bare_pair(expect: Expect, text: str) -> list[Guess]:
    """`6-9 1/2`, `6 9 1/2` where feet are meant; `1-3`, `1:12.4` where pounds are."""
    large = large_unit(expect)
    small = UNSAID.get(large, "")
    colon = _COLON.fullmatch(text) if large == "lb" else None
    if colon:
        return [_joined(colon[1], colon[2], large, small, sure=True)]
    found = _BARE.fullmatch(text) if large else None
    if not found or (found[2] == " " and large == "lb") or found[1] == "0":
        return []
    if readings(found[3])[0] >= SMALLER[large, small]:
        return []
    return [_joined(found[1], found[3], large, small, sure=False)]


def dotted(expect: Expect, text: str) -> list[Guess]:
    """`6.10` for 6 ft 10 in, `1.3` for 1 lb 3 oz: only beside the decimal reading.

    A foot written out with a decimal is one, except before 10 and 11, which nobody writes so.
    """
    found = _DOT.fullmatch(text)
    if not found or expect.decimal or int(found[1]) == 0:
        return []
    said = UNITS.get(found[3], "?") if found[3] else ""
    large = said or large_unit(expect)
    small = UNSAID.get(large, "")
    if not small or not _takes(expect, small) or found[2].startswith("0"):
        return []
    if int(found[2]) >= SMALLER[large, small]:
        return []
    if said == "ft" and found[2] not in ("10", "11"):
        return []
    return [_joined(found[1], found[2], large, small, sure=False)]


def over_turns(expect: Expect, text: str) -> list[Guess]:
    """`10 turns = 66 ft 3 in`, `66 ft 3 in over 10 turns`: what one of several turns covers."""
    found, turned = _OVER.fullmatch(text), _IN.fullmatch(text)
    if expect.kind != "distance_per_turn" or not (found or turned):
        return []
    count, length = found.groups() if found else turned.groups()[::-1] if turned else ("", "")
    turns, plain = readings(count)[0], _ONE.fullmatch(length)
    whole = with_units(expect, length)
    if plain and plain[2] and not whole:
        whole = guesses(expect, readings(plain[1])[:1], plain[2])
    return [replace(each, number=each.number / turns, sure=False) for each in whole if turns]


def full_less_empty(expect: Expect, text: str) -> list[Guess]:
    """`2.1 full 1.4 empty`, `2.1-1.4`: what is left when the tub is taken off.

    It is seed alone, so never the fact of seed and tub together, nor that of the tub.
    """
    if KINDS[expect.kind].plain != "kg":
        return []
    together = not {*GROSS, "tub"}.isdisjoint(expect.names)
    named = bool(_FULL_OR_EMPTY.search(text))
    two = _two_named(text) if named else _both(LESS.fullmatch(text))
    if len(two) != 2 or (together and not named):  # noqa: PLR2004  full and empty
        return []
    if together:
        raise Trouble("two_numbers")
    first, second = (_weight(expect, each, _unit(two)) for each in two)
    turned = named and bool(_EMPTY_FIRST.match(text) or _TUB_FIRST.fullmatch(text))
    full, empty = (second, first) if turned else (first, second)
    if _size(expect, full) <= _size(expect, empty):
        if named:
            raise Trouble("two_numbers")  # an empty tub that weighs more than a full one
        return []
    return [_difference(expect, full, empty)]


def tells_empty(text: str) -> bool:
    """Whether a text tells what an empty tub weighs."""
    return bool(_EMPTY.search(text))


def _two_named(text: str) -> tuple[str, ...]:
    """The two weights of a text, without the words for full, empty and the tub."""
    told = (each.strip(" -") for each in _NO_VALUE.split(text))
    parts = tuple(each for each in told if each)
    return parts if len(parts) > 1 else _both(_TWO.fullmatch(" ".join(parts)))


def _both(found: re.Match[str] | None) -> tuple[str, ...]:
    return (f"{found[1]} {found[2]}".strip(), f"{found[3]} {found[4]}".strip()) if found else ()


def _unit(two: tuple[str, ...]) -> str:
    """The unit that one of two weights has, for the other."""
    units = (found[2] for each in two if (found := _ONE.fullmatch(each)))
    return next((unit for unit in units if unit), "")


def _weight(expect: Expect, text: str, unit: str) -> Guess:
    joined = with_units(expect, text)
    found = _ONE.fullmatch(text)
    if not joined and not found:
        raise Trouble("two_numbers")
    return (
        joined[0]
        if joined or not found
        else guesses(expect, readings(found[1])[:1], found[2] or unit)[0]
    )


def _size(expect: Expect, guess: Guess) -> Fraction:
    return exact(expect.kind, guess.spelled())


def _difference(expect: Expect, one: Guess, other: Guess) -> Guess:
    size = exact(expect.kind, spell(Fraction(1), one.unit))
    return Guess(abs(_size(expect, one) - _size(expect, other)) / size, one.unit, sure=False)


def _joined(large_text: str, small_text: str, large: str, small: str, *, sure: bool) -> Guess:
    if len(large_text) > MOST_DIGITS:
        raise Trouble("too_big")
    of_small = readings(small_text)[0]
    ratio = SMALLER[large, small]
    return Guess(int(large_text) * ratio + of_small, small, sure and of_small < ratio)


def _takes(expect: Expect, unit: str) -> bool:
    kind = KINDS[expect.kind]
    return kind.form == "unit" and same_dimension(unit, kind.name)
