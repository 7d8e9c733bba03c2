"""Whether colour is allowed. Meaning never rests on it."""

from __future__ import annotations

from collections.abc import Mapping


def coloured(environ: Mapping[str, str], *, plain: bool, terminal: bool) -> bool:
    """The first of these that is set decides.

    The option, NO_COLOR, FORCE_COLOR or CLICOLOR_FORCE, CLICOLOR=0, TERM=dumb, and at last
    whether the output is a terminal. NO_COLOR as no-color.org has it: present and not empty.
    """
    if plain or environ.get("NO_COLOR"):
        return False
    if any(environ.get(name, "0") not in {"", "0"} for name in ("FORCE_COLOR", "CLICOLOR_FORCE")):
        return True
    if environ.get("CLICOLOR") == "0" or dumb(environ):
        return False
    return terminal


def dumb(environ: Mapping[str, str]) -> bool:
    """Whether the terminal says that it can only write line after line."""
    return environ.get("TERM", "").lower() in {"dumb", "unknown"}
