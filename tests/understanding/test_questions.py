"""The shares of plain questions that are answered: none wrongly, and foreign ones not at all.

The 145 questions of `questions.toml` shaped the clues; the 51 of `questions_more.toml` did not,
so their share is what to expect of a stranger. `pytest tests/understanding -s` prints both.
"""

import tomllib
from dataclasses import dataclass
from pathlib import Path

import pytest

from assistant.answers.asked import Asked
from assistant.flow.load import load
from assistant.flow.place import flows_folder

HERE = Path(__file__).parent
ANSWERED_AT_LEAST = 0.8
APART_AT_LEAST = 0.25
APART_OR_OFFERED_AT_LEAST = 0.5


@dataclass(frozen=True, slots=True)
class Shares:
    """How many questions came to what."""

    right: list[str]
    offered: list[str]
    missed: list[str]
    wrong: list[str]

    def __str__(self) -> str:
        told = sum(map(len, (self.right, self.offered, self.missed, self.wrong)))
        return (
            f"{told} asked: {len(self.right)} answered, {len(self.offered)} offered,"
            f" {len(self.missed)} not known, {len(self.wrong)} wrong"
        )


@pytest.fixture(scope="module", name="asked")
def the_questions() -> Asked:
    return Asked(*load(flows_folder()).asides())


def rows(name: str) -> list[dict[str, str]]:
    """The questions of a corpus, each with its topic."""
    table = tomllib.loads((HERE / name).read_text(encoding="utf-8"))
    return list(table["asked"])


def shares(asked: Asked, name: str) -> Shares:
    """What the questions of a corpus that have a topic come to."""
    found = Shares([], [], [], [])
    for row in rows(name):
        if row["topic"]:
            sure, near = asked.sure(row["words"]), asked.near(row["words"])
            if sure:
                (found.right if sure == row["topic"] else found.wrong).append(row["words"])
            else:
                (found.offered if row["topic"] in near else found.missed).append(row["words"])
    print(f"\n{name}: {found}")
    return found


def test_four_of_five_known_questions_are_answered_and_none_wrongly(asked: Asked) -> None:
    found = shares(asked, "questions.toml")
    assert found.wrong == []
    assert len(found.right) >= ANSWERED_AT_LEAST * 120


def test_questions_kept_apart_are_never_answered_wrongly(asked: Asked) -> None:
    found = shares(asked, "questions_more.toml")
    assert found.wrong == []
    assert len(found.right) >= APART_AT_LEAST * 51
    assert len(found.right) + len(found.offered) >= APART_OR_OFFERED_AT_LEAST * 51


def test_what_is_not_ours_is_not_known(asked: Asked) -> None:
    foreign = [row["words"] for row in rows("questions.toml") if not row["topic"]]
    assert len(foreign) == 25
    assert [words for words in foreign if asked.sure(words) or asked.near(words)] == []


def test_every_topic_of_the_corpus_is_declared(asked: Asked) -> None:
    assert {row["topic"] for row in rows("questions.toml")} - {""} == set(asked.questions)


@pytest.mark.parametrize(
    ("words", "topic"),
    [
        ("do i need gloves", "gloves"),
        ("how do i find the drive wheel", "which_wheel"),
        ("tape the tyre or roll it", "roll_or_tape"),
        ("do i use the frame width or rows", "width_used"),
        ("can i clear a tube with my finger", "clear_tube"),
        ("can my kid turn the wheel", "child_helps"),
        ("do i shut the gates before filling", "shut_before_fill"),
        ("half as much as i wanted", "half_rate"),
    ],
)
def test_plain_words_find_their_answer(asked: Asked, words: str, topic: str) -> None:
    assert asked.sure(words) == topic


def test_a_word_of_another_trade_is_enough_to_know_nothing(asked: Asked) -> None:
    assert asked.sure("do i need gloves")
    assert not asked.near("do i need gloves for the sprayer nozzle")
