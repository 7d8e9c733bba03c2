"""How hard a text is to read: words, sentences, syllables, and a school grade from them.

The grade is Flesch and Kincaid's: 0.39 words a sentence + 11.8 syllables a word - 15.59
(Kincaid and others, Derivation of New Readability Formulas, Naval Technical Training Command,
1975). The libraries that count syllables better fetch a dictionary when they run; ours needs none.
"""

from __future__ import annotations

import re

HOLE = re.compile(r"\{\w+\}")
WORD = re.compile(r"[A-Za-z]+(?:['\u2019][a-z]+)?")
SENTENCE_END = re.compile(r"(?<=[.!?])\s+|\n")
VOWELS = re.compile(r"[aeiouy]+")
APART = re.compile(r"(?:ia|io|ua|eo|iu)(?!us)|[iy]ing$|[^s]ier$")
"""Vowels side by side that are said apart, as in trial, radio, usual, video."""
TOGETHER = re.compile(r"(?:[tscg]i(?:on|al|an)|ques|guar|qua|gua|people)")
"""Where they are said together, as in fraction, special, quarter."""
VALUE = "seed"  # what stands in for a value: most are one short word


def words(text: str) -> list[str]:
    """The words of a text, a short one in place of each value."""
    return WORD.findall(HOLE.sub(VALUE, text))


def sentences(text: str) -> list[str]:
    """The sentences of a text; a line of a list ends one."""
    parts = SENTENCE_END.split(HOLE.sub(VALUE, text))
    return [part for part in parts if WORD.search(part)]


def syllables(word: str) -> int:
    """The syllables of an English word, by its letters."""
    letters = re.sub(r"[^a-z]", "", word.lower())
    count = len(VOWELS.findall(letters))
    if APART.search(letters) and not TOGETHER.search(letters):
        count += 1
    return max(1, count - silent_ends(letters))


def silent_ends(letters: str) -> int:
    """How many vowels at the end of a word are written and not said."""
    if re.search(r"[^aeiouy]le[sd]?$", letters):
        return 0  # little, handles, settled
    if re.search(r"[^aeiouytd]ed$", letters):
        return 1
    if re.search(r"[^aeiouyszxg]es$", letters) and not letters.endswith(("ches", "shes", "ces")):
        return 1
    return int(bool(re.search(r"[^aeiouy]e$", letters)))


def grade(text: str) -> float:
    """The school grade of a text. Raises ZeroDivisionError for a text without a word."""
    said = words(text)
    total = sum(map(syllables, said))
    return 0.39 * len(said) / len(sentences(text)) + 11.8 * total / len(said) - 15.59
