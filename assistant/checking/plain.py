"""Plain language: texts that are easy to read, with no word to avoid and one name for one thing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from assistant.checking.flows import Flows
from assistant.checking.reading import grade, sentences, words
from assistant.checking.said import Said, said_in
from assistant.flow.load import read
from assistant.flowfile.findings import Finding

FILE = "plain.toml"
FOR_AUTHORS = "findings.toml"
"""Read by who writes flow files, with the words of that work."""
SCRAP = 2  # words: "Chain on?" and "Cards: {card}." are no sentences


@dataclass(frozen=True, slots=True)
class Rules:
    """How texts are written: the most of each measure, and each word to avoid with a better one."""

    at_most: Mapping[str, int]
    instead: Mapping[str, str]
    leave: Mapping[str, tuple[str, ...]]
    words: re.Pattern[str]


def rules(folder: Path) -> Rules:
    """The rules of a folder of flow files."""
    table = read(folder / FILE)
    instead = dict.fromkeys(table["avoid"], "") | {
        other: name for name, others in table["one_name"].items() for other in others
    }
    leave = {word: tuple(texts) for word, texts in table["leave"].items()}
    longest_first = sorted(instead, key=len, reverse=True)
    either = "|".join(map(re.escape, longest_first))
    whole = re.compile(rf"(?<![\w{{/-])(?:{either})(?![\w}}-])", re.IGNORECASE)
    return Rules(table["at_most"], instead, leave, whole)


class Fault(NamedTuple):
    """A code, and what its sentence names."""

    code: str
    about: Mapping[str, str] = {}


def plain_faults(flows: Flows) -> Iterator[Finding]:
    """Texts that are hard to read, words to avoid, and questions that are none or two."""
    rule = rules(flows.folder)
    for each in said_in(flows.folder):
        for fault in (*reading_faults(rule, each.text), *word_faults(rule, each)):
            yield flows.in_file(fault.code, each.where, each.name, **fault.about)
    for name, fact in flows.library.facts.items():
        for fault in question_faults(fact.ask):
            yield flows.in_fact(fault.code, name, "ask")
    for step in flows.steps("ask"):
        for fault in question_faults(step.ask):
            yield flows.in_step(fault.code, step, "question")


def reading_faults(rule: Rules, text: str) -> Iterator[Fault]:
    """What makes a text hard to read. A short text has too few words for a grade of its own."""
    most = rule.at_most
    if len(words(text)) >= most["ungraded"] and grade(text) > most["grade"]:
        about = {"grade": f"{grade(text):.1f}", "most": str(most["grade"])}
        yield Fault("hard_to_read", about)
    for sentence in sentences(text):
        longest = most["question" if sentence[-1] == "?" else "sentence"]
        if len(words(sentence)) > longest:
            yield Fault("sentence_too_long", {"sentence": sentence, "most": str(longest)})
    for line in text.split("\n"):
        if len([s for s in sentences(line) if len(words(s)) > SCRAP]) > most["line"]:
            yield Fault("line_too_long", {"line": line, "most": str(most["line"])})


def word_faults(rule: Rules, said: Said) -> Iterator[Fault]:
    """Words that blame, puff or come from inside a program, and second names of a thing."""
    if said.where[0] == FOR_AUTHORS:
        return
    for heard in dict.fromkeys(each.lower() for each in rule.words.findall(said.text)):
        if any(text in said.text for text in rule.leave.get(heard, ())):
            continue
        if name := rule.instead[heard]:
            yield Fault("other_name", {"word": heard, "name": name})
        else:
            yield Fault("word_to_avoid", {"word": heard})


def question_faults(text: str) -> Iterator[Fault]:
    """Whether a question ends as one, and asks one thing in a line."""
    if text and not text.rstrip().endswith("?"):
        yield Fault("not_a_question")
    if any(line.count("?") > 1 for line in text.split("\n")):
        yield Fault("two_questions")
