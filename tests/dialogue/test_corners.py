"""Rarely walked corners of a conversation: results, offers, facts told early, values in words."""

from __future__ import annotations

import pytest

from assistant.answers.expect import Doubt, Settled
from assistant.dialogue.advance import advance, begin, resume
from assistant.dialogue.events import Back, Event, Given, OfferedCards, Typed
from assistant.dialogue.in_passing import asked_later
from assistant.dialogue.job import State
from assistant.dialogue.log import CardOffer, Told
from assistant.dialogue.messages import Message, Offer, Trouble
from assistant.dialogue.questions import proposals
from assistant.dialogue.trouble import doubtful
from assistant.dialogue.wording import fill, off_target, shown_fact
from assistant.quantities.show import show, show_settled
from tests.stories.play import calibrate, job_named, library, played
from tests.stories.story import FOLDER, read_story

CARD = CardOffer("a1b2", "last spring", (Told("feed", "fluted", origin="last_time"),))
POUND = 0.45359237


def after(*events: Event) -> tuple[State, tuple[Message, ...]]:
    """The state after these events, and what was said last."""
    state, reply = begin(calibrate())
    for event in events:
        state, reply = advance(calibrate(), state, event)
    return state, reply.messages


def mid_trials() -> State:
    """A conversation at its first catch."""
    return played(read_story(FOLDER / "fluted_pounds.txt")).states[16]


@pytest.mark.parametrize(("told", "asked"), [("0.09", False), ("0.07", True)])
def test_a_row_may_be_further_off_than_a_whole_catch(told: str, asked: bool) -> None:
    """0.234 lb a row: 0.09 lb is under half of it and over a third, as where it is half plugged."""
    _, reply = advance(calibrate(), mid_trials(), Typed(f"0.23 0.24 {told} 0.23 0.22 0.24"))
    assert any(isinstance(each, Offer) for each in reply.messages) is asked


@pytest.mark.parametrize(("told", "ends"), [("108", "366 to 3296"), ("60 280 270 275", "91.5 to")])
def test_seeds_of_all_rows_in_one_figure_are_asked_about_as_all(told: str, ends: str) -> None:
    """274.5 seeds a row: three times under and over it, and four rows of that."""
    counting = played(read_story(FOLDER / "counted.txt")).states[17]
    _, asked = advance(job_named("calibrate"), counting, Typed(told))
    (offer,) = [each for each in asked.messages if isinstance(each, Offer)]
    assert f"most are {ends}" in offer.text
    _, plain = advance(job_named("calibrate"), counting, Typed("1083"))
    assert not [each for each in plain.messages if isinstance(each, Offer)]


@pytest.mark.parametrize(
    ("text", "values", "filled"),
    [
        ("{a} rows, {b} turns", {"a": "1", "b": "20"}, "1 row, 20 turns"),
        ("{a} rows, {b} turns", {"a": "21", "b": "1"}, "21 rows, 1 turn"),
        ("{a} is {b}, {a} less", {"a": "1", "b": "2"}, "1 is 2, 1 less"),
        ("{a} times {b}", {"a": "1 in", "b": "2"}, "1 in times 2"),
    ],
)
def test_one_of_many_is_said_as_one(text: str, values: dict[str, str], filled: str) -> None:
    assert fill(text, values) == filled


def test_a_result_can_not_be_changed_but_names_the_answers_it_comes_from() -> None:
    _, reply = advance(calibrate(), mid_trials(), Typed("change the catch should weigh 2 lb"))
    _, plain = advance(calibrate(), mid_trials(), Typed("change the catch should weigh"))
    said = " ".join(getattr(m, "text", "") for m in (*reply.messages, *plain.messages))
    assert "is worked out" in said
    assert "Turns" in said
    assert "Row spacing" in said


