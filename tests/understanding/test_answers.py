"""No ordinary answer is taken for a plain question, whatever question it is typed at."""

from collections.abc import Iterable

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.messages import Message, Say
from tests.stories.play import calibrate, played
from tests.stories.story import Story, stories
from tests.understanding.listener import ASIDE, Line, corpus, just_after, state_for
from tests.understanding.shares import declared

MEANT = {"what is emergence"}
"""Lines of stories that ask a plain question, and mean it."""


@pytest.fixture(scope="module", name="answers")
def the_answers() -> set[str]:
    asked = declared()
    return {asked.answer(name) for name in asked.questions}


def test_answers_of_the_corpus_are_not_taken_for_questions(answers: set[str]) -> None:
    lines = [line for line in corpus() if line.wanted != ASIDE]
    assert len(lines) > 250
    assert [line.typed for line in lines if answered(line, answers)] == []


def answered(line: Line, answers: set[str]) -> bool:
    """Whether a plain question's answer is said to a line."""
    state = just_after(tuple(line.means)) if line.group == "fix" else state_for(line)
    if state is None:
        return False
    _, reply = advance(calibrate(), state, Typed(line.typed))
    return bool(answers & texts(reply.messages))


@pytest.mark.parametrize("story", list(stories()), ids=lambda story: story.name)
def test_lines_of_stories_are_not_taken_for_questions(story: Story, answers: set[str]) -> None:
    taken = {text for text, said in played(story).exchanges if text and answers & texts(said)}
    assert taken <= MEANT


def texts(messages: Iterable[Message]) -> set[str]:
    """The plain texts among messages."""
    return {each.text for each in messages if isinstance(each, Say)}
