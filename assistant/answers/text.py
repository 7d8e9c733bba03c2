"""Typed text made plain: one spelling for each mark, nothing that could drive a terminal."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from assistant.answers.expect import Trouble

LONGEST = 300
LONGEST_NAME = 80
HEARD = 40

KEPT = 4096
"""So many texts are kept plain: one line is looked at by each question that it may answer."""

_UNSEEN = dict.fromkeys([0x00AD, 0x200B, 0x2060, 0xFE0E, 0xFE0F, 0xFEFF])
_MARKS = str.maketrans(
    {
        "‘": "'",
        "’": "'",
        "‚": "'",
        "‛": "'",
        "′": "'",
        "´": "'",
        "`": "'",
        "ʹ": "'",
        "ʼ": "'",
        "“": '"',
        "”": '"',
        "„": '"',
        "‟": '"',
        "″": '"',
        "ʺ": '"',
        "‐": "-",
        "‑": "-",
        "‒": "-",
        "–": "-",
        "—": "-",
        "―": "-",
        "−": "-",
        "⁄": "/",
        "∕": "/",
        "÷": "/",
        "×": "x",
        "∗": "*",
        "·": ".",
        "٫": ".",
        "～": "~",
        "≈": "~",
        "∼": "~",
        "→": "=",
    }
)
_CONTROL = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]"
)
_LINE_END = re.compile("[\n\r\u2028\u2029]+")
_RAISED = re.compile("(?<=\\d)[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+")  # "5²" is not 52
_PASTE_MARK = re.compile("\x1b\\[20[01]~")


def one_line(text: str) -> str:
    """The text without outer spaces, if it is one short line of seen characters.

    Raises: Trouble too_long, control, many_lines or empty.
    """
    if len(text) > LONGEST:
        raise Trouble("too_long", ("most", str(LONGEST)))
    if _CONTROL.search(text):
        raise Trouble("control")
    stripped = text.translate(_UNSEEN).strip()
    if _LINE_END.search(stripped):
        raise Trouble("many_lines")
    if not stripped:
        raise Trouble("empty")
    return stripped


def without_control(text: str) -> tuple[str, int]:
    """Lines without what could drive a terminal, and how many such signs were dropped."""
    lines = _LINE_END.sub("\n", _PASTE_MARK.sub("", text))
    return _CONTROL.subn("", lines)


@lru_cache(maxsize=KEPT)
def marked(text: str) -> str:
    """One line whose quotes, primes, fractions and wide digits are plain: `6' 9 1/2"`.

    Raises: as `one_line` does.
    """
    typed = _RAISED.sub(r"^\g<0>", one_line(text).translate(_MARKS))
    parted = "".join(map(_vulgar, typed, f"{typed[1:]} "))
    folded = unicodedata.normalize("NFKC", parted).translate(_MARKS).replace("''", '"')
    return " ".join(folded.split())


def plain(text: str) -> str:
    """One line with plain marks in lower case. Raises: as `one_line` does."""
    return marked(text).lower()


def _vulgar(mark: str, after: str) -> str:
    """A vulgar fraction such as ½ as " 1/2", any other character as it is.

    A digit after a fraction is no digit of it: "7½5" is two numbers, not 7 1/25.
    """
    if unicodedata.decomposition(mark).startswith("<fraction>"):
        told = unicodedata.normalize("NFKC", mark).replace("⁄", "/")
        return f" {told} " if after.isdigit() else f" {told}"
    return mark


def name(text: str) -> str:
    """A name as typed, its spaces made single. Raises: as `one_line` does."""
    told = " ".join(unicodedata.normalize("NFC", one_line(text)).split())
    if len(told) > LONGEST_NAME:
        raise Trouble("too_long", ("most", str(LONGEST_NAME)))
    return told


def listed(words: str) -> tuple[str, ...]:
    """The words of a list such as "foot|square_foot", in which "_" is a space."""
    return tuple(each.replace("_", " ") for each in words.split("|"))


def one_of(*words: str) -> str:
    """A pattern for any of these words, longer ones first."""
    return "|".join(re.escape(each) for each in sorted(words, key=len, reverse=True))


@lru_cache(maxsize=KEPT)
def unaccented(text: str) -> str:
    """The text without accents: "sí" is "si"."""
    apart = unicodedata.normalize("NFD", text)
    return "".join(each for each in apart if not unicodedata.combining(each))


@lru_cache(maxsize=KEPT)
def words_only(text: str) -> str:
    """Plain text without accents, `_`, `-` and sentence marks: for comparing words.

    Raises: as `one_line` does.
    """
    return " ".join(re.sub(r"[_\-.,;!?]+", " ", unaccented(plain(text))).split())


def heard(text: str) -> str:
    """What was typed, safe and short enough to be quoted."""
    seen = _LINE_END.sub(" ", text[: LONGEST + 1])
    seen = " ".join(_CONTROL.sub("", seen).split())
    return seen if len(seen) <= HEARD else seen[: HEARD - 3] + "..."
