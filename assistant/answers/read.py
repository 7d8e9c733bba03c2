"""Reading one answer: typed text to a settled value, a doubt, or a named refusal. Never raises."""

from __future__ import annotations

import re
from difflib import get_close_matches
from math import isclose

from assistant.answers.choice import known_name, read_choice
from assistant.answers.expect import Doubt, Expect, Reading, Refusal, Settled, Trouble
from assistant.answers.fit import is_possible
from assistant.answers.listing import read_list
from assistant.answers.measure import measures, without_names
from assistant.answers.rank import MOST_ASKED, decide
from assistant.answers.slips import judge
from assistant.answers.text import heard, name, plain, unaccented
from assistant.answers.unit_words import EMPTY, UNITS, says_live
from assistant.answers.yes_no import yes_no
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import members

__all__ = ["judge", "read", "yes_no"]

VAGUE = ("unit_of_another_kind", "no_unit", "not_a_number", "unknown_unit", "bushels")
"""Codes that another variant's code is worth more than, vaguest first."""

_DOUBTFUL = re.compile(
    r"[ ,]+(?:i think|i guess|i believe|probably|maybe|creo|me parece)$", re.IGNORECASE
)
AGREE = 0.02
"""How near two values of one thing must be, as a share: a rounded conversion is within it."""

ALIKE, SHORT = 0.8, 4
"""How alike a known name must be to a mistyped one, from how many letters on."""


def read(expect: Expect, text: str) -> Reading:
    """What a typed text means at one question.

    For a fact with variants the unit decides, and what is settled carries the variant's name.
    """
    try:
        if expect.variants:
            said = plain(text)
            bare = without_names(expect, said)
            return _read_variants(expect, bare, text if bare == said else bare)
        return _read(expect, text)
    except Trouble as trouble:
        return Refusal(trouble.code, heard(text), trouble.about)


def _read(expect: Expect, text: str) -> Settled | Doubt:
    if expect.kind == "text":
        text = _DOUBTFUL.sub("", text)
        return known_name(expect, text) or _near_name(expect, text) or _name(expect, text)
    if expect.kind == "choice":
        return read_choice(expect, text)
    if expect.many:
        return read_list(expect, plain(text))
    return _told_again(expect, text) or decide(expect, measures(expect, plain(text)))


def _told_again(expect: Expect, text: str) -> Settled | None:
    """A value with the same in another unit behind it: "7.5 in (19 cm)" is 7.5 in."""
    first, bracket, again = text.strip().removesuffix(")").partition("(")
    if not bracket or "(" in again or not text.rstrip().endswith(")"):
        return None
    one, same = read(expect, first), read(expect, again)
    if not (isinstance(one, Settled) and isinstance(same, Settled)):
        return None
    two = (one.value, same.value)
    lengths = [each for each in two if isinstance(each, float)]
    agree = len(lengths) == len(two) and isclose(*lengths, rel_tol=AGREE)
    return one if agree else None


def _name(expect: Expect, text: str) -> Settled:
    told = name(text)
    nothing = not any(map(str.isalnum, told)) or _is_weight(told)
    if nothing or yes_no(told) is not None or (expect.choices and _is_value(told)):
        raise Trouble("not_understood")
    own = next((n for n in expect.names if told.lower().startswith(f"{n} ")), "")
    told = told[len(own) :].lstrip(" :#") if own else told
    return Settled(expect.fact, told, told)


def _is_weight(told: str) -> bool:
    """Whether a text is a weight of seed, or that on an area: "80#", "80 lb/ac"; "204G" may name.

    Such a text answers the question of the target, and no lot or drill is called so.
    """
    if not re.search(r"[\s#/]", told):
        return False
    wanted = (Expect("", kind) for kind in ("mass", "rate"))
    return any(isinstance(read(each, told), Settled | Doubt) for each in wanted)


def _is_value(told: str) -> bool:
    """Whether a text is a number, alone or with a unit of ours, so that it names no crop."""
    found = re.fullmatch(r"[\d.,/ -]+(.*)", told)
    return found is not None and (not found[1] or found[1].lower() in {*UNITS, "'", '"'})


