"""What is asked in passing is answered at every question, and leaves no trace."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from assistant.dialogue.advance import advance, begin
from assistant.dialogue.events import Typed
from assistant.dialogue.job import State
from assistant.dialogue.messages import Ask, Message, Offer, OldCard, Say, Trouble, Warn, Work
from tests.stories.play import calibrate, played
from tests.stories.story import FOLDER, read_story

PLAYED = played(read_story(FOLDER / "fluted_pounds.txt")).states
OPEN = [state for state in PLAYED if state.situation.open and not state.moment and not state.left]
ASIDES = [
    "how do i find the drive wheel?",
    "can the cows have what's left",
    "is it ok to crawl under and look",
    "who won the game?",
    "convert 19 cm to in",
    "convert 3 kg to acres",
    "last card",
]


MEANINGS = [
    *("what does {} mean", "what does {} mean?", "whats {} mean", "what's {} mean?"),
    *("meaning of {}", "whats the meaning of {}", "What does the {} mean?", "what is meant by {}"),
]


def heard(state: State, text: str) -> tuple[State, tuple[Message, ...]]:
    """The state and the messages after a line; that it left no record is checked here."""
    after, reply = advance(calibrate(), state, Typed(text))
    assert reply.records == ()
    return after, reply.messages


@pytest.mark.parametrize("text", ASIDES)
def test_at_every_question_it_leaves_no_trace_and_the_question_comes_again(text: str) -> None:
    assert len(OPEN) > 20
    for state in OPEN:
        again, same = heard(state, "repeat")
        after, said = heard(state, text)
        assert after.log == state.log
        assert isinstance(said[0], Say | OldCard)
        assert said[1:] == same
        assert after == again


def works(messages: Iterable[Message]) -> list[Message]:
    """What was worked out."""
    return [each for each in messages if isinstance(each, Work)]


def job_kind(name: str) -> str:
    """The kind of a fact of the job."""
    return calibrate().fact(name).kind


SUPPOSED = [
    "what if 20",
    "what if I had 8 rows?",
    "what about 7 in",
    "suppose the wheel is 80 in",
    "what would 90 lb/ac do",
    "y si fueran 40 vueltas",
    "what if 1.2 lb",
    "what if yes",
]


@pytest.mark.parametrize("text", SUPPOSED)
def test_what_is_supposed_is_told_where_it_can_be_and_kept_nowhere(text: str) -> None:
    told = 0
    for state in OPEN:
        after, said = heard(state, text)
        assert after.log == state.log
        assert after.situation == state.situation
        told += "kept nothing" in str(said)
    assert told


def test_what_is_supposed_of_a_question_is_what_its_answer_then_tells() -> None:
    checked = 0
    for name in ("fluted_pounds", "fluted_plants"):
        story = played(read_story(FOLDER / f"{name}.txt"))
        for state, (line, _) in zip(story.states, story.exchanges[2:], strict=False):
            open_ = state.situation.open
            if line and open_ and open_.kind == "ask" and job_kind(open_.facts[0]) != "text":
                _, reply = advance(calibrate(), state, Typed(line))
                _, said = heard(state, f"what if {line}")
                assert works(said) == works(reply.messages)
                checked += bool(works(said))
    assert checked >= 4


UNDER = [
    ("what if 60 turns", "change turns 60", "The catch should weigh: from 1.40 lb to 2.81 lb."),
    ("what if I had 8 rows?", "change rows caught 8", "should weigh: from 1.40 lb to 1.87 lb."),
]


@pytest.mark.parametrize(("supposed", "changed", "told"), UNDER)
def test_catches_that_were_made_otherwise_tell_nothing_of_what_is_supposed(
    supposed: str, changed: str, told: str
) -> None:
    caught = [state for state in OPEN if state.situation.rows.get("trials")]
    assert caught
    for state in caught:
        _, (first, *_) = heard(state, supposed)
        asked, _ = heard(state, changed)
        _, (dropped,) = heard(asked, "2")
        assert isinstance(first, Say)
        assert isinstance(dropped, Offer)
        assert first.text == dropped.text
        assert told in first.text
        assert "The drill drops: " not in first.text


def test_an_answer_is_an_answer_although_it_looks_asked() -> None:
    at_rows = next(s for s in OPEN if "row_count" in s.situation.open.facts)  # type: ignore[union-attr]  # open by OPEN
    _, reply = advance(calibrate(), at_rows, Typed("24 at 7.5?"))
    assert reply.records


def test_a_name_may_begin_like_a_question() -> None:
    state, _ = begin(calibrate())
    _, reply = advance(calibrate(), state, Typed("Which Way Farm"))
    assert reply.records
    _, said = heard(state, "Can I burn the empty bags")
    assert isinstance(said[0], Say)


def test_a_remark_is_answered_where_it_cannot_be_an_answer() -> None:
    at_turns = next(s for s in OPEN if s.situation.open and "turns" in s.situation.open.facts)
    _, said = heard(at_turns, "mud packed in one tube")
    assert isinstance(said[0], Say)
    _, said = heard(at_turns, "mud packed in 1 tube")
    assert isinstance(said[0], Trouble)


def test_no_plain_question_passes_a_caution() -> None:
    cautions = [s for s in OPEN if s.situation.open and s.situation.open.hazard]
    assert cautions
    for state in cautions:
        _, said = heard(state, "do i have to empty it first")
        assert isinstance(said[-1], Warn | Offer)


@pytest.mark.parametrize("line", ["im done", "i turned it", "its done", "finished"])
def test_what_is_done_passes_a_list_and_no_caution(line: str) -> None:
    passed = [
        (state.situation.open.kind, bool(reply.records))
        for state in OPEN
        if state.situation.open and state.situation.open.kind in {"wait", "caution", "guard"}
        for _, reply in [advance(calibrate(), state, Typed(line))]
    ]
    assert {kind for kind, _ in passed} >= {"wait", "caution"}
    assert all(passes == (kind == "wait") for kind, passes in passed)


def test_enter_at_a_list_says_what_to_type_and_quotes_nothing() -> None:
    waiting = next(s for s in OPEN if s.situation.open and s.situation.open.kind == "wait")
    _, said = heard(waiting, "")
    assert said == (Trouble("still_to_do", calibrate().word("refused.still_to_do")),)


def test_who_has_no_jack_stands_is_told_at_the_caution_not_to_lift() -> None:
    at_jack = next(
        s for s in OPEN if s.situation.open and s.situation.open.hazard == "raised_drill"
    )
    _, said = heard(at_jack, "i dont have jack stands")
    assert isinstance(said[0], Say)
    assert "do not lift" in said[0].text


def first_said(state: State, text: str) -> str:
    """The text of what a line is answered with."""
    _, said = heard(state, text)
    assert isinstance(said[0], Say)
    return said[0].text


@pytest.mark.parametrize("form", MEANINGS)
@pytest.mark.parametrize("word", ["tare", "prime", "top mark", "zero"])
def test_a_word_of_the_trade_is_explained_however_it_is_asked(form: str, word: str) -> None:
    told = first_said(OPEN[0], f"what is {word}")
    assert told == calibrate().library.glossary[word]
    assert first_said(OPEN[0], form.format(word)) == told


@pytest.mark.parametrize("form", ["what is {}", "whats {} mean", "meaning of {}", "define {}"])
def test_what_the_glossary_lacks_is_named_without_the_words_around_it(form: str) -> None:
    assert "'zilch'" in first_said(OPEN[0], form.format("zilch"))


def test_what_the_catch_should_weigh_is_told_once_it_is_known() -> None:
    before, after = 0, 0
    for state in OPEN:
        told = first_said(state, "what should it weigh")
        if "expected_reading" in state.situation.known:
            assert "1.40 lb" in told
            # fluted_pounds.txt: 1.4032 lb, 5 in 100 each way: 1.333 to 1.473
            assert "1.34 lb to 1.47 lb" in told
            after += 1
        else:
            assert told.startswith("I work that out")
            before += 1
    assert min(before, after) > 5


@pytest.mark.parametrize("line", ["what now", "What next?", "what do i do now"])
def test_what_now_puts_the_question_again(line: str) -> None:
    for state in OPEN:
        assert heard(state, line) == heard(state, "repeat")


def test_help_and_not_knowing_tell_the_same_way_to_measure_the_spacing() -> None:
    spacing = calibrate().fact("row_spacing")
    assert spacing.unknown
    for text in (spacing.help, spacing.unknown.says):
        assert "over 6 rows, middle of slot to middle of slot: 5 spaces. Divide by 5." in text


def test_what_is_not_sure_is_offered_and_heard_by_its_number() -> None:
    state, _ = begin(calibrate())
    asked, said = heard(state, "can i burn the bags or bury the seed in the ground?")
    offer = said[-1]
    if isinstance(offer, Offer):
        asked, said = heard(asked, "1")
    assert isinstance(said[0], Say)
    assert isinstance(said[-1], Ask)
    assert asked.log == state.log


@pytest.mark.parametrize("leaving", ["", "no"])
def test_an_offer_can_be_left(leaving: str) -> None:
    state, _ = begin(calibrate())
    asked, said = heard(state, "71 then 80, split the middle?")
    assert isinstance(said[-1], Offer)
    after, again = heard(asked, leaving)
    assert after.moment is None
    assert [type(each) for each in again] == [Ask]


def test_an_old_card_is_asked_for_by_id_or_drill() -> None:
    state, _ = begin(calibrate())
    _, said = heard(state, "old card ab12")
    assert said[0] == OldCard("ab12", "")
    named, _ = advance(calibrate(), state, Typed("hill drill"))
    _, said = heard(named, "last card")
    assert isinstance(said[0], OldCard)
