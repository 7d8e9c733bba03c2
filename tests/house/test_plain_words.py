"""Plain words on the screen: none that blame or puff, one name for one thing, in any encoding."""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from assistant.terminal.signs import showable
from tests.house.reading import texts_in
from tests.house.test_reading import NOT_SAID, SHOWN, said
from tests.house.tree import FLOWS

AVOID = """
forbidden fatal abort aborted wrong incorrect bad failure unable
utilize utilise ensure commence terminate facilitate approximately sufficient obtain
additional regarding via simply obviously easily easy basically
parameter parameters variable input inputs output default null boolean syntax
execute initialize configure validate database query
"""
"""Words that blame, puff up, or come from inside the program. test_words.py holds a few more."""

ON_PURPOSE = {
    "wrong": {"The wrong way doubles the mistake."},  # of the lever, not of a person
    "input": {"how much of it each input made"},
}

ONE_NAME = {
    "turn": "revolution revolutions rotation rotations revs",
    "drill": "seeder planter implement",
    "opening": "aperture gap",
    "catch": "sample samples collection",
    "tub": "bucket buckets pail pan pans container containers",
    "card": "certificate ticket slip",
    "book": "logbook ledger archive log",
    "guess": "estimate estimated assumption",
    "tag": "docket",
    "feed": "meter metering hopper",
    "drive wheel": "land-wheel groundwheel",
    "tyre": "tire tires",
    "jack stand": "axle-stand trestle",
    "job": "conversation conversations session sessions task workflow",
    "caution": "hazard hazards",
    "seed": "grain kernels",
}
"""Each name, and what the same thing may not be called. A meter is a length here."""

NOT_THE_THING = {
    "grain": {"85 is a fair figure for grain in a good bed."},  # the crops, not the seed
}

TRADE_WORDS = """
boot bushel chock emergence feed germination hard-seed jack-stand lever lot mark opening prime
purity row-spacing scale-step skid sprocket squat tag tare target test-weight tolerance turn
"""
"""Words of the trade that the questions use: `what is` has to know each."""

FOR_AUTHORS = {"findings.toml"}
"""Read by who writes flow files, with the words of that work."""


def shown_texts() -> Iterator[tuple[str, str]]:
    """File and text of all that a person at a drill may see."""
    for path in SHOWN:
        if path.name not in FOR_AUTHORS:
            yield from ((path.name, text) for text in said(path).values())


def found(word: str) -> list[tuple[str, str]]:
    """Where a word is said."""
    whole = re.compile(rf"(?<![\w{{/-]){re.escape(word)}(?![\w}}-])", re.IGNORECASE)
    return [(name, text) for name, text in shown_texts() if whole.search(text)]


def meant(word: str, allowed: dict[str, set[str]]) -> list[tuple[str, str]]:
    """Where a word is said without leave."""
    leave = allowed.get(word, set())
    return [(name, text) for name, text in found(word) if not any(each in text for each in leave)]


@pytest.mark.parametrize("word", AVOID.split())
def test_words_that_blame_or_puff_are_not_said(word: str) -> None:
    assert meant(word, ON_PURPOSE) == []


@pytest.mark.parametrize(
    ("name", "other"),
    [(name, other) for name, others in ONE_NAME.items() for other in others.split()],
)
def test_one_thing_has_one_name(name: str, other: str) -> None:
    assert meant(other, NOT_THE_THING) == [], f"say {name}"


@pytest.mark.parametrize("name", [name for name in ONE_NAME if name not in {"job", "caution"}])
def test_the_name_is_in_use(name: str) -> None:
    assert found(name) or found(f"{name}s")


@pytest.mark.parametrize("word", TRADE_WORDS.split())
def test_a_word_of_the_trade_is_in_the_glossary(word: str) -> None:
    terms = tomllib.loads((FLOWS / "glossary.toml").read_text(encoding="utf-8"))
    assert word.replace("-", " ") in terms


def test_turn_stand_and_guess_mean_one_thing() -> None:
    """A turn is once round the wheel: nobody's turn, and nothing turns into something."""
    other = re.compile(
        r"\b(?:your turn|in turn|turn(?:s|ed)? (?:\w+ )?(?:into|out)|stands? (?:for|on the tag))\b"
    )
    assert [text for _, text in shown_texts() if other.search(text)] == []


@pytest.mark.parametrize("path", SHOWN, ids=lambda path: path.name)
def test_every_text_can_be_shown_in_every_encoding(path: Path) -> None:
    for text in said(path).values():
        text.encode("cp1252")
        plain = showable(text, "ascii")
        assert plain.isascii()
        assert plain.count("?") == text.count("?")


def test_a_planted_word_is_found() -> None:
    planted = dict(texts_in({"ask": "Which planter?", "id": "planter"}, NOT_SAID))
    assert list(planted) == ["ask"]
    assert found("drill") != []
    assert found("zzz") == []
