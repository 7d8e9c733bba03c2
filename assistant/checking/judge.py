"""The whole judgement of a folder of flow files, as lines ready to print."""

from __future__ import annotations

from pathlib import Path

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.check import check
from assistant.flowfile.findings import Finding, line_for, sentences
from assistant.flowfile.gate import shape_faults


def faults(folder: Path) -> list[str]:
    """Every fault with file, line, step, what is wrong and its cure; empty for sound flows."""
    said = sentences()
    return [line_for(found, said) for found in findings(folder)]


def findings(folder: Path) -> list[Finding]:
    """Faults of shape; where there is none, faults of meaning."""
    return shape_faults(folder) or check(folder, CATALOGUE)
