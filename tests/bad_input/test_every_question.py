"""Every question of the main job meets every bad text: a clear sentence, and nothing is lost."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import OfferedCards
from assistant.dialogue.examples import example_of
from assistant.dialogue.job import State
from assistant.dialogue.messages import Fetch, Message, Offer, Todo, Trouble, Warn
from assistant.dialogue.questions import proposals, question
from assistant.sitting.plain_text import folded
from tests.bad_input.questions import answered, asks, at_question, states
from tests.script.running import calibrate

WIDTH, LINES = 72, 2

ANYWHERE = {
    "control characters": "24\x07",
    "a terminal's escape": "\x1b[31m24\x1b[0m",
    "a title for the window": "\x1b]0;all yours\x07",
    "right to left": "24\u202e",
    "ten thousand letters": "a" * 10_000,
    "ten thousand digits": "9" * 10_000,
    "a pasted block": "24\n7.5 in\nwheat\n",
    "a null": "\x00",
}
"""Texts that no question takes, not even one for a name."""

NUMBERS = {
    "letters": "qqq zzz",
    "signs": "!!! ???",
    "odd letters": "ﬀ ﷺ 🚜🚜",
    "infinite": "inf",
    "not a number": "nan",
    "beyond all": "1e99",
    "beneath all": "1e-99",
    "no end of zeros": "0." + "0" * 200 + "1",
    "a script": "<script>alert(1)</script>",
    "a command of a shell": "$(reboot); `ls` && true",
    "a statement for a database": "'; DROP TABLE talk; --",
    "a hole": "{target}",
    "a mark of printing": "%s %n [bold]x[/bold]",
    "a path": "../../etc/passwd",
    "doubled marks": "7..5",
    "too many marks": "1.2.3.4.5,6",
    "quotes without end": "'\"'\"''",
    "a list without end": ", ; / + ,",
}
"""Texts that no question takes but one for a name."""

LONE = {
    "a unit of another kind": "5 kelvin",
    "negative": "-3 fathoms",
    "by nothing": "1/0",
    "a sum": "=2+2*(3)",
}
"""Texts that no question for one fact takes. Of several facts, one that was clear may stay."""


def bad_for(state: State) -> dict[str, str]:
    """Every text that the open question can't take."""
    texts = dict(ANYWHERE)
    if not any(calibrate().fact(name).kind == "text" for name in asks(state)):
        texts |= NUMBERS
        texts |= LONE if len(asks(state)) == 1 else {}
    if asks(state) and not set(proposals(calibrate(), state)) >= set(asks(state)):
        texts |= {"nothing": "", "spaces": "  \t "}
    return texts


def label(state: State) -> str:
    open_ = state.situation.open
    assert open_
    return f"{open_.place} {' '.join(asks(state))}".strip()


def test_every_fact_that_the_job_asks_is_among_the_questions() -> None:
    graph = calibrate().graph

    def declared(names: tuple[str, ...]) -> set[str]:
        return {graph.declared.get(name, name) for name in names}

    nodes = [n for n in graph.nodes.values() if n.step.kind == "ask" and not n.step.quiet]
    asked = {name for node in nodes for name in declared(node.facts)}
    assert {name for state in states() for name in declared(asks(state))} == asked
    kinds = {state.situation.open.kind for state in states() if state.situation.open}
    assert kinds == {"ask", "caution", "wait", "offer", "review"}


def is_offer(state: State) -> bool:
    """Whether cards are offered: there, words and ids are looked up in the book."""
    return bool(state.situation.open and state.situation.open.kind == "offer")


def test_bad_texts_get_one_clear_sentence_and_nothing_is_lost(subtests: pytest.Subtests) -> None:
    for state in states():
        if not is_offer(state):
            with subtests.test(label(state)):
                tells_bad_texts(state)


