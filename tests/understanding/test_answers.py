"""No line of a story is taken for a plain question."""

import pytest

from assistant.dialogue.messages import Say
from tests.stories.play import played
from tests.stories.story import stories
from tests.understanding.shares import declared


@pytest.fixture(scope="module", name="answers")
def the_answers() -> tuple[str, ...]:
    asked = declared()
    return tuple(asked.answer(name) for name in asked.questions)


def test_lines_of_stories_are_not_taken_for_questions(answers: tuple[str, ...]) -> None:
    for story in stories():
        for typed, said in played(story).exchanges:
            told = [each.text for each in said if isinstance(each, Say)]
            assert not any(text.startswith(answers) for text in told), (story.name, typed)
