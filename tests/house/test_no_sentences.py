"""Every sentence that people see lives in flows/, none in Python."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.house.sentences import Literal, literals, looks_like_a_sentence, sentences
from tests.house.tree import modules, tree

SQL = re.compile(
    r"\s*(ALTER|AND|ATTACH|BEGIN|CREATE|DELETE|DETACH|DROP|EXPLAIN|FROM|INSERT|ORDER|PRAGMA|SELECT"
    r"|UPDATE|VACUUM|WHERE|WITH)\b"
)
UNIT_WORDS = re.compile(
    r"(?:per|of|a|sq|cu|square|cubic|thousand|hundred|PLS|pure|live|seeds?|plants?|rows?|turns?|pulses?"
    r"|in|inch|inches|ft|foot|feet|yd|yards?|ac|acres?|mm|cm|m|meters?|metres?|ha|hectares?"
    r"|lbs?|pounds?|oz|ounces?|g|grams?|kg|kilos?|bu|bushels?)"
)
LONGEST_SPELLING = 4


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Strings that look like sentences and are none: where, which, and why."""

    folder: str
    holds: Callable[[str], bool]
    reason: str


def is_sql(text: str) -> bool:
    """A statement, or a piece of one that starts with one of its words."""
    return SQL.match(text) is not None


def is_unit(text: str) -> bool:
    """Nothing but words of units: "seeds per square foot"."""
    return all(UNIT_WORDS.fullmatch(word) for word in re.findall(r"[^\W\d_]+", text))


def is_spelling(text: str) -> bool:
    """A few words as typed: small letters, no point, no question mark."""
    words = text.split()
    return len(words) <= LONGEST_SPELLING and text == text.lower() and text[-1].isalnum()


EXCEPTIONS = (
    LeftOut("assistant/book/", is_sql, "SQL is read by the database, never by a person"),
    LeftOut("assistant/quantities/", is_unit, "unit words are data: how a value is shown"),
    LeftOut("assistant/answers/", is_unit, "unit words are data: how a value is typed"),
    LeftOut("assistant/answers/", is_spelling, "spellings that people type, never shown"),
)


def excepted(literal: Literal) -> bool:
    """Whether an exception covers the literal."""
    return any(
        literal.module.startswith(exception.folder) and exception.holds(literal.text)
        for exception in EXCEPTIONS
    )


def found_in(folder: Path, source: str) -> list[str]:
    """The sentences in one module of the given source."""
    module = folder / "planted.py"
    module.write_text(source, encoding="utf-8")
    return [text for _, text in literals(tree(module)) if looks_like_a_sentence(text)]


def test_no_module_holds_a_sentence() -> None:
    found = [literal for module in modules() for literal in sentences(module)]
    assert [literal for literal in found if not excepted(literal)] == []


@pytest.mark.parametrize(
    "source",
    [
        'x = "Set the lever now."',
        'raise ValueError("no such fact")',
        'x = f"{share} in 100 too light: open it"',
        'x = f"Set {mark} to {number}"',
        'x = ("Weigh the "\n "catch")',
        'x = "Weigh the " + what + " now"',
        'x = {"light": "It runs light."}',
        'x = "¿Cuántas hileras caen?"',
        'def f(x="turn it again"):\n    return x',
        'print("That\'s (about) right, then.")',
        'x = f"{a:{b}} and then some"',
        'f(help="the book to use")',
        """x = f"{names.get(key, 'no such name')}: {key}\"""",
        'x = "a" + pick("one of these")',
    ],
)
def test_a_planted_sentence_is_found(source: str, tmp_path: Path) -> None:
    assert found_in(tmp_path, source)


@pytest.mark.parametrize(
    "source",
    [
        '"""A docstring may say what it likes."""',
        'def f() -> None:\n    """So may this one here."""',
        'class C:\n    width: int\n    """Or the one below a field."""',
        'x = "seed/lb"',
        'x = "drive_range"',
        'x = "two words"',
        'x = f"{low} {unit} {high}"',
        'x = f"{number} {unit}"',
        'x = "acre = 43560 * foot ** 2 = ac"',
        'x = re.compile(r"a pattern may say words", re.VERBOSE)',
        'x = "%Y-%m-%d %H:%M:%S"',
        'x: "dict[str, object] | None" = None',
    ],
)
def test_what_is_no_sentence_is_left_alone(source: str, tmp_path: Path) -> None:
    assert found_in(tmp_path, source) == []


@pytest.mark.parametrize(
    ("module", "text", "covered"),
    [
        ("assistant/book/book.py", "SELECT id FROM talk WHERE job = ?", True),
        ("assistant/book/book.py", "The book is locked", False),
        ("assistant/script/play.py", "SELECT id FROM talk", False),
        ("assistant/quantities/show.py", "plants per sq ft", True),
        ("assistant/quantities/show.py", "too few plants per sq ft", False),
        ("assistant/answers/words.py", "i do not know", True),
        ("assistant/answers/words.py", "Type a number now", False),
        ("assistant/answers/words.py", "type a number and its unit", False),
    ],
)
def test_an_exception_reaches_no_further_than_its_reason(
    module: str, text: str, *, covered: bool
) -> None:
    assert excepted(Literal(module, 1, text)) is covered