def tells_bad_texts(state: State) -> None:
    """Assert that each bad text gets one clear sentence, and the question comes again."""
    for name, text in bad_for(state).items():
        after, said = answered(state, text)
        assert after.log == state.log, name
        assert after.situation == state.situation, name
        assert after.moment is None, name
        sentence, example = trouble_in(state, said)
        assert 1 <= len(folded(sentence, WIDTH)) <= LINES, name
        assert sentence.isprintable(), name
        assert bool(example) == bool(asks(state)), name
        asked_again = question(calibrate(), after)
        if isinstance(asked_again[0], Warn | Todo):  # its text stands above; the word is named
            assert getattr(asked_again[0], "word", "done") in sentence, name
        else:
            assert tuple(said[-len(asked_again) :]) == asked_again, name


@pytest.mark.parametrize("text", ["99", "0", "1 2", "-1"])
def test_a_number_that_no_card_has_is_refused(text: str) -> None:
    offer = next(filter(is_offer, states()))
    after, said = answered(offer, text)
    assert after.situation == offer.situation
    assert any(isinstance(each, Trouble | Fetch) for each in said)


@pytest.mark.parametrize("text", ["no such drill", "01zzzzzzzz", "x" * 9_999, "\x1b[31m", "%"])
def test_words_that_no_card_answers_to_are_told_and_the_offer_stays(text: str) -> None:
    offer = next(filter(is_offer, states()))
    _, fetched = answered(offer, text)
    assert isinstance(fetched[-1], Fetch)
    after, reply = advance(calibrate(), offer, OfferedCards(()))
    assert after.situation == offer.situation
    assert [type(each) for each in reply.messages] == [Trouble, Offer]


def trouble_in(state: State, said: Sequence[Message]) -> tuple[str, str]:
    """The one sentence of trouble, and the example that goes with it."""
    (trouble,) = (each for each in said if isinstance(each, Trouble))
    sentence, *rest = trouble.text.split("\n")
    if not rest:
        return sentence, ""
    example = example_of(calibrate(), state, calibrate().fact(trouble.fact))
    likely = rest[0].startswith("Did you mean ")
    assert rest == [f"Like this: {example}"] or (likely and len(rest) == 1)
    return sentence, example


def test_the_examples_that_are_shown_work(subtests: pytest.Subtests) -> None:
    for state in filter(asks, states()):
        with subtests.test(label(state)):
            takes_its_example(state)


def takes_its_example(state: State) -> None:
    """Assert that the examples a question shows answer it."""
    examples = ", ".join(
        example_of(calibrate(), state, calibrate().fact(name)) for name in asks(state)
    )
    after, said = answered(state, examples)
    troubles = [each for each in said if isinstance(each, Trouble)]
    assert not troubles, examples
    assert after.log != state.log
    assert after.moment is None


def test_a_second_and_a_third_misreading_say_more() -> None:
    state = at_question("distance_per_turn")
    first, second, third = (
        next(each.text for each in answered(state, *["qqq"] * n)[1] if isinstance(each, Trouble))
        for n in (1, 2, 3)
    )
    assert len(first.split("\n")) == 2
    assert calibrate().fact("distance_per_turn").help in second
    assert "don't know" in third


def test_a_bare_enter_or_another_word_never_passes_a_caution(subtests: pytest.Subtests) -> None:
    put = [(state, question(calibrate(), state)[0]) for state in states()]
    cautions = [(state, first) for state, first in put if isinstance(first, Warn)]
    assert cautions
    for state, warning in cautions:
        with subtests.test(label(state)):
            is_passed_by_its_word_alone(state, warning)


def is_passed_by_its_word_alone(state: State, warning: Warn) -> None:
    """Assert that no other word, and no bare Enter, passes a caution."""
    others = {"", " ", "1", "go on", "x" + warning.word, *calibrate().caution(warning.hazard).words}
    if warning.grade == "stop":
        others |= {"ok", "yes", "done", "y"}
    for text in others - {warning.word}:
        after, _ = answered(state, text)
        assert after.log == state.log, text
    assert answered(state, warning.word)[0].log != state.log
