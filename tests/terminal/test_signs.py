"""Every text can be written on every terminal."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.flow.place import flows_folder
from assistant.terminal.signs import showable


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("7½ in", "71/2 in"),
        ("don’t know", "don't know"),
        ("wheat · lot 4", "wheat - lot 4"),
        ("2 × 3 → 6", "2 x 3 -> 6"),
        ("Año de José", "Ano de Jose"),
        ("9\u00a0kg", "9 kg"),
        ("\N{EAR OF MAIZE}", "?"),
        ("80 lb/ac", "80 lb/ac"),
    ],
)
def test_an_ascii_terminal_gets_plain_stand_ins(text: str, plain: str) -> None:
    assert showable(text, "ascii") == plain


def test_a_terminal_that_can_show_a_sign_gets_it() -> None:
    assert showable("½ José’s", "utf-8") == "½ José’s"
    assert showable("½ José →", "cp1252") == "½ José ->"


@given(st.text(), st.sampled_from(["ascii", "cp437", "cp1252", "latin-1", "utf-8", "no-such"]))
def test_nothing_fails_to_encode(text: str, encoding: str) -> None:
    shown = showable(text, encoding)
    shown.encode("ascii" if encoding == "no-such" else encoding)


def texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for each in value:
            yield from texts(each)
    elif isinstance(value, dict):
        for each in value.values():
            yield from texts(each)


def test_no_text_that_ships_loses_a_sign_in_ascii() -> None:
    lost = [
        text
        for path in sorted(flows_folder().rglob("*.toml"))
        for text in texts(tomllib.loads(path.read_text(encoding="utf-8")))
        if showable(text, "ascii").count("?") > text.count("?")
    ]
    assert lost == []
