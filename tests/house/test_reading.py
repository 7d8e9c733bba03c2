"""The counter of reading grades agrees with counts by hand; texts are easy on average.

`drillside flows check` holds each text to `flows/plain.toml`.
"""

from statistics import mean

import pytest

from assistant.checking.plain import rules
from assistant.checking.reading import grade, sentences, syllables, words
from assistant.checking.said import said_in
from tests.house.tree import FLOWS

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

MOST = rules(FLOWS).at_most
HARDEST_ON_AVERAGE = 5.0
TEXTS = list(said_in(FLOWS))


@pytest.mark.parametrize("text", BY_HAND)
def test_the_counter_agrees_with_a_count_by_hand(text: str) -> None:
    assert (len(words(text)), sum(map(syllables, words(text)))) == BY_HAND[text]


def test_the_grade_is_worked_out_as_published() -> None:
    # 6 words, 1 sentence, 7 syllables: 0.39 x 6 + 11.8 x 7 / 6 - 15.59
    assert grade("How many rows will drop seed?") == pytest.approx(0.5167, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "parts"),
    [("Chain on? Gates open? Now turn.", 3), ("Tag:\n- lot\n- 85 %", 2), ("{drill}. Go on", 2)],
)
def test_a_text_is_cut_into_its_sentences(text: str, parts: int) -> None:
    assert len(sentences(text)) == parts


def test_a_hard_text_is_found() -> None:
    hard = "Utilization of unverified calibration coefficients necessitates additional evaluation."
    assert grade(hard) > MOST["grade"]


def test_there_are_hundreds_of_texts_to_look_at() -> None:
    assert len(TEXTS) > 1500


@pytest.mark.parametrize("folder", ["facts", "jobs", "parts", "words", "cautions", "glossary"])
def test_each_group_of_texts_is_easy_on_average(folder: str) -> None:
    texts = [each.text for each in TEXTS if folder in str(each.where[0])]
    long = [text for text in texts if len(words(text)) >= MOST["ungraded"]]
    assert long
    assert mean(map(grade, long)) <= HARDEST_ON_AVERAGE
