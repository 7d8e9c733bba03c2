"""What the environment says about the screen: which switch decides about colour, plain text."""

from __future__ import annotations

from itertools import product

import pytest

from assistant.terminal.colour import accessible, coloured, dumb

XTERM = {"TERM": "xterm"}


@pytest.mark.parametrize(
    ("environ", "plain", "terminal", "allowed"),
    [
        (XTERM, False, True, True),
        (XTERM, False, False, False),
        ({"TERM": "xterm-256color"}, False, True, True),
        ({"TERM": "dumb"}, False, True, False),
        ({**XTERM, "NO_COLOR": "1"}, False, True, False),
        ({**XTERM, "NO_COLOR": ""}, False, True, True),
        ({**XTERM, "NO_COLOR": "0"}, False, True, False),
        ({**XTERM, "CLICOLOR": "0"}, False, True, False),
        ({**XTERM, "CLICOLOR": "1"}, False, False, False),
        ({**XTERM, "FORCE_COLOR": "1"}, False, False, True),
        ({**XTERM, "FORCE_COLOR": "0"}, False, False, False),
        ({**XTERM, "CLICOLOR_FORCE": "1"}, False, False, True),
        ({"FORCE_COLOR": "1", "TERM": "dumb"}, False, True, True),
        ({"FORCE_COLOR": "1", "NO_COLOR": "1"}, False, True, False),
        ({"FORCE_COLOR": "1"}, True, True, False),
    ],
)
def test_a_switch_decides(
    environ: dict[str, str], plain: bool, terminal: bool, allowed: bool
) -> None:
    assert coloured(environ, plain=plain, terminal=terminal) is allowed


VALUES = {
    "NO_COLOR": (None, "", "1"),
    "FORCE_COLOR": (None, "", "0", "1"),
    "CLICOLOR_FORCE": (None, "0", "1"),
    "CLICOLOR": (None, "0", "1"),
    "TERM": ("xterm", "dumb"),
}
RULES = (
    ("plain", ("yes",), False),
    ("NO_COLOR", ("1",), False),
    ("FORCE_COLOR", ("1",), True),
    ("CLICOLOR_FORCE", ("1",), True),
    ("CLICOLOR", ("0",), False),
    ("TERM", ("dumb",), False),
    ("terminal", ("no",), False),
)
"""In this order, the first that fits decides; else there is colour."""


@pytest.mark.parametrize("values", list(product(*VALUES.values())), ids=str)
def test_the_switches_decide_in_their_order(values: tuple[str | None, ...]) -> None:
    told = dict(zip(VALUES, values, strict=True))
    environ = {name: value for name, value in told.items() if value is not None}
    for plain, terminal in product((False, True), repeat=2):
        seen = told | {"plain": "yes" if plain else None, "terminal": None if terminal else "no"}
        expected = next((allowed for name, on, allowed in RULES if seen[name] in on), True)
        assert coloured(environ, plain=plain, terminal=terminal) is expected


@pytest.mark.parametrize(
    ("value", "wished"),
    [("1", True), ("true", True), ("yes", True), ("0", False), ("false", False), ("", False)],
)
def test_accessible_asks_for_plain_text(value: str, wished: bool) -> None:
    assert accessible({"ACCESSIBLE": value}) is wished
    assert accessible({}) is False


@pytest.mark.parametrize(
    ("name", "is_dumb"), [("dumb", True), ("unknown", True), ("", True), ("vt100", False)]
)
def test_a_terminal_that_can_only_write_lines_is_known(name: str, is_dumb: bool) -> None:
    assert dumb({"TERM": name}) is is_dumb