@pytest.mark.parametrize("typed", ["change turns 30", "change turns to 30 turns", "no, 30 turns"])
def test_a_value_told_again_as_it_is_changes_nothing_and_is_told(typed: str) -> None:
    before = mid_trials()
    after_it, reply = advance(calibrate(), before, Typed(typed))
    assert getattr(reply.messages[0], "text", "") == "Turns is 30 already."
    assert after_it.log == before.log
    assert after_it.moment is None
    assert after_it.situation.open == before.situation.open


def test_a_change_of_what_is_asked_just_now_is_its_answer() -> None:
    asked = played(read_story(FOLDER / "fluted_pounds.txt")).states[9]
    assert asked.situation.open
    assert set(asked.situation.open.facts) == {"rows_caught", "turns"}
    told, _ = advance(calibrate(), asked, Typed("change turns to 40"))
    assert told.situation.known["turns"].value == 40


@pytest.mark.parametrize("typed", ["keep", "Keep.", "yes", "1"])
def test_what_is_out_of_the_usual_is_kept_by_its_word(typed: str) -> None:
    at_rows = played(read_story(FOLDER / "fluted_pounds.txt")).states[1]
    asked, _ = advance(calibrate(), at_rows, Typed("240 at 7.5"))
    assert "row_count" not in asked.situation.known
    assert asked.situation.known["row_spacing"].settled == "7.5 in"
    kept, _ = advance(calibrate(), asked, Typed(typed))
    assert kept.situation.known["row_count"].value == 240


@pytest.mark.parametrize("typed", ["done", "Ready.", "all done", "hecho"])
def test_what_is_out_of_the_usual_is_not_kept_by_a_word_for_an_act(typed: str) -> None:
    at_rows = played(read_story(FOLDER / "fluted_pounds.txt")).states[1]
    asked, _ = advance(calibrate(), at_rows, Typed("240 at 7.5"))
    still, reply = advance(calibrate(), asked, Typed(typed))
    assert "row_count" not in still.situation.known
    assert reply.messages


def test_who_is_not_sure_of_a_caution_that_comes_again_is_told_whom_to_ask() -> None:
    again, _ = resume(calibrate(), mid_trials().log)
    assert again.situation.open
    assert again.situation.open.kind == "guard"
    hazard = again.situation.open.hazard
    told, reply = advance(calibrate(), again, Typed("don't know"))
    assert getattr(reply.messages[0], "text", "") == calibrate().caution(hazard).not_sure
    assert told.log == again.log


def test_a_card_can_be_taken_by_its_id() -> None:
    state, _ = after(Typed("the hill drill"), OfferedCards((CARD,)), Typed("a1b2"))
    assert state.situation.choice("feed") == "fluted"


def test_not_knowing_which_card_goes_without_one() -> None:
    state, _ = after(Typed("the hill drill"), OfferedCards((CARD,)), Typed("don't know"))
    assert state.situation.open
    assert state.situation.open.facts == ("feed",)


def test_the_way_back_is_an_event_too() -> None:
    state, _ = after(Typed("the hill drill"), OfferedCards(()), Typed("fluted"), Back())
    assert state.situation.open
    assert state.situation.open.facts == ("feed",)


@pytest.mark.parametrize(
    ("name", "text"), [("row_count", "some"), ("germination", "110 %"), ("row_spacing", "900 ft")]
)
def test_a_fact_told_early_that_can_not_be_is_refused(name: str, text: str) -> None:
    state, said = after(Given({name: text}))
    assert isinstance(said[0], Trouble)
    assert name not in state.situation.pool


def test_a_fact_told_early_with_two_readings_is_asked() -> None:
    state, said = after(Given({"germination": "1"}))
    assert isinstance(said[0], Offer)
    assert "germination" not in state.situation.pool


@pytest.mark.parametrize(
    ("name", "settled", "asked"),
    [
        ("feed", ("fluted", "cup"), "Which one? Type its number."),
        (
            "row_spacing",
            ("7.5 in", "7.5 cm"),
            "Which one? Type its number, or say it with its unit.",
        ),
    ],
)
def test_only_a_value_is_asked_again_with_its_unit(
    name: str, settled: tuple[str, str], asked: str
) -> None:
    readings = tuple(Settled(name, each, each) for each in settled)
    (offer,) = doubtful(calibrate(), after()[0], name, Doubt(readings), "x").said
    assert isinstance(offer, Offer)
    assert offer.ask == asked


