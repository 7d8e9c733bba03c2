"""Plain words on the screen, past what the checker holds to `flows/plain.toml`."""

import re
import tomllib

import pytest

from assistant.checking.plain import FOR_AUTHORS, rules
from assistant.checking.said import said_in
from assistant.terminal.signs import showable
from tests.house.tree import FLOWS

TRADE_WORDS = """
boot bushel chock emergence feed germination hard-seed jack-stand lever lot mark opening prime
purity row-spacing scale-step skid sprocket squat tag tare target test-weight tolerance turn
"""
"""Words of the trade that the questions use: `what is` has to know each."""

RULES = rules(FLOWS)
TEXTS = [each for each in said_in(FLOWS) if each.where[0] != FOR_AUTHORS]
NAMES = sorted(set(RULES.instead.values()) - {""})


@pytest.mark.parametrize("name", [name for name in NAMES if name not in {"job", "caution"}])
def test_the_name_of_a_thing_is_in_use(name: str) -> None:
    named = re.compile(rf"\b{name}s?\b", re.IGNORECASE)
    assert any(named.search(each.text) for each in TEXTS)


@pytest.mark.parametrize(
    "text", [text for texts in RULES.leave.values() for text in texts], ids=lambda text: text[:20]
)
def test_what_has_leave_is_said(text: str) -> None:
    assert any(text in each.text for each in TEXTS)


@pytest.mark.parametrize("word", TRADE_WORDS.split())
def test_a_word_of_the_trade_is_in_the_glossary(word: str) -> None:
    terms = tomllib.loads((FLOWS / "glossary.toml").read_text(encoding="utf-8"))
    assert word.replace("-", " ") in terms


def test_turn_stand_and_guess_mean_one_thing() -> None:
    """A turn is once round the wheel: nobody's turn, and nothing turns into something."""
    other = re.compile(
        r"\b(?:your turn|in turn|turn(?:s|ed)? (?:\w+ )?(?:into|out)|stands? (?:for|on the tag))\b"
    )
    assert [each.text for each in TEXTS if other.search(each.text)] == []


def is_showable_everywhere(text: str) -> bool:
    plain, old = showable(text, "ascii"), text.encode("cp1252", "replace").decode("cp1252")
    return plain.isascii() and plain.count("?") == text.count("?") and old == text


def test_every_text_can_be_shown_in_every_encoding() -> None:
    assert [said for said in TEXTS if not is_showable_everywhere(said.text)] == []


def test_a_sign_that_no_old_screen_has_is_seen() -> None:
    assert not is_showable_everywhere("half \N{SNOWMAN}")
