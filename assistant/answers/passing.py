"""What is meant in a line that puts an answer right, or asks what another one would do."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

NOT = re.compile(r",? \bnot\b (?!sure\b|certain\b|known\b|yet\b)", re.IGNORECASE)
"""Parts what is meant from what was told before: "20 not 21", but not "20, not sure"."""


def corrected_part(
    text: str, opens: Sequence[str], turns: Sequence[str], fills: Sequence[str]
) -> str:
    """What is put in place, without the words around it; empty where nothing sounds like it.

    `opens` are words that such a line begins with ("no", "I meant"), `turns` words inside it
    ("should be"), `fills` small words that tell nothing. "20 not 21" is 20.
    """
    plain = " ".join(text.split()).strip(" .!")
    opening, rest = "", plain
    while more := longest(opens, rest):
        opening, rest = more, rest[len(more) :].lstrip(" ,.:;-")
    kept = NOT.split(rest, maxsplit=1)[0]
    for word in turns:  # "24 rows, I typed 42": what was typed before comes last
        kept = re.split(rf", *{re.escape(word)} ", kept, maxsplit=1, flags=re.IGNORECASE)[0]
    turned = any(f" {word} " in f" {kept.lower()} " for word in turns)
    if not opening and not turned and kept == rest:
        return ""
    return without(kept, (*turns, *fills))


def supposed_part(
    text: str, opens: Sequence[str], closes: Sequence[str], fills: Sequence[str]
) -> str:
    """What a line supposes, "8 rows" of "what if I had 8 rows?"; empty where it supposes nothing.

    `opens` are words that such a line begins with, `closes` words that it may end with ("do"),
    `fills` words after the opening that tell nothing ("I had").
    """
    plain = " ".join(text.split()).strip(" .!?")
    opening = longest(opens, plain)
    if not opening:
        return ""
    rest = without_opening(plain[len(opening) :], fills)
    word = next((w for w in closes if rest.lower().endswith(f" {w}")), "")
    return rest[: len(rest) - len(word)].strip(" ,")


def without(text: str, words: Iterable[str]) -> str:
    """The text without these words, wherever they stand."""
    for word in sorted(words, key=len, reverse=True):
        text = re.sub(rf"(?<!\S){re.escape(word)}(?!\S)", " ", text, flags=re.IGNORECASE)
    return " ".join(text.split()).strip(" ,")


def without_opening(text: str, fills: Iterable[str]) -> str:
    """The line without the longest of these words that it begins with."""
    plain = " ".join(text.split()).strip(" .!,")
    return plain[len(longest(fills, plain)) :].strip(" ,")


def longest(words: Iterable[str], plain: str) -> str:
    """The longest of these words that a line begins with, and does not consist of."""
    begins = (w for w in words if re.match(rf"{re.escape(w)}[ ,.:;-]", plain, re.IGNORECASE))
    return max(begins, key=len, default="")
