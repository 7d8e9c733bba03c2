"""A drill told by its width and its row spacing: "15 ft on 7.5 in" is 24 rows."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from assistant.answers.expect import Expect, Line, Reading, Settled
from assistant.answers.read import read

_ACROSS = re.compile(
    r"(\d[^a-z']*(?:'|-?\s*(?:ft|foot|feet|m|meters?|metres?|pies|metros)\b))"
    r"\s*(?:wide|drill|de ancho)?\s+(?:on|at|@|x|by|with|a)\s+(\d.*)",
    re.IGNORECASE,
)
FEWEST, NEAR = 4, 0.02
"""Rows on a drill at least, and how far from a whole number of rows a width may be, in rows."""


def rows_across(expects: Sequence[Expect], text: str) -> Line | None:
    """Rows and spacing from a width (feet or metres) and a spacing; read back, as it is worked out.

    None unless the question is for those two and the width holds a whole number of rows.
    """
    rows = next((each for each in expects if each.kind == "rows"), None)
    spacing = next((each for each in expects if each.kind == "row_spacing"), None)
    found = _ACROSS.fullmatch(text.strip(" .!?"))
    if rows is None or spacing is None or not found:
        return None
    width = read(Expect("", "row_spacing"), found[1].replace("-", " "))
    apart = read(spacing, found[2])
    fit = ratio(width, apart)
    count = round(fit)
    if not isinstance(apart, Settled) or count < FEWEST or abs(fit - count) > NEAR:
        return None
    told = {rows.fact: Settled(rows.fact, str(count), float(count), clear=False)}
    return Line(found={**told, spacing.fact: replace(apart, clear=False)})


def ratio(width: Reading, apart: Reading) -> float:
    """How many times one length goes into another; 0 where one is no length."""
    if not (isinstance(width, Settled) and isinstance(apart, Settled)):
        return 0.0
    whole, part = width.value, apart.value
    return whole / part if isinstance(whole, float) and isinstance(part, float) else 0.0
