"""A drill told by its width: "15 ft on 7.5 in" is 24 rows, "15 ft, 24 rows" 7.5 in apart."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from assistant.answers.expect import Expect, Line, Reading, Settled
from assistant.answers.read import read

_WIDTH = (
    r"(?P<width>\d[^a-z',]*(?:'|-?\s*(?:ft|foot|feet|m|meters?|metres?|pies|metros)\b))"
    r"(?:\s*(?:wide|drill|de ancho))*"
)
_ROWS = r"(?P<rows>\d+)[\s-]*(?:rows?|hileras|surcos)"
_ACROSS = re.compile(rf"{_WIDTH}\s+(?:on|at|@|x|by|with|a)\s+(?P<apart>\d.*)", re.IGNORECASE)
_ROWS_ON = (
    re.compile(rf"{_WIDTH}[\s,]*(?:with|and|con|y)?\s*{_ROWS}", re.IGNORECASE),
    re.compile(rf"{_ROWS}[\s,]*(?:at|on|in|en|and)?\s*{_WIDTH}", re.IGNORECASE),
)
STEPS = ((0.0254, 0.25, "in"), (0.01, 0.5, "cm"))
"""Spacings come in quarters of an inch, or halves of a centimetre; in m, steps, and the unit."""
FEWEST, NEAR = 4, 0.02
"""Rows on a drill at least, and how far from a whole number of rows a width may be, in rows."""


def rows_across(expects: Sequence[Expect], text: str) -> Line | None:
    """Rows and spacing from a width (feet or metres) and a spacing; read back, as it is worked out.

    None unless the question is for those two and the width holds a whole number of rows.
    """
    rows = next((each for each in expects if each.kind == "rows"), None)
    spacing = next((each for each in expects if each.kind == "row_spacing"), None)
    if rows is None or spacing is None:
        return None
    plain = text.strip(" .!?")
    found = next(filter(None, (way.fullmatch(plain) for way in (*_ROWS_ON, _ACROSS))), None)
    if not found:
        return None
    width = read(Expect("", "row_spacing"), found["width"].replace("-", " "))
    if found.re is not _ACROSS:
        return _rows_on(rows, spacing, width, found["rows"])
    apart = read(spacing, found["apart"])
    fit = ratio(width, apart)
    count = round(fit)
    if not isinstance(apart, Settled) or count < FEWEST or abs(fit - count) > NEAR:
        return None
    told = {rows.fact: Settled(rows.fact, str(count), float(count), clear=False)}
    return Line(found={**told, spacing.fact: replace(apart, clear=False)})


def _rows_on(rows: Expect, spacing: Expect, width: Reading, number: str) -> Line | None:
    """So many rows on a width; None where that makes no spacing that drills have."""
    told = read(rows, number)
    apart = ratio(width, told)
    for unit, step, name in STEPS:
        steps = round(apart / unit / step)
        if steps and abs(apart / unit / step - steps) <= NEAR:
            found = read(spacing, f"{steps * step:g} {name}")
            if isinstance(told, Settled) and isinstance(found, Settled):
                return Line(found={rows.fact: told, spacing.fact: replace(found, clear=False)})
    return None


def ratio(width: Reading, apart: Reading) -> float:
    """How many times one length goes into another; 0 where one is no length."""
    if not (isinstance(width, Settled) and isinstance(apart, Settled)):
        return 0.0
    whole, part = width.value, apart.value
    return whole / part if isinstance(whole, float) and isinstance(part, float) else 0.0
