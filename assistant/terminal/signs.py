"""Signs that a terminal may not be able to show, and the plain ones that stand in for them."""

# ruff: noqa: RUF001  odd signs are what this table is about
from __future__ import annotations

import unicodedata

PLAIN = str.maketrans(
    {
        "·": "-", "–": "-", "—": "-", "‑": "-", "•": "-", "−": "-", "→": "->", "×": "x", "÷": "/",
        "’": "'", "‘": "'", "′": "'", "“": '"', "”": '"', "″": '"', "…": "...", "½": "1/2",
        "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "²": "2",
        "³": "3", "°": " deg", "±": "+/-", "≤": "<=", "≥": ">=", "¿": "", "¡": "",
        "\u00a0": " ", "\N{REPLACEMENT CHARACTER}": "?",
    }
)  # fmt: skip


def showable(text: str, encoding: str) -> str:
    """The text as a terminal of this encoding can show it; nothing in it fails to encode."""
    if fits(text, encoding):
        return text
    return "".join(sign if fits(sign, encoding) else plain(sign, encoding) for sign in text)


def plain(sign: str, encoding: str) -> str:
    """What stands in for a sign: from the table, else its letter without marks, else "?"."""
    stand_in = sign.translate(PLAIN)
    if stand_in == sign:
        bare = unicodedata.normalize("NFKD", sign)
        stand_in = "".join(each for each in bare if not unicodedata.combining(each))
    return stand_in if fits(stand_in, encoding) else "?"


def fits(text: str, encoding: str) -> bool:
    """Whether the text can be written in an encoding."""
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True
