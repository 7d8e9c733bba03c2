"""No ordinary answer is taken for a plain question, whatever question it is typed at."""

import pytest

from assistant.dialogue.messages import Say
from tests.stories.play import played
from tests.stories.story import Story, stories
from tests.understanding.listener import ASIDE, corpus, listen
from tests.understanding.shares import declared

HEARD = 200
"""How much of an answer tells it from all others; the listener keeps a little more."""


@pytest.fixture(scope="module", name="answers")
def the_answers() -> tuple[str, ...]:
    asked = declared()
    return tuple(asked.answer(name)[:HEARD] for name in asked.questions)


@pytest.mark.parametrize("name", ["lines.toml", "lines_more.toml"])
def test_answers_of_the_corpus_are_not_taken_for_questions(
    name: str, answers: tuple[str, ...]
) -> None:
    heard = [(line.typed, listen(line)) for line in corpus(name) if line.wanted != ASIDE]
    assert len(heard) > 50
    assert [typed for typed, each in heard if each and each.said.startswith(answers)] == []


@pytest.mark.parametrize("story", list(stories()), ids=lambda story: story.name)
def test_lines_of_stories_are_not_taken_for_questions(
    story: Story, answers: tuple[str, ...]
) -> None:
    for typed, said in played(story).exchanges:
        told = [each.text for each in said if isinstance(each, Say)]
        assert not any(text.startswith(answers) for text in told), typed


def test_a_plain_question_would_be_seen_here(answers: tuple[str, ...]) -> None:
    assert any(
        heard.said.startswith(answers)
        for line in corpus()
        if line.wanted == ASIDE and (heard := listen(line))
    )
