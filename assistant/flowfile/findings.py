"""What is wrong in a flow file: a code, where it stands, and the values for its sentence.

The sentences and their cures are the program's own: they lie in `findings.toml` beside its flows.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from assistant.flow.load import read
from assistant.flow.place import flows_folder

HOLE = re.compile(r"\{([a-z_]+)\}")
SENTENCES = "findings.toml"


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """One fault; `step` names the step, fact or other table, `about` fills the sentence's holes."""

    file: str
    line: int
    code: str
    step: str = ""
    about: tuple[tuple[str, str], ...] = ()


def finding(code: str, file: str, line: int, step: str = "", /, **about: str) -> Finding:
    """A finding with its values by name."""
    return Finding(file, line, code, step, tuple(sorted(about.items())))


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Each finding once, sorted by file and line."""
    return sorted(set(findings))


def sentences() -> Mapping[str, Mapping[str, Any]]:
    """What each code says and its cure; empty where the program's own file can't be read."""
    try:
        return read(flows_folder() / SENTENCES)
    except (OSError, ValueError):
        return {}


def line_for(found: Finding, said: Mapping[str, Mapping[str, Any]]) -> str:
    """A finding as one printed line: file, line, step, what is wrong, what to do, and its code.

    Without a sentence for its code it is the bare code with its values, so that nothing is hidden.
    """
    where = f"{found.file}:{found.line}: " + (f"{found.step}: " if found.step else "")
    about = dict(found.about)
    texts = said.get(found.code)
    if not texts:
        return f"{where}{found.code} {', '.join(about.values())}".strip()
    cure = "near" if about.get("near") and "near" in texts else "cure"
    told = " ".join(_filled(texts[key], about) for key in ("says", cure))
    return f"{where}{told} [{found.code}]"


def _filled(text: str, about: Mapping[str, str]) -> str:
    return HOLE.sub(lambda hole: about[hole[1]], text)
