"""Plain questions: an answer fits a small screen in short sentences, and no clue leads to two."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator

from assistant.checking.flows import Flows
from assistant.flowfile.findings import Finding

NARROW, ROWS = 40, 8
"""The smallest screen that an answer has to fit, with the question again below it."""
MOST_WORDS = 22
_SENTENCE_END = re.compile(r"[.!?](?:\s+|$)")


def question_faults(flows: Flows) -> Iterator[Finding]:
    """Answers that are too long, and clues that two questions share."""
    questions, _ = flows.library.asides()
    led: dict[tuple[str, ...], str] = {}
    for name, question in questions.items():
        where = (flows.homes[f"questions/{name}"][-1], name)
        if len(textwrap.wrap(question["answer"], NARROW)) > ROWS:
            yield flows.in_file("answer_too_long", (*where, "answer"), name)
        for sentence in _SENTENCE_END.split(question["answer"]):
            if len(sentence.split()) > MOST_WORDS:
                about = {"sentence": sentence}
                yield flows.in_file("sentence_too_long", (*where, "answer"), name, **about)
        for clue in question["asked"]:
            words = tuple(sorted("|".join(sorted(group.split("|"))) for group in clue.split()))
            if led.setdefault(words, name) != name:
                about = {"clue": clue, "other": led[words]}
                yield flows.in_file("clue_twice", (*where, "asked"), name, **about)
