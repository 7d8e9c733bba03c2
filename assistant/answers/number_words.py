"""Numbers in words, English and Spanish, turned into digits; other words stay as they are.

"Once" is not in the list: it is eleven in Spanish and "one time" in English.
"""

from __future__ import annotations

import re
from fractions import Fraction

from assistant.answers.text import listed, one_of

_FROM_ONE = listed(
    "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    "|sixteen|seventeen|eighteen|nineteen"
)
_DE_UNO = listed("uno|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez")
_DE_DOCE = listed(
    "doce|trece|catorce|quince|dieciseis|diecisiete|dieciocho|diecinueve|veinte|veintiuno"
    "|veintidos|veintitres|veinticuatro|veinticinco|veintiseis|veintisiete|veintiocho|veintinueve"
)
_TENS = listed("twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety")
_DECENAS = listed("treinta|cuarenta|cincuenta|sesenta|setenta|ochenta|noventa")
_CENTENAS = listed(
    "ciento|doscientos|trescientos|cuatrocientos|quinientos|seiscientos|setecientos|ochocientos"
    "|novecientos"
)
_THOUSAND = 1000
_SCALES = {
    **dict.fromkeys(listed("dozen|docena|docenas"), 12),
    "hundred": 100,
    "thousand": _THOUSAND,
    "mil": _THOUSAND,
}
_PARTS = {
    **dict.fromkeys(listed("half|medio|media"), 2),
    **dict.fromkeys(listed("quarter|quarters|cuarto|cuartos"), 4),
    **dict.fromkeys(listed("eighth|eighths|octavo|octavos"), 8),
    **dict.fromkeys(listed("tenth|tenths|decimo|decimos"), 10),
    **dict.fromkeys(listed("sixteenth|sixteenths"), 16),
    **dict.fromkeys(listed("twentieth|twentieths"), 20),
    **dict.fromkeys(listed("hundredth|hundredths"), 100),
}
VALUES: dict[str, int] = {
    **{word: number for number, word in enumerate(_FROM_ONE, 1)},
    **{word: number for number, word in enumerate(_DE_UNO, 1)},
    **{word: number for number, word in enumerate(_DE_DOCE, 12)},
    **{word: 10 * number for number, word in enumerate(_TENS, 2)},
    **{word: 10 * number for number, word in enumerate(_DECENAS, 3)},
    **{word: 100 * number for number, word in enumerate(_CENTENAS, 1)},
    "un": 1,
    "una": 1,
    "cien": 100,
}
_AND = ("and", "y", "a", "an")
_WORD = one_of(*VALUES, *_SCALES, *_PARTS)
_RUN = re.compile(rf"\b(?:an? )?(?:{_WORD})(?:(?:[ -]| (?:and|y) (?:an? )?| an? )(?:{_WORD}))*\b")
_PART = "|".join(_PARTS)
_DIGITS_AND_PART = re.compile(rf"(\d+) (?:and|y) (?:an? |un )?({_PART})\b")
_DIGITS_THING_AND_PART = re.compile(rf"(\d+) ([a-z]+) (?:and|y) (?:an? |un )?({_PART})$")
_PART_OF = re.compile(r"(\d/\d+) (?:(?:of|de) )?(?:an?|una?) (?=[a-z])")
_RUN_TOGETHER = re.compile(rf"\b({one_of(*_TENS)})({one_of(*_FROM_ONE[:9])})\b")
TEN = 10
_NOUGHT = listed("zero|oh|cero")
_DIGIT = one_of(*(word for word, value in VALUES.items() if value < TEN), *_NOUGHT)
_POINT = re.compile(
    rf"\b(?:({one_of(*VALUES, *_NOUGHT)}) )?(?:point|punto|coma) ((?:{_DIGIT})(?: (?:{_DIGIT}))*)\b"
)
_ONE_PART = re.compile(rf"(?<=and )one ((?:{_PART})\b)")
_THING_AND_PART = re.compile(rf"(?:an? |una? )?([a-z]+) (?:and|y) (?:an? |un )?({_PART})")


def in_digits(text: str) -> tuple[str, bool]:
    """The text with its number words in digits, and whether they had only one reading.

    "ciento ochenta" is 180 and sure; "one eighty" is 180 and not sure.
    """
    sure = True

    def digits(run: re.Match[str]) -> str:
        nonlocal sure
        if re.search(r"\d *$", text[: run.start()]) and run[0].split()[0] in _SCALES:
            return run[0]  # "20 mil": a multiplier of the digits before it
        value, plainly = _value(re.split("[ -]", run[0]))
        sure = sure and plainly
        return _written(value)

    text = _RUN_TOGETHER.sub(r"\1 \2", text)
    text = _POINT.sub(lambda at: f"{VALUES.get(at[1], 0)}.{_figures(at[2])}", text)
    text = _ONE_PART.sub(r"\1", text)
    text = _DIGITS_AND_PART.sub(lambda found: f"{found[1]} 1/{_PARTS[found[2]]}", text)
    text = _DIGITS_THING_AND_PART.sub(lambda at: f"{at[1]} 1/{_PARTS[at[3]]} {at[2]}", text)
    thing = _THING_AND_PART.fullmatch(text)
    if thing and thing[1] not in VALUES and thing[1] not in _SCALES:
        return f"1 1/{_PARTS[thing[2]]} {thing[1]}", True
    text = _RUN.sub(digits, text)
    return _PART_OF.sub(r"\1 ", text), sure


def _figures(words: str) -> str:
    """Words for digits behind a point: "two five" is 25."""
    return "".join(str(VALUES.get(word, 0)) for word in words.split())


def _value(words: list[str]) -> tuple[Fraction, bool]:
    """What a run of number words comes to, and whether it was said in only one way."""
    total, current, sure = Fraction(0), Fraction(0), True
    joined = False
    for word in words:
        if word in _AND:
            joined = joined or word in ("and", "y")
        elif word in _PARTS:
            current = _with_part(current, word, joined=joined)
        elif word in _SCALES:
            current = (current or Fraction(1)) * _SCALES[word]
            if _SCALES[word] == _THOUSAND:
                total, current = total + current, Fraction(0)
        else:
            current, plainly = _next(current, VALUES[word])
            sure = sure and plainly
    return total + current, sure


def _with_part(current: Fraction, word: str, *, joined: bool) -> Fraction:
    """Joined by "and" a part is added, as in "two and a half"; else it is counted."""
    if joined:
        return current + Fraction(1, _PARTS[word])
    return (current or Fraction(1)) / _PARTS[word]


def _next(current: Fraction, value: int) -> tuple[Fraction, bool]:
    """A further word: added where there is room ("one hundred" + 80), else said like digits."""
    room = 10 ** len(str(value))
    if current and current % room == 0:
        return current + value, True
    if not current:
        return Fraction(value), True
    return current * room + value, False


def _written(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return (f"{whole} " if whole else "") + f"{rest.numerator}/{rest.denominator}"
