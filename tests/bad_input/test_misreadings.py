"""A question misread three times: other words each time, and more help; every case names it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from assistant.answers.expect import Doubt, Refusal, Settled
from assistant.answers.read import read
from assistant.dialogue.advance import advance
from assistant.dialogue.answering import expect_of
from assistant.dialogue.events import OfferedCards, Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Fetch, Offer, Trouble
from assistant.dialogue.trouble import doubtful, refused
from assistant.terminal.screen import Screen
from tests.bad_input.questions import asks, at_question, states
from tests.bad_input.test_other_jobs import questions_of_others
from tests.script.running import calibrate

NO_ANSWER = "24\x07"
"""A line that no question takes, not even one for a name."""

CASES = {
    "empty": Refusal("empty", ""),
    "not a number": Refusal("not_a_number", "a lot"),
    "wrong kind of unit": Refusal("unit_of_another_kind", "5 kelvin"),
    "too small": Refusal("too_small", "1"),
    "too big": Refusal("too_big", "1"),
}
ALWAYS_SAID = ("help", "don't know", "back", "pause")


def every_question() -> list[tuple[Job, State]]:
    """Every question of every job: also cautions, lists, offers and the review."""
    return [*((calibrate(), state) for state in states()), *questions_of_others()]


def every_fact() -> list[tuple[Job, State, str]]:
    """Every fact that is asked, alone or in a pair."""
    return [(job, state, name) for job, state in every_question() for name in asks(state)]


def question_of(job: Job, state: State) -> str:
    assert state.situation.open
    return f"{job.graph.job} {state.situation.open.place} {' '.join(asks(state))}".strip()


def fact_of(job: Job, state: State, name: str) -> str:
    return f"{question_of(job, state)}: {name}"


def told(job: Job, state: State, line: str) -> tuple[State, str]:
    """The state after one line, and the trouble it got; a book that is asked has no such card."""
    after, reply = advance(job, state, Typed(line))
    if isinstance(reply.messages[-1], Fetch):
        after, reply = advance(job, after, OfferedCards(()))
    (trouble,) = (each for each in reply.messages if isinstance(each, Trouble))
    return after, trouble.text


def misread(job: Job, state: State, times: int) -> Iterator[str]:
    """What is told each time when the same question is misread."""
    for _ in range(times):
        state, text = told(job, state, NO_ANSWER)
        yield text


def shown_by(second: str) -> str:
    """The line that a second text shows as one that works; empty if it shows none."""
    found = re.search(r"Say you type '(.+)'\. Then|Type just (.+), and we go on", second)
    return (found[1] or found[2]) if found else ""


def test_three_misreadings_get_three_texts_each_with_more_help(subtests: pytest.Subtests) -> None:
    for job, state in every_question():
        with subtests.test(question_of(job, state)):
            helps_more_each_time(job, state)


def helps_more_each_time(job: Job, state: State) -> None:
    """Assert that three misreadings get three texts, the second with a line that works."""
    first, second, third, fourth = misread(job, state, 4)
    assert len({first, second, third}) == 3
    assert shown_by(second)
    assert all(word in third for word in ALWAYS_SAID)
    assert fourth == third


def test_what_the_second_text_shows_is_taken_when_it_is_typed(subtests: pytest.Subtests) -> None:
    for job, state in every_question():
        with subtests.test(question_of(job, state)):
            *_, second = misread(job, state, 2)
            after, _ = advance(job, state, Typed(shown_by(second)))
            assert after.log != state.log
            assert after.moment is None


def test_each_text_fits_a_small_screen_with_its_question(
    subtests: pytest.Subtests,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    for job, asked in every_question():
        state = asked
        with subtests.test(question_of(job, asked)):
            for _ in range(3 if asks(asked) else 0):
                state, reply = advance(job, state, Typed(NO_ANSWER))
                Screen(job.library).show(reply.messages)
                assert capsys.readouterr().out.count("\n") <= 20


def test_each_case_has_a_text_of_its_own_that_names_what_is_asked(
    subtests: pytest.Subtests,
) -> None:
    for job, state, name in every_fact():
        with subtests.test(fact_of(job, state, name)):
            tells_each_case_apart(job, state, name)


def tells_each_case_apart(job: Job, state: State, name: str) -> None:
    """Assert that each refusal of a fact has its own words, and names the fact."""
    label = job.fact(name).label
    texts = []
    for refusal in CASES.values():
        (trouble,) = refused(job, state, name, refusal).said
        assert isinstance(trouble, Trouble)
        texts.append(trouble.text.split("\n")[0])
    texts.append(two_readings(job, state, name))
    assert all(label in text for text in texts)
    alike = {text.replace("5 kelvin", "1").replace("a lot", "1") for text in texts}
    assert len(alike) == len(texts)


def two_readings(job: Job, state: State, name: str) -> str:
    """What is asked about a line that could be two things."""
    reading = read(expect_of(job, state, name), job.fact(name).example)
    assert isinstance(reading, Settled)
    (offer,) = doubtful(job, state, name, Doubt((reading, reading)), "1").said
    assert isinstance(offer, Offer)
    return offer.text


def beyond(fact_range: tuple[str, str]) -> dict[str, str]:
    """A value under and one over a range, in its own units."""
    (least, unit), (most, top_unit) = (each.partition(" ")[::2] for each in fact_range)
    half, twice = Fraction(least) / 2, Fraction(most) * 2
    over = {"Too big": f"{float(twice):g} {top_unit}"}
    return over | ({"Too small": f"{float(half):g} {unit}"} if half else {})


def is_one_length(job: Job, state: State, name: str) -> bool:
    """Whether a question is for one length, bound by its own range alone."""
    alone = asks(state) == (name,) and not job.fact(name).at_most
    return alone and job.fact(name).kind in {"length", "row_spacing"}


def test_too_small_and_too_big_are_told_apart(subtests: pytest.Subtests) -> None:
    lengths = [case for case in every_fact() if is_one_length(*case)]
    assert lengths
    for case in lengths:
        with subtests.test(fact_of(*case)):
            tells_small_from_big(*case)


def tells_small_from_big(job: Job, state: State, name: str) -> None:
    """Assert that a length beyond either end is told by its own words."""
    span = job.fact(name).possible
    assert span
    for words, line in beyond((span.least, span.most)).items():
        assert f"{words}: {job.fact(name).label}" in told(job, state, line)[1]


def test_the_count_begins_anew_at_the_next_question() -> None:
    job, state = calibrate(), at_question("distance_per_turn")
    for _ in range(3):
        state, _ = told(job, state, NO_ANSWER)
    assert state.misread == 3
    on, _ = advance(job, state, Typed("81.5 in"))
    assert on.misread == 0
    back, _ = advance(job, on, Typed("back"))
    assert back.misread == 0


@pytest.mark.parametrize("word", ["why", "help", "units metric", "what is turn"])
def test_a_word_that_works_everywhere_leaves_the_count(word: str) -> None:
    job, state = calibrate(), at_question("distance_per_turn")
    state, _ = told(job, state, NO_ANSWER)
    assert advance(job, state, Typed(word))[0].misread in ({0} if word.startswith("units") else {1})
