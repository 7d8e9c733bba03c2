"""Numbers as people type them: decimal point or comma, thousands, fractions, mixed numbers, powers.

A number is an exact fraction. Where marks leave two readings both are given, the likelier first:
"1,250" is 1250 or 1.25; "1.250" is 1.25 or 1250.
"""

from __future__ import annotations

import re
from fractions import Fraction

from assistant.answers.expect import Trouble

NUMERAL = r"(?:\d+(?:'\d{3})*(?:[.,]\d+)*|[.,]\d+)(?:e[+-]?\d+)?"
NUMBER = rf"(?:\d+[ -]\d+/\d+(?![\d.,])|\d+/\d+(?![\d.,/])|{NUMERAL})"

MOST_DIGITS = 15

_MIXED = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)")
_POWER = re.compile(r"\s*(?:x|\*)\s*10\s*(?:\^|\*\*)\s*([+-]?\d+)|\s*(?:x|\*)\s*10([⁺⁻]?\d+)(?!\d)")
_GROUPS = re.compile(r"[1-9]\d{0,2}(?:[.,']\d{3})+")
_LETTER = re.compile(
    r"(?:(?<=[\d.,])[ol](?=[\d.,])|\bo(?=[.,]\d)|\bl(?=[.,]?\d)|(?<=\d)o(?=\d|\b))"
)
_DATE = re.compile(r"\d{1,4}([/.-])\d{1,2}\1\d{2,4}")


def with_powers(text: str) -> str:
    """The text with "1.2 x 10^6" written as "1.2e6"."""
    return _POWER.sub(lambda found: f"e{found[1] or found[2]}", text)


def refuse_slips(text: str) -> None:
    """Raise Trouble for marks and letters that are slips of the finger, and for dates."""
    if re.search(r"[.,]{2,}|/{2,}|:{2,}", text):
        raise Trouble("doubled_mark", ("likely", re.sub(r"([.,/:])[.,/:]+", r"\1", text)))
    if _LETTER.search(text):
        digits = {"o": "0", "l": "1"}
        raise Trouble(
            "letter_in_number", ("likely", _LETTER.sub(lambda found: digits[found[0]], text))
        )
    if re.search(r"\b(?:nan|inf|infinity|infinito)\b|∞", text):
        raise Trouble("not_finite")


def is_date(text: str) -> bool:
    """Whether the text can be a date, such as 12/5/24 or 2024-5-12."""
    return _DATE.fullmatch(text) is not None


def readings(text: str) -> tuple[Fraction, ...]:
    """What a text that matches NUMBER can mean, likelier first.

    Raises: Trouble division_by_zero, too_big, too_small, or doubled_mark for marks out of place.
    """
    mixed = _MIXED.fullmatch(text)
    if mixed:
        if int(mixed[3]) == 0:
            raise Trouble("division_by_zero")
        _refuse_long(mixed[0])
        return (int(mixed[1] or 0) + Fraction(int(mixed[2]), int(mixed[3])),)
    digits, _, power = text.partition("e")
    _refuse_long(digits)
    if abs(int(power or 0)) > MOST_DIGITS:
        raise Trouble("too_small" if power.startswith("-") else "too_big")
    return tuple(each * Fraction(10) ** int(power or 0) for each in _numerals(digits))


def _refuse_long(digits: str) -> None:
    if len(digits) > 2 * MOST_DIGITS or len(re.split(r"[.,/ -]", digits)[0]) > MOST_DIGITS:
        raise Trouble("too_big", ("digits", str(MOST_DIGITS)))


def _numerals(digits: str) -> tuple[Fraction, ...]:
    marks = [mark for mark in digits if not mark.isdigit()]
    if not marks:
        return (Fraction(int(digits)),)
    if len(marks) == 1 and marks[0] != "'":
        return _one_mark(digits, marks[0])
    if _GROUPS.fullmatch(digits) and (len(set(marks)) == 1 or "'" in marks):
        return (Fraction(re.sub(r"\D", "", digits)),)
    whole, part = digits[: digits.rindex(marks[-1])], digits.rpartition(marks[-1])[2]
    grouped = _GROUPS.fullmatch(whole) and len(set(marks[:-1])) == 1
    if not grouped or marks[-1] in marks[:-1] or marks[-1] == "'":
        raise Trouble("doubled_mark")
    return (Fraction(re.sub(r"\D", "", whole) + "." + part),)


def _one_mark(digits: str, mark: str) -> tuple[Fraction, ...]:
    decimal = Fraction("0" + digits.replace(mark, "."))
    if not _GROUPS.fullmatch(digits):
        return (decimal,)
    grouped = Fraction(digits.replace(mark, ""))
    return (grouped, decimal) if mark == "," else (decimal, grouped)
