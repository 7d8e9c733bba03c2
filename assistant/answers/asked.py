"""Which declared question a line asks: found by the words that people use, or not at all.

A question is declared with clues such as "cow|chicken eat|feed": of each group one word should be
in the line. A word counts for more the fewer questions use it. A question scores what the words
of its best clue count together, halved for each group that is missing, and a part of what its
other words count. Only a score that is high enough, and well above the second, is an answer:
"I don't know that one" is better than a wrong one.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import log
from typing import Any

ENOUGH, MARGIN = 9.0, 1.3
"""What the best must score, and how many times the second: chosen on 145 questions."""
ENOUGH_ALONE, MARGIN_ALONE = 6.5, 2.5
"""The same for a short question, whose few words lead nowhere else."""
NEAR, MOST_NEAR = 5.0, 3
"""What one must score to be offered, and how many are."""
MISSING, BESIDE = 0.5, 0.3
SHORTEST_STEM = 3

_WORD = re.compile(r"\.?\d+(?:\.\d+)?|[a-z]+")
_ENDINGS = ("ings", "ing", "ies", "ed", "es", "s")

Stems = frozenset[str]


@dataclass(frozen=True)
class Asked:
    """The declared questions by name, and the words of asking, as the flow files hold them."""

    questions: Mapping[str, Any]
    asking: Mapping[str, Any]

    def answer(self, name: str) -> str:
        """What is answered to a question."""
        return str(self.questions[name]["answer"])

    def about(self, name: str) -> str:
        """What a question is about, in a few words."""
        return str(self.questions[name]["about"])

    def looks_like_one(self, line: str) -> bool:
        """Whether a line has the form of a question."""
        return line.rstrip().endswith("?") or self.words_ask(line)

    def words_ask(self, line: str) -> bool:
        """Whether a line begins like a question, or holds the words of one."""
        said = f" {plain(line)} "
        opens = any(said.startswith(f" {words} ") for words in self.asking["opens"])
        return opens or any(f" {words} " in said for words in self.asking["inside"])

    def must_be_one(self, line: str, *, any_text_fits: bool) -> bool:
        """Whether a line of that form is no answer, although it could be read as one.

        Where any text fits, the form is enough. Else its words have to ask, without a number.
        """
        wordy = self.words_ask(line) and not any(map(str.isdigit, line))
        plainly = line.rstrip().endswith("?") or bool(self.near(line))
        return plainly and (any_text_fits or wordy)

    def sure(self, line: str) -> str:
        """The name of the question that a line asks; empty if none stands out."""
        first, second, *_ = (*self.ranking(line), (0.0, ""), (0.0, ""))
        well = first[0] >= ENOUGH and first[0] >= MARGIN * second[0]
        alone = first[0] >= ENOUGH_ALONE and first[0] >= MARGIN_ALONE * second[0]
        return first[1] if well or alone else ""

    def near(self, line: str) -> tuple[str, ...]:
        """The names of the few questions that a line may ask, the likeliest first."""
        return tuple(name for score, name in self.ranking(line)[:MOST_NEAR] if score >= NEAR)

    def ranking(self, line: str) -> list[tuple[float, str]]:
        """Every question that shares a word with a line, by its score; none for other matters."""
        said = f" {plain(line)} "
        if any(f" {words} " in said for words in self.asking["elsewhere"]):
            return []
        stems = self.stems(line)
        scores = [(self.score(stems, clues), name) for name, clues in self.grouped.items()]
        return sorted((each for each in scores if each[0]), reverse=True)

    def score(self, said: Stems, clues: Iterable[list[Stems]]) -> float:
        """How well the words of a line fit the clues of one question."""
        best = max(self.fit(said, clue) for clue in clues)
        return best + BESIDE * sum(self.counts[word] for word in said & words_of(clues))

    def fit(self, said: Stems, clue: list[Stems]) -> float:
        """What the words of a line count for one clue; a word fits one group only."""
        taken: set[str] = set()
        for group in clue:
            left = (said & group) - taken
            if left:
                taken.add(max(left, key=lambda word: (self.counts[word], word)))
        missing = len(clue) - len(taken)
        return float(sum(self.counts[word] for word in taken) * MISSING**missing)

    def stems(self, text: str) -> Stems:
        """The words of a text without their endings; one stands for all that say the same."""
        words = _WORD.findall(plain(text))
        return frozenset(stem(self.standing.get(word, word)) for word in words)

    @cached_property
    def standing(self) -> Mapping[str, str]:
        """The word that stands for another."""
        return {word: one for one, words in self.asking["same"].items() for word in words}

    @cached_property
    def grouped(self) -> Mapping[str, list[list[Stems]]]:
        """The clues of each question as groups of stems."""
        return {
            name: [[self.stems(group) for group in clue.split()] for clue in question["asked"]]
            for name, question in self.questions.items()
        }

    @cached_property
    def counts(self) -> Mapping[str, float]:
        """What each word counts: the logarithm of one in how many questions use it."""
        uses = Counter(word for clues in self.grouped.values() for word in words_of(clues))
        return {word: log(len(self.grouped) / used) for word, used in uses.items()}


def words_of(clues: Iterable[list[Stems]]) -> Stems:
    """Every word of some clues."""
    return frozenset(word for clue in clues for group in clue for word in group)


def plain(line: str) -> str:
    """Words in small letters, without apostrophes and sentence marks."""
    said = line.lower().replace("'", "").replace("\N{RIGHT SINGLE QUOTATION MARK}", "")
    return " ".join(re.sub(r"[?!,;:()\"]+|\.(?!\d)", " ", said).split())


def stem(word: str) -> str:
    """A word without its ending."""
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= SHORTEST_STEM:
            word = word.removesuffix(ending)
            break
    if len(word) > SHORTEST_STEM and word[-1] == word[-2] and word[-1] not in "aeiouls":
        return word[:-1]
    return word.removesuffix("e") if len(word) > SHORTEST_STEM else word
