"""What the environment says about the screen: colour, on which no meaning rests, and plain text."""

from __future__ import annotations

import os
from collections.abc import Mapping

UNNAMED = "dumb" if os.name == "posix" else "console"
"""A terminal that tells no name: usual on Windows; elsewhere it may know nothing but lines."""


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
    return (environ.get("TERM") or UNNAMED).lower() in {"dumb", "unknown"}


def accessible(environ: Mapping[str, str]) -> bool:
    """Whether ACCESSIBLE asks for what a screen reader can read: line after line, plain text."""
    return environ.get("ACCESSIBLE", "").lower() not in {"", "0", "false"}
