"""One typed value to its readings: a number and a unit, in every notation that people use."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from assistant.answers import compound
from assistant.answers import unit_words as words
from assistant.answers.every import one_in
from assistant.answers.expect import Expect, Trouble
from assistant.answers.fit import Guess, guesses
from assistant.answers.number import NUMBER, is_date, readings, refuse_slips, with_powers
from assistant.answers.number_words import in_digits
from assistant.answers.phrase import phrase
from assistant.answers.text import one_of, unaccented
from assistant.quantities.kinds import KINDS, Kind

_ABOUT_WORDS = one_of(*words.ABOUT)
_BAGS = one_of(*words.BAGS)
_MULTIPLIERS = one_of(*words.TIMES_THOUSAND, *words.TIMES_MILLION, *words.TIMES_EITHER)
_ABOUT = re.compile(
    rf"^(?:~|(?:{_ABOUT_WORDS})\b\.?)\s*|(?<=\d)\s*-?ish\b|\s+(?:or so|mas o menos)$"
)
_NET = re.compile(rf"[\s,]*\b(?:{one_of(*words.NET)})\b[\s,]*")
_LEADS = re.compile(rf"(?:(?:{one_of(*words.LEADS)})[\s:=,]+)+(?=[^a-z]*\d)")
_TAILS = re.compile(rf"(?<=\w)\s+(?:{one_of(*words.TAILS)})$")
_PLURAL = re.compile(r"(?<=\d)'?s$")
_NOTHING = re.compile(rf"(?:{one_of(*words.NOTHING)})")
_BAG = re.compile(rf"^(?:an? |una? )?(?:{_BAGS})\s+(?:of|de)\s+|(?<=[a-z])\s+(?:{_BAGS})$")
_PLAIN = re.compile(rf"({NUMBER})\s*(.*)", re.ASCII)
TIMES = re.compile(rf"({_MULTIPLIERS})\b\.?\s*(?!/?\d)")
_FATE = re.compile(rf"\s*\b(?:({one_of(*words.LOST)})|({one_of(*words.LIVED)}))$")
_LESS = re.compile(rf"\s*\b(?:{one_of(*words.LESS)})$")
_OPEN = re.compile(rf"\s*\b(?:{one_of(*words.OPEN)})$")
UNIT_NAMES = frozenset(words.THOUSAND_SEED_WEIGHT)
"""Names that are a unit too: "TKW 30" is grams."""
_PERCENT = re.compile(r"\b(?:por ciento|per cent)\b")  # before "ciento" is taken for 100
_SIDE = r"(?:to|a|and|y|hasta|or|o)"
_RANGE = re.compile(
    rf"(?:between |from |entre |de )?({NUMBER})\s*([a-z]*)\s*(?:-|\b{_SIDE}\b)\s*({NUMBER})\s*(.*)"
)
_SECTION = re.compile(r"(?:an? |un )?1/4( section)?")


@dataclass(frozen=True, slots=True)
class Heard:
    """A typed value made ready: its text, and whether it said so plainly."""

    text: str
    sure: bool = True
    about: bool = False
    negative: bool = False


def ready(expect: Expect, text: str) -> Heard:
    """Plain text (see `text.plain`) without its names, in digits, with unit marks as words.

    Raises: Trouble for slips of the finger and for "not a finite number".
    """
    said = unaccented(text).replace("(", " ").replace(")", " ").strip(" ,;=?!")
    refuse_slips(said)
    said = without_names(expect, without_leads(" ".join(said.split())))
    said = _PLURAL.sub("", without_leads(said))
    about = bool(_ABOUT.search(said))
    said = _NET.sub(" ", _ABOUT.sub("", said)).strip()
    if _NOTHING.fullmatch(said):
        said = "0"
    if expect.kind == "count":
        said = one_in(said)
    said, sure = in_digits(with_powers(_PERCENT.sub("%", said)))
    said = _thousand_seeds(_BAG.sub("", _marks_as_words(expect, said)))
    negative = bool(re.match(r"-\s*[\d.,]|minus |menos ", said))
    said = re.sub(r"^(?:[+-]|minus|menos)\s*(?=[\d.,])", "", said).strip()
    said = re.sub(r"(?<=\d)[.,]$", "", said)
    return Heard(said, sure, about, negative)


def without_leads(text: str) -> str:
    """The text without words before and behind a value that tell no more than that it comes."""
    found = _LEADS.match(text)
    return _TAILS.sub("", text[found.end() :] if found else text)


def without_names(expect: Expect, text: str) -> str:
    """The text without a name of the fact at its start or end ("germ 92", "24 rows").

    A name that is a unit stays one: "seeds per pound: 12500" is 12500 seeds per pound.
    """
    names = sorted({*map(unaccented, expect.names)} - UNIT_NAMES, key=len, reverse=True)
    more = rf"(?: (?:{'|'.join(map(re.escape, names))}))?[\s:=,.]*(?:is |es |weighs )?(?=.)"
    for name in names:
        found = re.match(rf"(?:the )?{re.escape(name)}\b{more}", text)
        rest = text[found.end() :] if found else ""
        if rest.strip() and not (name in words.GROSS and compound.tells_empty(rest)):
            return f"{rest} {name}" if _PER.search(name) and _BARE.fullmatch(rest) else rest
        if not _PER.search(name) and re.search(rf"\d.*[\s\d]{re.escape(name)}$", text):
            return text[: -len(name)].strip(" ,")
    return text


_PER, _BARE = re.compile(r"/| per "), re.compile(r"[\d.,/ ]+[km]?")


def _marks_as_words(expect: Expect, text: str) -> str:
    if KINDS[expect.kind].plain == "m":
        text = text.replace("'", " ft ").replace('"', " in ")
    return " ".join(re.sub(r"(?<=\d)\s*#", " lb ", text).split())


def _thousand_seeds(text: str) -> str:
    """The weight of a thousand seeds by its name: "tkw 30" as "30 g/1000"."""
    named = one_of(*words.THOUSAND_SEED_WEIGHT)
    found = re.fullmatch(rf"(?:(?:{named})[\s:=]*)?([\d.,]+)\s*(?:g|gr)?\s*(?:{named})?", text)
    return f"{found[1]} g/1000" if found and re.search(named, text) else text


def measures(expect: Expect, text: str) -> list[Guess]:
    """The readings of one value, likelier first; never none.

    Raises: Trouble with the code of what stands in the way.
    """
    heard = ready(expect, text)
    found = _notations(expect, heard.text)
    if not found:
        raise _why_not(heard.text)
    if heard.about and expect.kind in ("turns", "rows"):
        raise Trouble("about", ("value", found[0].spelled()))
    if heard.negative:
        found = [replace(each, number=-each.number) for each in found]
    if heard.sure and not heard.about:
        return found
    return [replace(each, sure=False) for each in found]


def _notations(expect: Expect, text: str) -> list[Guess]:
    if expect.kind == "area" and (section := _SECTION.fullmatch(text)) and "ac" in expect.bare:
        quarter = Guess(Fraction(160), "ac", sure=bool(section[1]))
        return [quarter] if section[1] else [quarter, Guess(Fraction(1, 4), "ac")]
    whole = compound.full_less_empty(expect, text) or compound.with_units(expect, text)
    whole = whole or compound.over_turns(expect, text)
    pair = compound.bare_pair(expect, text)
    if pair and compound.LESS.fullmatch(text):
        return pair + whole
    return whole or [*_simple(expect, text), *pair, *compound.dotted(expect, text)]


def _simple(expect: Expect, text: str) -> list[Guess]:
    """A number, perhaps a multiplier, and perhaps a unit."""
    kind = KINDS[expect.kind]
    found = _PLAIN.fullmatch(text)
    if not found or re.match(r"[\d.,'/:-]+\d", found[2]) or _more_numbers(found[2]):
        return []
    written, said = found[1], found[2]
    if kind.plain == "m" and _OPEN.search(said):
        raise Trouble("part_of_full", ("value", written))
    if kind.form == "percent":
        return _share(expect, written, said)
    numbers, said = _multiplied(kind, readings(written), said)
    return guesses(expect, numbers, said)


def _more_numbers(said: str) -> bool:
    """Whether another number stands in the words: not that of a unit such as ft2, or per 1000."""
    return bool(
        re.search(
            r"(?<![a-z^])\d", re.sub(r"(?:/|\b(?:per|of|in|de|cada|por)) ?1[ ,]?000?\b", "", said)
        )
    )


def _multiplied(
    kind: Kind, numbers: tuple[Fraction, ...], said: str
) -> tuple[tuple[Fraction, ...], str]:
    found = TIMES.match(said) if kind.counted else None
    if not found:
        return numbers, said
    times = [1000] if found[1] in words.TIMES_THOUSAND else [1_000_000]
    if found[1] in words.TIMES_EITHER:
        times = [1000, 1_000_000]
    return tuple(n * each for n in numbers for each in times), said[found.end() :]


def _share(expect: Expect, written: str, said: str) -> list[Guess]:
    fate = _FATE.search(said)
    less = _LESS.search(said) if not fate else None
    said = _LESS.sub("", _FATE.sub("", said)).strip()
    if "/" in written and not said and " " not in written:
        part = readings(written)[0]
        if part > 1:
            raise Trouble("two_numbers")
        found = [Guess(part * 100, "%", sure=False)]
    else:
        found = guesses(expect, readings(written), said)
    if less:
        return [replace(each, number=-each.number, sure=False) for each in found]
    if fate and fate[1]:
        return [g for each in found for g in (replace(each, number=100 - each.number), each)]
    return found


def _why_not(text: str) -> Trouble:
    """What to say about a text that no notation fits."""
    if is_date(text):
        return Trouble("date")
    numbers = re.findall(NUMBER, text)
    if not numbers:
        return _no_number(text)
    found = _RANGE.fullmatch(text)
    if found:
        return Trouble("range", ("low", found[1]), ("high", found[3]), ("unit", found[4].strip()))
    return Trouble({1: "not_a_number", 2: "two_numbers"}.get(len(numbers), "list"))


def _no_number(text: str) -> Trouble:
    """A unit alone, or words that are no number."""
    try:
        phrase(text)
    except Trouble as trouble:
        return Trouble("not_a_number") if trouble.code == "unknown_unit" else trouble
    return Trouble("no_number", ("unit", text))
