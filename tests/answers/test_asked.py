"""Which lines have the form of a question, and which of those can be no answer."""

import pytest

from assistant.answers.asked import Asked, is_name
from tests.understanding.shares import declared

ASKED = Asked(
    questions={
        "stop": {"asked": ["how do i stop"], "about": "Stopping", "answer": "A", "before": "B"},
        "tubs": {"asked": ["how many tubs do i need"], "about": "Tubs", "answer": "C"},
    },
    asking={
        "opens": ["how", "can i"],
        "inside": ["do i", "is it"],
        "elsewhere": ["the weather"],
        "vague": ["what now"],
        "same": {"stop": ["halt"]},
    },
)


@pytest.mark.parametrize(
    ("line", "asks"),
    [
        ("how far", True),
        ("How, far", True),
        ("can i go", True),
        ("cup: how far", False),
        ("however far", False),
        ("where do i go", True),
        ("undo it", False),
        ("20 lb", False),
    ],
)
def test_words_ask_at_the_head_of_a_line_or_inside(line: str, asks: bool) -> None:
    assert ASKED.words_ask(line) is asks
    assert ASKED.looks_like_one(line) is asks
    assert ASKED.looks_like_one(f"{line}? ")


@pytest.mark.parametrize(
    ("line", "any_text_fits", "must"),
    [
        ("how do i stop?", False, True),
        ("how 20?", False, False),  # a number may be an answer
        ("wheat?", False, False),
        ("wheat?", True, True),
        ("wheat", True, False),
        ("how tall is", False, False),
    ],
)
def test_a_line_must_be_a_question_by_its_words_or_its_mark(
    line: str, any_text_fits: bool, must: bool
) -> None:
    assert ASKED.must_be_one(line, any_text_fits=any_text_fits) is must


def test_of_another_matter_or_a_vague_one_nothing_is_near() -> None:
    ours = declared()
    name, told = next(iter(ours.questions.items()))
    line = told["asked"][0]
    assert ours.sure(line) == ours.near(line)[0] == name
    assert ours.must_be_one(line, any_text_fits=True)
    assert ours.near(f"{line} with my combine") == ()
    assert ours.near("what now") == ()
    assert ours.sure("zebra") == ""
    assert not ours.must_be_one("zebra", any_text_fits=True)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Which Way Farm", True),
        ("which Way", True),
        ("Which way", False),
        ("can I feed it", False),
        ("Is This? ", False),
        ("Which Way ?", False),
    ],
)
def test_a_name_has_capitals_behind_its_first_word(text: str, name: bool) -> None:
    assert is_name(text) is name