def _near_name(expect: Expect, text: str) -> Doubt | None:
    """A known name that a mistyped one looks like, beside what was typed."""
    typed = name(text)
    known = {word: each.name for each in expect.choices for word in (each.name, *each.words)}
    near = get_close_matches(typed.lower(), known, n=1, cutoff=ALIKE) if len(typed) >= SHORT else []
    if not near:
        return None
    meant = known[near[0]]
    return Doubt((Settled(expect.fact, meant, meant), Settled(expect.fact, typed, typed)))


def _read_variants(expect: Expect, said: str, text: str) -> Reading:
    """Each variant's reading; one that is named alone; pure live and percent only if it says so."""
    live, percent = says_live(unaccented(said)), says_percent(said)
    found: list[Settled] = []
    refusals: list[Refusal] = []
    named = tuple(each for each in expect.variants if _is_named(each, said))
    for each in named or expect.variants:
        kind = KINDS[each.kind]
        fits = kind.live == live and (percent or kind.form != "percent")
        reading = read(each, text) if fits else None
        if isinstance(reading, Refusal):
            refusals.append(reading)
        elif reading:
            found.extend(_new(expect, reading, found))
    found = _possible(expect, found) if "," in said else _whole(_possible(expect, found))
    if len(found) == 1:
        return found[0]
    if found:
        return Doubt(tuple(found[:MOST_ASKED]))
    return _clearest(refusals, text)


def says_percent(said: str) -> bool:
    """Whether a text tells hundredths: "60 % 40 %", "60 percent"."""
    return any(UNITS.get(each) == "%" for each in re.findall(r"%|[a-z]+", said))


def _whole(found: list[Settled]) -> list[Settled]:
    """The readings without a list of two beside a single value: "1 lb 6" is one weight."""
    single = [each for each in found if members(each.settled) is None]
    pairs = [each for each in found if len(members(each.settled) or ()) == 2]  # noqa: PLR2004  a pair
    return [each for each in found if each not in pairs] if single else found


def _is_named(variant: Expect, said: str) -> bool:
    """Whether a text begins or ends with a name of the variant: "net 1.42".

    "2.1 full 1.4 empty" is none: it tells full and empty, so what is left is seed alone.
    """
    words = unaccented(said).split()
    if not set(words).isdisjoint(EMPTY):
        return False
    return bool(words) and not {words[0], words[-1]}.isdisjoint(variant.names)


def _new(expect: Expect, reading: Settled | Doubt, found: list[Settled]) -> list[Settled]:
    """What a variant adds: where an earlier one of its kind was read, only a list of several."""
    kinds = {each.fact: each.kind for each in expect.variants}
    readings = reading.readings if isinstance(reading, Doubt) else (reading,)
    before = {kinds[each.fact] for each in found}
    return [each for each in readings if kinds[each.fact] not in before or _is_rows(each)]


def _is_rows(reading: Settled) -> bool:
    """Whether a reading is several values in one unit: "1 lb 14 oz" is one weight, not two rows."""
    told = members(reading.settled) or ()
    return len(told) > 1 and len({each.rpartition(" ")[2] for each in told}) == 1


def _possible(expect: Expect, found: list[Settled]) -> list[Settled]:
    by_name = {each.fact: each for each in expect.variants}
    possible = [each for each in found if _all_possible(by_name[each.fact], each.settled)]
    return possible or found[:1]


def _all_possible(expect: Expect, settled: str) -> bool:
    return all(is_possible(expect, each) for each in members(settled) or (settled,))


def _clearest(refusals: list[Refusal], text: str) -> Refusal:
    """The refusal that says most about what is wrong."""
    ranks = {code: rank for rank, code in enumerate(VAGUE)}
    best = max(refusals, key=lambda each: ranks.get(each.code, len(VAGUE)), default=None)
    return best or Refusal("unit_of_another_kind", heard(text))
