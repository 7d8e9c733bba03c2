"""The whole judgement of a folder of flow files, as lines ready to print."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.check import Judged, judged
from assistant.flowfile.findings import Finding, line_for, sentences
from assistant.flowfile.gate import shape_faults


def faults(folder: Path) -> list[str]:
    """Every fault with file, line, step, what is wrong and its cure; empty for sound flows."""
    return lines_for(findings(folder))


def findings(folder: Path) -> list[Finding]:
    """Faults of shape; where there is none, faults of meaning."""
    found = whole(folder)
    return found if isinstance(found, list) else []


def whole(folder: Path) -> list[Finding] | Judged:
    """The faults of flows, or the judgement of sound ones with the roads that were walked."""
    of_shape = shape_faults(folder)
    if of_shape:
        return of_shape
    found = judged(folder, CATALOGUE)
    return found.faults or found


def lines_for(found: Iterable[Finding]) -> list[str]:
    """Findings as lines ready to print."""
    said = sentences()
    return [line_for(each, said) for each in found]
