"""The shares of plain questions that are answered: none wrongly, and foreign ones not at all.

How far each figure can be trusted (`pytest tests/understanding -s` prints them):

- The 145 lines of `questions.toml` were open while the sentences of `flows/questions/` were
  written, so their share says little.
- The 51 lines of `questions_more.toml` were closed until the way of matching and 2,600 sentences
  stood: 18 were answered (35 %), 15 offered, none wrongly; 1,200 more sentences, all of a few
  words, changed nothing and were dropped. Then the lines were read and about 470 sentences
  written in their spirit, so that 38 are answered now. They are not kept apart any more.
- A sentence left out of its question is what is left to judge by: what is chosen in
  `assistant/answers/asked.py` was chosen on these, and they foretold the 35 % well.

- The 80 lines of `questions_stranger.toml` were written by someone who saw neither sentences nor
  matcher, when both were finished, from the page of the trade that the questions came from: 49
  of 60 were answered rightly (82 %), one wrongly, none of the 20 that are not ours. Then five
  questions that were missing were declared.

- The lines of `questions_eyes.toml` came from one who used the finished program and wrote down
  what was answered wrongly, unsafely or not at all. Questions were then declared for them, so
  that their share says nothing but that they stay answered.

A corpus that nobody here has read is judged by `python -m tests.understanding.shares FILE`.
"""

from pathlib import Path

import pytest

from assistant.answers.asked import Asked
from assistant.answers.likeness import plain, stem
from tests.understanding.shares import declared, rows, shares

HERE = Path(__file__).parent
SHAPED, APART = HERE / "questions.toml", HERE / "questions_more.toml"
STRANGER, EYES = HERE / "questions_stranger.toml", HERE / "questions_eyes.toml"
ANSWERED_AT_LEAST, APART_AT_LEAST = 0.8, 0.6
FOLDS = 8
LEFT_OUT_RIGHT_AT_LEAST, LEFT_OUT_WRONG_AT_MOST = 0.35, 0.025


@pytest.fixture(scope="module", name="asked")
def the_questions() -> Asked:
    return declared()


def test_four_of_five_known_questions_are_answered_and_none_wrongly(asked: Asked) -> None:
    found = shares(asked, SHAPED)
    print(f"\n{SHAPED.name}: {found}")
    assert found.ours == 120
    assert found.wrong == []
    assert len(found.right) >= ANSWERED_AT_LEAST * found.ours


def test_questions_read_late_are_mostly_answered_and_none_wrongly(asked: Asked) -> None:
    found = shares(asked, APART)
    print(f"\n{APART.name}: {found}")
    assert found.ours == 51
    assert found.wrong == []
    assert len(found.right) >= APART_AT_LEAST * found.ours


def test_questions_of_a_stranger_are_mostly_answered_and_none_wrongly(asked: Asked) -> None:
    found = shares(asked, STRANGER)
    print(f"\n{STRANGER.name}: {found}")
    assert found.ours == 60
    assert found.wrong == []
    assert len(found.right) >= ANSWERED_AT_LEAST * found.ours
    assert not any(asked.sure(row["words"]) for row in rows(STRANGER) if not row["topic"])


def test_what_was_once_answered_wrongly_or_unsafely_is_answered_rightly(asked: Asked) -> None:
    found = shares(asked, EYES)
    print(f"\n{EYES.name}: {found}")
    assert len(found.right) == found.ours > 0
    assert not any(asked.sure(row["words"]) for row in rows(EYES) if not row["topic"])


@pytest.mark.parametrize(
    ("line", "begins"),
    [
        ("can i do it with the tractor running", "No. Engine off, brake on, key in your pocket"),
        ("do i need to shut the tractor off", "Engine off, brake on, key in your pocket"),
        ("can i reach in while it turns", "No."),
        ("can i pour the treated seed back with the other seed", "No."),
        ("can i smoke", "No,"),
        ("can i eat treated seed", "No,"),
        ("can i use treated seed for feed", "No,"),
        ("is the treated seed safe for my chickens", "No,"),
        ("is it poison to chickens", "Treated seed can poison them."),
        ("i dont have jack stands", "Then do not lift it."),
        ("ok to fill it with the feeds open", "Shut them before you fill"),
        ("can i go without gloves", "With treated seed wear gloves"),
        ("can i drive on the road with it", "Tow it only as its manual and your local road rules"),
        ("can i do this without the tractor", "Hook it on"),
        ("can i use last years setting", "No,"),
        ("can i print the card", "Yes,"),
    ],
)
def test_the_answer_fits_the_way_it_was_asked(asked: Asked, line: str, begins: str) -> None:
    """A yes or no leads only where all who ask it so want that one."""
    assert asked.answer(asked.sure(line)).startswith(begins)


def test_what_is_not_ours_is_not_known(asked: Asked) -> None:
    assert sum(not row["topic"] for row in rows(SHAPED)) == 25
    assert shares(asked, SHAPED).foreign == []


def test_sentences_left_out_of_their_question_are_seldom_taken_for_another(asked: Asked) -> None:
    right, wrong, told = 0, 0, 0
    for fold in range(FOLDS):
        kept = {
            name: {
                **table,
                "asked": [s for at, s in enumerate(table["asked"]) if at % FOLDS != fold],
            }
            for name, table in asked.questions.items()
        }
        others = Asked(kept, asked.asking)
        for name, table in asked.questions.items():
            found = [others.sure(sentence) for sentence in table["asked"][fold::FOLDS]]
            told += len(found)
            right += found.count(name)
            wrong += len(found) - found.count(name) - found.count("")
    print(f"\n{told} left out: {right} answered, {wrong} wrong")
    assert right >= LEFT_OUT_RIGHT_AT_LEAST * told
    assert wrong <= LEFT_OUT_WRONG_AT_MOST * told


def test_no_line_of_a_corpus_is_declared(asked: Asked) -> None:
    ours = {plain(line) for table in asked.questions.values() for line in table["asked"]}
    theirs = {plain(row["words"]) for file in (SHAPED, APART, EYES) for row in rows(file)}
    assert ours & theirs == set()


@pytest.mark.parametrize(
    ("slip", "topic"),
    [
        ("which directon do i trun it", "which_way"),
        ("do i need glovs", "gloves"),
        ("what is pure live sead", "what_pls"),
    ],
)
def test_a_slip_is_read_as_the_word_it_looks_like(asked: Asked, slip: str, topic: str) -> None:
    assert asked.sure(slip) == topic


def test_words_that_say_the_same_need_saying(asked: Asked) -> None:
    told = [
        (stem(one), stem(word)) for one, words in asked.asking["same"].items() for word in words
    ]
    assert [pair for pair in told if pair[0] == pair[1]] == []
    said = [word for _, word in told]
    assert len(said) == len(set(said))


@pytest.mark.parametrize(
    "line", ["what do you mean", "why do you need that", "what now", "is that right"]
)
def test_a_vague_line_is_no_question_of_the_job(asked: Asked, line: str) -> None:
    assert asked.sure(line) == ""
    assert asked.near(line) == ()


def test_every_topic_of_the_corpus_is_declared(asked: Asked) -> None:
    topics = {row["topic"] for file in (SHAPED, STRANGER, EYES) for row in rows(file)}
    assert topics - {""} == set(asked.questions)


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
