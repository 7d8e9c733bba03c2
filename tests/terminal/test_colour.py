"""Which switches allow colour, and which of them decides."""

from __future__ import annotations

from itertools import product

import pytest

from assistant.terminal.colour import coloured

SWITCHES = {
    "NO_COLOR": ("", "1"),
    "FORCE_COLOR": ("", "1"),
    "CLICOLOR_FORCE": ("0", "1"),
    "CLICOLOR": ("1", "0"),
    "TERM": ("xterm", "dumb"),
}


@pytest.mark.parametrize(
    ("environ", "plain", "terminal", "allowed"),
    [
        ({}, False, True, True),
        ({}, False, False, False),
        ({"TERM": "xterm-256color"}, False, True, True),
        ({"TERM": "dumb"}, False, True, False),
        ({"NO_COLOR": "1"}, False, True, False),
        ({"NO_COLOR": ""}, False, True, True),
        ({"NO_COLOR": "0"}, False, True, False),
        ({"CLICOLOR": "0"}, False, True, False),
        ({"CLICOLOR": "1"}, False, False, False),
        ({"FORCE_COLOR": "1"}, False, False, True),
        ({"FORCE_COLOR": "0"}, False, False, False),
        ({"CLICOLOR_FORCE": "1"}, False, False, True),
        ({"FORCE_COLOR": "1", "TERM": "dumb"}, False, True, True),
        ({"FORCE_COLOR": "1", "NO_COLOR": "1"}, False, True, False),
        ({"FORCE_COLOR": "1"}, True, True, False),
    ],
)
def test_a_switch_decides(
    environ: dict[str, str], plain: bool, terminal: bool, allowed: bool
) -> None:
    assert coloured(environ, plain=plain, terminal=terminal) is allowed


@pytest.mark.parametrize("values", list(product(*SWITCHES.values())), ids="-".join)
def test_the_switches_decide_in_their_order(values: tuple[str, ...]) -> None:
    environ = dict(zip(SWITCHES, values, strict=True))
    forced = "1" in {environ["FORCE_COLOR"], environ["CLICOLOR_FORCE"]}
    quiet = environ["CLICOLOR"] == "0" or environ["TERM"] == "dumb"
    expected = not environ["NO_COLOR"] and (forced or not quiet)
    assert coloured(environ, plain=False, terminal=True) is expected
    assert coloured(environ, plain=False, terminal=False) is (not environ["NO_COLOR"] and forced)
    assert coloured(environ, plain=True, terminal=True) is False
