"""The counter agrees with counts by hand, and every text on the screen is easy to read."""

import tomllib
from functools import cache
from pathlib import Path
from statistics import mean

import pytest

from tests.house.reading import grade, sentences, syllables, texts_in, words
from tests.house.tree import FLOWS, flow_files, name_of

BY_HAND = {
    "Which crop?": (2, 2),
    "How many rows will drop seed?": (6, 7),
    "Zero the scale with the tub on, and it is 0.": (10, 11),
    "Rows that the wheel does not turn catch nothing.": (9, 10),
    "Chains and wheels cut fingers, even by hand.": (8, 10),
    "Germination, in percent?": (3, 7),
    "Treated seed can poison you.": (5, 7),
    "Look in the manual, or ask the owner.": (8, 11),
    "More turns make a heavier catch.": (6, 8),
    "Measure over 6 rows, middle of slot to middle of slot.": (10, 14),
    "Pounds go down, but seeds go up.": (7, 7),
    "The catches agree: proven.": (4, 7),
    "A guess stands in for an unknown.": (7, 8),
    "Cold, crust and depth take some.": (6, 6),
    "Another lot can drop differently at the same mark.": (9, 14),
    "Turn the wheel a little and look at both ends of the shaft.": (13, 14),
    "Caught seed goes back in its own bag.": (8, 8),
    "The next setting is worked out from what was really set.": (11, 13),
    "Only the pure part of the bag is the seed you want.": (12, 13),
    "If the manual gives no safe way, do not lift. Ask the dealer.": (13, 16),
}
"""Words and syllables of twenty sentences, counted by hand."""

NOT_SAID = frozenset(
    (
        *("id", "kind", "names", "told", "bare", "us", "metric", "possible", "usual", "misses_by"),
        *("accepts", "refuses", "words", "commands", "source", "basis", "name", "grade", "only"),
        *("next", "use", "as", "carry", "reads", "sets", "work_out", "propose", "leave", "gives"),
        *("corrected", "exposes", "match", "recall", "split", "caution", "finish", "records"),
        *("variants", "variant_by", "table", "known_words", "at_most", "in_step_of", "look"),
        *("usual_near", "usual_times", "usual_by", "half_of", "stands_at", "members", "last"),
        *("under", "unknown", "stale_after", "example", "half", "mending", "meant"),
        *("asked", "bring"),
    )
)
"""Keys whose texts are for the machine, or are typed by people, or are sources."""

LONG = 12  # words: a shorter text has too few for a grade of its own
HARDEST, HARDEST_ON_AVERAGE = 6.0, 5.0
QUESTION_AT_MOST, SENTENCE_AT_MOST, PARAGRAPH_AT_MOST = 15, 20, 3
SCRAP = 2  # words: "Chain on?" and "Cards: {card}." are no sentences


KEPT_TOGETHER = {"book.damaged"}  # what is so, and both ways on, in one breath


@cache
def said(path: Path) -> dict[str, str]:
    """The texts of a flow file that can reach the screen, by their keys."""
    return dict(texts_in(tomllib.loads(path.read_text(encoding="utf-8")), NOT_SAID))


TYPED_BY_PEOPLE = FLOWS / "asking.toml"
SHOWN = [p for p in flow_files() if p.parent != FLOWS / "tables" and p != TYPED_BY_PEOPLE]
by_file = pytest.mark.parametrize("path", SHOWN, ids=name_of)


@pytest.mark.parametrize("text", BY_HAND)
def test_the_counter_agrees_with_a_count_by_hand(text: str) -> None:
    assert (len(words(text)), sum(map(syllables, words(text)))) == BY_HAND[text]


def test_the_grade_is_worked_out_as_published() -> None:
    # 6 words, 1 sentence, 7 syllables: 0.39 x 6 + 11.8 x 7 / 6 - 15.59
    assert grade("How many rows will drop seed?") == pytest.approx(0.5167, abs=1e-4)


def test_a_hard_text_is_found() -> None:
    hard = "Utilization of unverified calibration coefficients necessitates additional evaluation."
    assert grade(hard) > HARDEST


def test_there_are_hundreds_of_texts_to_look_at() -> None:
    assert sum(len(said(path)) for path in SHOWN) > 700


@by_file
def test_no_text_is_hard_to_read(path: Path) -> None:
    long = {name: text for name, text in said(path).items() if len(words(text)) >= LONG}
    hard = {name: text for name, text in long.items() if grade(text) > HARDEST}
    assert hard == {}


@pytest.mark.parametrize("folder", ["facts", "jobs", "parts", "words", "cautions", "glossary"])
def test_each_group_of_texts_is_easy_on_average(folder: str) -> None:
    files = [path for path in SHOWN if folder in {path.parent.name, path.stem}]
    texts = [text for path in files for text in said(path).values() if len(words(text)) >= LONG]
    assert texts
    assert mean(map(grade, texts)) <= HARDEST_ON_AVERAGE


@by_file
def test_sentences_are_short(path: Path) -> None:
    long = [
        sentence
        for text in said(path).values()
        for sentence in sentences(text)
        if len(words(sentence)) > (QUESTION_AT_MOST if sentence[-1] == "?" else SENTENCE_AT_MOST)
    ]
    assert long == []


@by_file
def test_paragraphs_are_short(path: Path) -> None:
    texts = {name: text for name, text in said(path).items() if name not in KEPT_TOGETHER}
    assert [name for name, text in texts.items() if any(map(long_paragraph, lines(text)))] == []


def lines(text: str) -> list[str]:
    """The lines of a text: each is a paragraph."""
    return text.split("\n")


def long_paragraph(line: str) -> bool:
    """Whether one line of a text holds too many sentences."""
    return len([s for s in sentences(line) if len(words(s)) > SCRAP]) > PARAGRAPH_AT_MOST


def test_long_ones_are_found() -> None:
    assert long_paragraph("Pull the drill. Count the turns. Stop at the mark. Measure the ground.")
    assert not long_paragraph("Is the drive in? Chain on? Gates open? Wheel turned right?")
