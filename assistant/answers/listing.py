"""Several values in one answer: `54 57 49`, `54/57/49`, `54+57+49`, `54 g; 57 g; 49 g`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from assistant.answers.expect import Doubt, Expect, Settled, Trouble
from assistant.answers.in_order import in_order
from assistant.answers.measure import measures, ready
from assistant.answers.number import NUMBER
from assistant.answers.rank import decide
from assistant.quantities.settled import join, si_value

MOST_VALUES = 64
ALIKE = 4  # "54,57" can be two rows, "65,1" can not: rows differ by less than four times

_UNIT_TEXT = r"(?:(?:/|per )\s*[a-z]+|[a-z#%]+(?: pls)?(?:\s*(?:/|per )\s*[a-z]+)?(?: pls)?)"
_ITEM = rf"{NUMBER}\s*(?:{_UNIT_TEXT})?"
_ITEMS = re.compile(rf"{_ITEM}(?:\s+(?:and |y )?{_ITEM})+")
_UNIT = re.compile(r"(?:[a-z#%]|/\s*[a-z]).*$")
_ROW = re.compile(
    r"\b(?:row|hilera|surco|outlet|salida)\s*(\d{1,2})\s*(?:[:=]|is|was|gave)?\s+(?=\d)"
)
_TIMES = re.compile(r"(\d{1,2})\s*(?:x|\*|times)\s*(.+)")
_EACH = re.compile(r"(.+?)\s+(?:each|apiece|a row|per row)")
_COMMA_PAIR = re.compile(r"(\d{2,}),(\d{2,})(\s*[a-z#%]+.*)?")


def read_list(expect: Expect, text: str) -> Settled | Doubt:
    """The list that a plain text comes to; one value is a list of one.

    Raises: Trouble as `measures` does; too_many for more than 64 values.
    """
    heard = ready(expect, in_order(expect.order, text))
    if heard.negative:
        raise Trouble("negative")
    reading = _plain(expect, _without_numbers(_written_out(expect, heard.text)))
    if heard.about and isinstance(reading, Settled):
        return replace(reading, clear=False)
    return reading


def _plain(expect: Expect, said: str) -> Settled | Doubt:
    pair = _COMMA_PAIR.fullmatch(said)
    if pair and is_alike(pair[1], pair[2]):
        together = [_list(expect, _with_unit([pair[1], pair[2]], pair[3] or ""))]
        return _doubt([*together, _list(expect, [said])])
    return _list(expect, _items(said))


def _written_out(expect: Expect, said: str) -> str:
    """So many times one value, or one for each of so many, as a list: "8 x 75 g", "75 g each"."""
    times, each = _TIMES.fullmatch(said), _EACH.fullmatch(said)
    if times and 1 < int(times[1]) <= MOST_VALUES:
        return "; ".join([times[2]] * int(times[1]))
    return "; ".join([each[1]] * expect.as_many) if each and expect.as_many > 1 else said


def is_alike(one: str, other: str) -> bool:
    """Whether two whole numbers can be weights of two rows of one catch."""
    return len(one) == len(other) and alike((int(one), int(other)))


def alike(weights: Sequence[float]) -> bool:
    """Whether weights are near enough to each other for rows of one catch."""
    return 0 < max(weights) <= ALIKE * min(weights)


def _without_numbers(said: str) -> str:
    """The values without the numbers of their rows, if those run on from 1: "row 1 54 row 2 57"."""
    runs = [int(each) for each in _ROW.findall(said)]
    return _ROW.sub(" ", said).strip() if runs == list(range(1, len(runs) + 1)) else said


def _items(said: str) -> list[str]:
    for mark in (r";", r",\s+(?:and |y )?|(?<=\d) (?:and|y) ", r"\+", r"/"):
        parts = [part.strip() for part in re.split(mark, said) if part.strip()]
        if len(parts) > 1 and (mark != "/" or _slashed(said)):
            return _with_common_unit(parts)
    if re.fullmatch(r"\d+(?:,\d+){2,}(?:\s*[a-z#%]+)?", said):
        return _with_common_unit(said.split(","))
    if _ITEMS.fullmatch(said) and not _is_one(said):
        return _with_common_unit(_apart(said))
    return [said]


def _slashed(said: str) -> bool:
    """Whether slashes part values: two or more of them, and no fraction or unit with one."""
    return said.count("/") > 1 and not re.search(r"/\s*[a-z]| \d+/", said)


def _is_one(said: str) -> bool:
    return bool(re.fullmatch(_ITEM, said))


def _apart(said: str) -> list[str]:
    if re.search(r"\d/\d+\s+\d+/\d|\d+/\d", said) and len(re.findall(NUMBER, said)) > 1:
        raise Trouble("two_numbers")
    return [found.strip() for found in re.findall(_ITEM, said)]


def _with_common_unit(parts: list[str]) -> list[str]:
    """The values, each with the unit that stands after the last one, or the first one, alone."""
    units = [_UNIT.search(part) for part in parts]
    first, last = units[0], units[-1]
    if last and not any(units[:-1]):
        return _with_unit(parts[:-1], last[0]) + parts[-1:]
    if first and not any(units[1:]):
        return parts[:1] + _with_unit(parts[1:], first[0])
    return parts


def _with_unit(parts: list[str], unit: str) -> list[str]:
    return [f"{part} {unit}".strip() for part in parts]


def _list(expect: Expect, items: list[str]) -> Settled | Doubt:
    if len(items) > MOST_VALUES:
        raise Trouble("too_many", ("most", str(MOST_VALUES)))
    single = replace(expect, many=False, names=()) if len(items) > 1 else replace(expect, names=())
    read = [decide(single, measures(expect, item)) for item in items]
    asked = max((len(each.readings) for each in read if isinstance(each, Doubt)), default=1)
    clear = all(isinstance(each, Settled) and each.clear for each in read)
    lists = [_joined(expect, read, choice, clear=clear) for choice in range(asked)]
    return lists[0] if asked == 1 else _doubt(lists)


def _joined(expect: Expect, read: list[Settled | Doubt], choice: int, *, clear: bool) -> Settled:
    """The list in which each value that has several readings takes the one of this number."""
    taken = [
        each.readings[min(choice, len(each.readings) - 1)] if isinstance(each, Doubt) else each
        for each in read
    ]
    spelling = join([each.settled for each in taken])
    return Settled(expect.fact, spelling, si_value(expect.kind, spelling), clear)


def _doubt(lists: Sequence[Settled | Doubt]) -> Doubt:
    readings: list[Settled] = []
    for each in lists:
        readings.extend(each.readings if isinstance(each, Doubt) else (each,))
    return Doubt(tuple(readings[:3]))
