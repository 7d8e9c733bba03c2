"""How like a line is to the sentences that each question was declared with.

Two things are added. First what each word says for a question: the logarithm of how many times
more of its sentences hold the word than of all sentences (naive Bayes, smoothed). Two words in a
row count as one more word, for less. Then how near the line comes to the three
nearest sentences of the question: the cosine of their words, rare ones counting for more.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from functools import cached_property
from heapq import nlargest
from itertools import pairwise
from math import hypot, log

OWN = 0.5
"""How far the sentences of a question are trusted over those of all."""
PAIR = 0.3
"""What two words in a row count beside one word."""
NEAREST, CLOSENESS = 3, 8.0
"""How many sentences are compared with a line, and what being the same as them counts."""
SHORTEST_STEM = 3
SHORTEST_SLIP, ALIKE = 4, 0.8
"""How long a stem must be to be read as one that looks like it, and how alike they must be."""

Sign = str | tuple[str, str]

_WORD = re.compile(r"\.?\d+(?:\.\d+)?|[a-z][a-z0-9]*|%")
_ENDINGS = ("ings", "ing", "in", "ies", "ed", "es", "s")


class Likeness:
    """The sentences of every question, and which words say the same, ready to be compared."""

    def __init__(
        self, sentences: Mapping[str, Sequence[str]], same: Mapping[str, Iterable[str]]
    ) -> None:
        self._standing = {stem(word): stem(one) for one, words in same.items() for word in words}
        self._stems: dict[str, str] = {}
        self._sentences = {name: len(lines) for name, lines in sentences.items()}
        self._held: dict[Sign, list[str]] = defaultdict(list)
        self._said: list[tuple[str, frozenset[str]]] = []
        for name, lines in sentences.items():
            for line in lines:
                words = self.words(line)
                self._said.append((name, frozenset(words)))
                for sign in signs(words):
                    self._held[sign].append(name)

    def words(self, line: str) -> list[str]:
        """The words of a line without endings; one stands for all that say the same."""
        return [self._stems.get(word) or self._stem(word) for word in _WORD.findall(small(line))]

    def _stem(self, word: str) -> str:
        ending_off = stem(word)
        self._stems[word] = self._standing.get(ending_off, ending_off)
        return self._stems[word]

    def _heard(self, line: str) -> list[str]:
        """The words of a typed line; a slip is read as the known word that looks like it."""
        return [each if each in self._held else self._like(each) for each in self.words(line)]

    def _like(self, word: str) -> str:
        near = [w for w in self._rarity if w[0] == word[0] and abs(len(w) - len(word)) <= 1]
        found = get_close_matches(word, near, 1, ALIKE) if len(word) >= SHORTEST_SLIP else ()
        return next(iter(found), word)

    def ranking(self, line: str) -> list[tuple[float, str]]:
        """Every question by how like the line it is, the likest first."""
        words = self._heard(line)
        scores = self._told_by(signs(words))
        for name, near in self._nearness(frozenset(words)).items():
            scores[name] += CLOSENESS * sum(nlargest(NEAREST, near)) / NEAREST
        return sorted(((score, name) for name, score in scores.items()), reverse=True)

    def _told_by(self, found: Mapping[Sign, float]) -> dict[str, float]:
        """What words, with what each counts, say for each question."""
        known = {sign: counts for sign, counts in found.items() if sign in self._held}
        scores = dict.fromkeys(self._sentences, sum(known.values()) * log(1 - OWN))
        for sign, counts in known.items():
            held = self._held[sign]
            for name, times in Counter(held).items():
                more = times / self._sentences[name] / (len(held) / len(self._said))
                scores[name] += counts * log(1 + more * OWN / (1 - OWN))
        return scores

    def _nearness(self, words: frozenset[str]) -> Mapping[str, list[float]]:
        """For each question the cosines of the sentences that share a word with these."""
        shared: dict[int, float] = defaultdict(float)
        for word in words:
            for at in self._at.get(word, ()):
                shared[at] += self._rarity[word] ** 2
        found: dict[str, list[float]] = defaultdict(list)
        length = self._length(words)
        for at, product in shared.items():
            found[self._said[at][0]].append(product / (length * self._lengths[at]))
        return found

    def _length(self, words: Iterable[str]) -> float:
        """The length of a sentence as a vector of the rarities of its words."""
        rarest = log(len(self._sentences))
        return hypot(*(self._rarity.get(word, rarest) for word in words)) or 1

    @cached_property
    def _rarity(self) -> Mapping[str, float]:
        """The logarithm of one in how many questions hold a word; none for what half of them do."""
        rarity = {
            word: log(len(self._sentences) / len(set(self._held[word])))
            for word in frozenset().union(*(words for _, words in self._said))
        }
        return {word: rare if rare > log(2) else 0.0 for word, rare in rarity.items()}

    @cached_property
    def _lengths(self) -> list[float]:
        return [self._length(words) for _, words in self._said]

    @cached_property
    def _at(self) -> Mapping[str, list[int]]:
        """The sentences that hold a word that counts."""
        found: dict[str, list[int]] = defaultdict(list)
        for at, (_, words) in enumerate(self._said):
            for word in words:
                if self._rarity[word]:
                    found[word].append(at)
        return found


def signs(words: Sequence[str]) -> dict[Sign, float]:
    """The words of a line and its pairs of words in a row, with what each counts."""
    return dict.fromkeys(words, 1.0) | dict.fromkeys(pairwise(words), PAIR)


def small(line: str) -> str:
    """A line in small letters, without apostrophes."""
    return line.lower().replace("'", "").replace("\N{RIGHT SINGLE QUOTATION MARK}", "")


def plain(line: str) -> str:
    """Words in small letters, without apostrophes and sentence marks."""
    return " ".join(re.sub(r"[?!,;:()\"]+|\.(?!\d)", " ", small(line)).split())


def stem(word: str) -> str:
    """A word without its ending."""
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= SHORTEST_STEM:
            word = word.removesuffix(ending)
            break
    if len(word) > SHORTEST_STEM and word[-1] == word[-2] and word[-1] not in "aeiouls":
        return word[:-1]
    return word.removesuffix("e") if len(word) > SHORTEST_STEM else word
