"""Which declared question a line asks, judged by the sentences of each question, or none.

Only a score that is high enough, and well above the second, is an answer: "I don't know that
one" is better than a wrong one. How a line is scored stands in `likeness.py`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from assistant.answers.likeness import Likeness, plain

ENOUGH, SECOND = 7.5, 0.6
"""What the best must score once this part of what the second scores is taken off."""
NEAR, MOST_NEAR = 6.0, 3
"""What one must score to be offered, and how many are."""
VAGUE = ""
"""The name of what is no question: lines that ask for nothing that is declared."""


@dataclass(frozen=True)
class Asked:
    """The declared questions by name, and the words of asking, as the flow files hold them."""

    questions: Mapping[str, Any]
    asking: Mapping[str, Any]

    def answer(self, name: str) -> str:
        """What is answered to a question."""
        return str(self.questions[name]["answer"])

    def before(self, name: str) -> str:
        """What is answered while a value that the answer names is not known."""
        return str(self.questions[name]["before"])

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
        return first[1] if first[0] - SECOND * max(second[0], 0) >= ENOUGH else ""

    def near(self, line: str) -> tuple[str, ...]:
        """The names of the few questions that a line may ask, the likeliest first."""
        best = [name for score, name in self.ranking(line)[:MOST_NEAR] if score >= NEAR]
        return () if VAGUE in best else tuple(best)

    def ranking(self, line: str) -> list[tuple[float, str]]:
        """Every question by how like the line it is, vague ones too; none for other matters."""
        said = f" {plain(line)} "
        if any(f" {words} " in said for words in self.asking["elsewhere"]):
            return []
        return self.likeness.ranking(line)

    @cached_property
    def likeness(self) -> Likeness:
        """The sentences of every question, made ready when a line is first compared."""
        sentences = {name: question["asked"] for name, question in self.questions.items()}
        sentences[VAGUE] = self.asking["vague"]
        return Likeness(sentences, self.asking["same"])


def is_name(text: str) -> bool:
    """Whether a line is written as a name is: "Which Way Farm", but not "can I feed it"."""
    later = (word for word in text.split()[1:] if word != "I")
    return not text.rstrip().endswith("?") and any(map(str.istitle, later))
