"""Plain questions: an answer fits a small screen, and no sentence asks two."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from assistant.answers.likeness import plain
from assistant.checking.flows import Flows, Where
from assistant.dialogue.wording import HOLE
from assistant.flowfile.findings import Finding

NARROW, ROWS = 40, 8
"""The smallest screen that an answer has to fit, with the question again below it."""


def question_faults(flows: Flows) -> Iterator[Finding]:
    """Answers that are too long, and sentences that two questions share."""
    questions, _ = flows.library.asides()
    asks: dict[str, str] = {}
    for name, question in questions.items():
        where = (flows.homes[f"questions/{name}"][-1], name)
        for key in sorted({"answer", "before"} & set(question)):
            yield from _too_long(flows, (*where, key), name, question[key])
        if HOLE.search(question["answer"]) and "before" not in question:
            yield flows.in_file("missing_key", (*where, "answer"), name, key="before")
        for line in question["asked"]:
            if asks.setdefault(plain(line), name) != name:
                about = {"line": line, "other": asks[plain(line)]}
                yield flows.in_file("asked_twice", (*where, "asked"), name, **about)


def _too_long(flows: Flows, where: Where, name: str, text: str) -> Iterator[Finding]:
    if len(textwrap.wrap(text, NARROW)) > ROWS:
        yield flows.in_file("answer_too_long", where, name)
