"""The words after a number, taken apart: "lbs PLS per acre" is lb, per ac, of pure live seed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from assistant.answers import unit_words as words
from assistant.answers.expect import Trouble

_PER = re.compile(r"\s*(?:/|\bper\b|\bpor\b|\bto the\b|\bto an?\b|\ban?\b|\bal\b|\bla\b)\s*")


@dataclass(frozen=True, slots=True)
class Phrase:
    """A unit as typed: our names for what stands above and below the line ("" for none).

    `above` has several names where the word means another amount in another place. `below` may be
    "1000" (of a thousand-seed weight) or "each".
    """

    above: tuple[str, ...]
    below: str = ""
    live: bool = False
    sure: bool = True


@lru_cache(maxsize=512)
def phrase(text: str) -> Phrase:
    """The unit that typed words mean; the text is plain and without accents.

    Raises: Trouble unknown_unit, volume, bags or unit_varies.
    """
    said = " ".join(text.replace(".", " ").split()).strip()
    whole = _atom(said)
    if whole:
        return Phrase(whole, sure=said not in words.CHECKED)
    said, live = _without_live(said)
    above, below = _in_two(said)
    return Phrase(_above(above, live=live), _below(below), live, above not in words.CHECKED)


def _atom(said: str) -> tuple[str, ...]:
    if said in words.VOLUME:
        raise Trouble("volume", ("unit", said))
    if said in words.BAGS:
        raise Trouble("bags", ("unit", said))
    if said in words.VARIES:
        raise Trouble("unit_varies", ("unit", said))
    if said in words.SEVERAL:
        return words.SEVERAL[said]
    return (words.UNITS[said],) if said in words.UNITS else ()


def _without_live(said: str) -> tuple[str, bool]:
    for pure in words.PURE_LIVE:
        found = re.search(rf"\b{pure}\b", said)
        if found:
            rest = f"{said[: found.start()]} {said[found.end() :]}"
            return " ".join(rest.replace(" /", "/").split()), True
    return said, False


def _in_two(said: str) -> tuple[str, str]:
    """What stands above and below the first "per"; each that no "per" stands in is left whole."""
    for each in words.EACH:
        if said == each or said.endswith(f" {each}") or (each[0] == "/" and said.endswith(each)):
            return said[: len(said) - len(each)].strip(), "each"
    found = _PER.search(said)
    return (said[: found.start()], said[found.end() :]) if found else (said, "")


def _above(said: str, *, live: bool) -> tuple[str, ...]:
    if not said:
        return ("seed",) if live else ("",)
    unit = _atom(said)
    if not unit and " " in said:  # "lb of seed", "plants each"
        first, last = said.split(maxsplit=1)[0], said.rsplit(maxsplit=1)[-1]
        unit = _atom(first) if _atom(last) == ("seed",) or last in ("of", "de") else ()
    if not unit:
        raise Trouble("unknown_unit", ("unit", said))
    return unit


def _below(said: str) -> str:
    if said in ("", "each"):
        return said
    if said in words.THOUSAND:
        return "1000"
    unit = _atom(said)
    for along in words.OF_ROW:
        if not unit and said.endswith(f" {along}"):
            unit = _atom(said[: -len(along)].strip())
    if len(unit) != 1:
        raise Trouble("unknown_unit", ("unit", said))
    return unit[0]