def test_right_on_target_has_words_of_its_own() -> None:
    assert off_target(calibrate(), 0.0) == "right on target"
    assert off_target(calibrate(), -0.06) == "6 in 100 too light"
    assert off_target(calibrate(), 0.125) == "12 in 100 too heavy"


def test_what_nobody_told_is_shown_as_not_known() -> None:
    state = mid_trials()
    assert shown_fact(calibrate(), state.log, state.situation, "purity") == "not known"


def test_ounces_are_shown_as_a_scale_shows_them() -> None:
    assert show("mass", 8.5 * POUND, unit="oz", step="1") == "8 lb 8 oz"
    assert show("mass", 2 * POUND, unit="oz", step="0.1") == "2 lb"
    assert show("mass", 0.5 * POUND, unit="oz", step="0.1") == "8.0 oz"
    assert show_settled("mass", "35 oz") == "2 lb 3 oz"


def test_a_mark_that_the_lever_no_longer_has_is_not_proposed() -> None:
    """Enter would take 50 on a lever that ends at 10, and be asked the same again for ever."""
    states = played(read_story(FOLDER / "known_cup_less.txt")).states
    at_mark = [each for each in states if marks(each)]
    offered = [proposals(calibrate(), each).get("start_mark", ("",))[0] for each in at_mark]
    assert list(dict.fromkeys(offered)) == ["50", ""]


def marks(state: State) -> bool:
    """Whether the first mark is asked."""
    open_ = state.situation.open
    return open_ is not None and "start_mark" in open_.facts


def test_a_value_typed_too_soon_is_not_taken_for_a_catch_or_for_the_other_half() -> None:
    state, _ = after()
    assert state.situation.open
    names = list(asked_later(calibrate(), state, state.situation.open))
    assert {"row_count", "target", "turns", "start_opening"} <= set(names)
    assert [name for name in names if "." in name or calibrate().graph.home(name)] == []


@pytest.mark.parametrize("text", ["80 lb", "80#", "80 #/ac", "eighty pounds"])
def test_a_weight_told_at_a_choice_is_offered_to_be_kept_for_the_target(text: str) -> None:
    asked = played(read_story(FOLDER / "fluted_pounds.txt")).states[4]
    assert asked.situation.open
    assert asked.situation.open.facts == ("treated",)
    state, _ = advance(calibrate(), asked, Typed(text))
    kept, _ = advance(calibrate(), state, Typed("yes"))
    assert [(each.fact, each.settled) for each in kept.log.told] == [("target", "80 lb/ac")]


def test_no_list_is_guessed_by_one_figure() -> None:
    """A guess is one value; a step that reads a list would get something else."""
    facts = [fact for name in library().jobs for fact in job_named(name).graph.facts.values()]
    lists = [fact for fact in facts if fact.many]
    assert len(lists) > 10
    assert [fact.name for fact in lists if fact.unknown and fact.unknown.way == "guess"] == []


def test_not_knowing_is_of_what_is_asked_and_not_of_what_is_proposed() -> None:
    """The opening is proposed beside the catch, and has a policy of its own."""
    _, reply = advance(calibrate(), mid_trials(), Typed("don't know"))
    catch, opening = (library().facts[name].unknown for name in ("catch", "opening"))
    assert catch is not None
    assert opening is not None
    assert catch.says != opening.says
    assert getattr(reply.messages[0], "text", "") == catch.says


def test_a_unit_that_is_misspelled_is_asked_about_in_one_line() -> None:
    _, reply = advance(calibrate(), mid_trials(), Typed("1.40 lbx"))
    ask = "Seed caught: 1.4 lb. Do you mean that? Type yes, or answer again."
    assert [type(each) for each in reply.messages] == [Trouble, Offer]
    assert reply.messages[1] == Offer("", (), ask)
