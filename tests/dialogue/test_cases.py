"""Cases that every rule of the engine has to survive, each told by a conversation.

A conversation with a change, a strike or a way back must stand where a fresh one with the final
answers stands.
"""

from __future__ import annotations

import pytest

from assistant.dialogue.advance import advance, begin
from assistant.dialogue.events import ChangeTo, Given, GoOn, OfferedCards, StrikeRow, Typed
from assistant.dialogue.foretelling import PREVIEW
from assistant.dialogue.job import State
from assistant.dialogue.log import CardOffer, Told
from assistant.dialogue.messages import Ask, Fetch, Message, Offer, ReadBack, Say, Todo, Warn, Work
from assistant.dialogue.questions import caution_word
from assistant.dialogue.review import review_of
from assistant.dialogue.situation import Situation
from tests.stories.play import calibrate

START = [
    "the hill drill",
    "fluted",
    "24 at 7 1/2",
    "1",
    "wheat, lot 4471",
    "no",
    "80 lb",
    "taped",
    "81.5 in",
    "0.01 lb",
    "6, 30",
    "10, 40 mm",
    "1",
    "14 mm",
    "*",
    "done",
    "ok",
]
"""A fluted drill up to its first catch; "*" is the word of the caution that is open."""

PLANTS = [*START[:6], "28 plants per sq ft", "12,500 92", "85", *START[7:]]


def said_to(state: State, line: str) -> tuple[State, tuple[Message, ...]]:
    """One typed line and what is said to it; a book without a card answers a fetch."""
    open_ = state.situation.open
    if line == "*" and open_:
        line = caution_word(calibrate(), state, open_)
    state, reply = advance(calibrate(), state, Typed(line))
    said = reply.messages
    if any(isinstance(message, Fetch) for message in said):
        state, reply = advance(calibrate(), state, OfferedCards(()))
        said = (*said, *reply.messages)
    return state, said


def talk(lines: list[str]) -> State:
    """A conversation of these lines."""
    state, _ = begin(calibrate())
    for line in lines:
        state, _ = said_to(state, line)
    return state


def past_guards(state: State) -> State:
    """Answer the cautions that a new sitting repeats."""
    while (open_ := state.situation.open) and open_.kind == "guard":
        state, _ = said_to(state, "*")
    return state


def stand_alike(one: Situation, other: Situation) -> None:
    """Two conversations know the same, and ask the same."""
    assert one.known == other.known
    assert one.rows == other.rows
    assert one.place == other.place
    assert one.open == other.open


CHANGES = {
    "germination in the second lap": (
        [*PLANTS, "2.17", "change germination 88", "yes"],
        [*PLANTS[:7], "12,500 88", *PLANTS[8:], "2.17"],
    ),
    "turns, with catches that were made like that": (
        [*START, "1.20", "1.38", "change turns 31", "same", "1", "perhaps", "yes"],
        [*START[:10], "6, 31", *START[11:], "1.20", "16 mm, 1.38"],
    ),
    "turns, with catches that were not": (
        [*START, "1.20", "1.38", "change turns 40", "2", "yes"],
        [*START[:10], "6, 40", *START[11:]],
    ),
    "the wheel's method": (
        [*START, "1.20", "change wheel method to rolled", "yes", "*", "10 turns 66 ft 3 in"],
        [*START[:7], "rolled", "*", "10 turns 66 ft 3 in", *START[9:], "1.20"],
    ),
    "the distance of a turn": (
        [*START, "1.20", "change 11 79.5 in", ""],
        [*START[:8], "79.5 in", *START[9:], "1.20"],
    ),
    "the weights of one row": (
        [*START[:9], "1 g", *START[10:], "106 52 107", "change 20 106 105 107", "yes"],
        [*START[:9], "1 g", *START[10:], "106 105 107"],
    ),
    "the kind of target": (
        [*START, "1.20", "change target 28 plants per sq ft", "yes", "12,500 92", "85"],
        [*PLANTS, "1.20"],
    ),
    "the feed": (
        [*START, "1.20", "change feed cup", "yes", "10, 0.5", "low, 4"],
        [START[0], "cup", *START[2:11], "10, 0.5", "1", "low, 4", *START[14:]],
    ),
    "the feed at the review": (
        [*START, "1.40", "1.41", "4.5", "done", "change feed cup", "yes", "10, 0.5", "low, 4"],
        [START[0], "cup", *START[2:11], "10, 0.5", "1", "low, 4", *START[14:]],
    ),
    "a row struck out": (
        [*START, "1.60", "1.37", "1.37", "change 20", "drop the bag fell off", "yes"],
        [*START, "12.5 mm, 1.37", "12.5 mm, 1.37"],
    ),
    "one answer back": (
        [*START[:7], "axle", "back", "taped", *START[8:]],
        START,
    ),
    "back across a part's boundary": (
        [*START[:9], "back", "back", "back", "60 lb", "", "", *START[9:]],
        [*START[:6], "60 lb", *START[7:]],
    ),
    "don't know with a detour, then another count": (
        [*START[:6], "30 seeds per sq ft", "idk", "312", "11.4 g", "change weighing 11.6 g", "yes"],
        [*START[:6], "30 seeds per sq ft", "idk", "312", "11.6 g"],
    ),
}


@pytest.mark.parametrize(("changed", "fresh"), CHANGES.values(), ids=CHANGES.keys())
def test_a_change_stands_where_a_fresh_conversation_stands(
    changed: list[str], fresh: list[str]
) -> None:
    stand_alike(past_guards(talk(changed)).situation, talk(fresh).situation)


def test_a_tighter_tolerance_judges_the_same_catch_anew() -> None:
    before = talk([*START, "1.35"])
    after, _ = advance(calibrate(), before, ChangeTo("tolerance", "2 %"))
    assert before.situation.choice("judgement") == "on_target"
    assert after.situation.choice("judgement") == "light"
    assert after.situation.rows == before.situation.rows


def test_another_germination_in_the_trials_opens_no_question() -> None:
    before = talk([*PLANTS, "2.17"])
    after, _ = advance(calibrate(), before, ChangeTo("germination", "90"))
    assert after.situation.open
    assert before.situation.open
    assert after.situation.open.place == before.situation.open.place
    assert after.situation.guards == 0


def test_a_struck_row_keeps_its_reason_and_the_later_ones_move_up() -> None:
    before = talk([*START, "1.60", "1.35", "1.35"])
    after, _ = advance(calibrate(), before, StrikeRow("trials", 1, "the bag fell off"))
    first, *_ = after.situation.rows["trials"]
    assert len(after.situation.rows["trials"]) == 2
    assert first["catch_weight"].settled == "1.35 lb"
    assert [struck.reason for struck in after.log.struck] == ["the bag fell off"]


def test_a_preview_that_is_left_changes_nothing() -> None:
    before = talk([*START, "1.20"])
    asked, _ = said_to(before, "change turns 40")
    previewed, _ = said_to(asked, "1")
    left, said = said_to(previewed, "no")
    assert Say("Nothing changed.") in said
    assert previewed.moment
    assert previewed.moment.kind == PREVIEW
    assert left.log == before.log
    stand_alike(left.situation, before.situation)


@pytest.mark.parametrize(("line", "leaves"), [("Give up!", True), ("give upX", False)])
def test_only_the_word_itself_leaves_a_step(line: str, *, leaves: bool) -> None:
    before = past_guards(talk(START))
    after, _ = said_to(before, line)
    assert before.situation.open
    assert after.situation.open
    assert (after.situation.open.place != before.situation.open.place) is leaves


def test_units_change_what_is_shown_and_nothing_that_is_known() -> None:
    before = talk([*START, "1.20"])
    after, said = said_to(before, "units metric")
    stand_alike(after.situation, before.situation)
    assert "kg/ha" in " ".join(m.text for m in said if isinstance(m, Say))


def test_the_words_that_work_everywhere_work_while_a_new_value_is_asked() -> None:
    asked, _ = said_to(talk([*START, "1.20"]), "change turns")
    refused, _ = said_to(asked, "lots")
    paused, _ = said_to(refused, "pause")
    left, said = said_to(refused, "no")
    assert Say("Nothing changed.") in said
    assert refused.moment
    assert paused.left
    assert left.moment is None
    assert left.situation.known["turns"].settled == "30"


def test_a_line_that_is_no_answer_to_a_preview_shows_it_again() -> None:
    asked, _ = said_to(talk([*START, "1.20"]), "change 11 79.5 in")
    again, said = said_to(asked, "1.41")
    assert any(isinstance(message, Offer) for message in said)
    assert again.moment == asked.moment
    assert len(again.situation.rows["trials"]) == 1


def test_another_value_at_a_preview_is_foretold_in_its_turn() -> None:
    asked, _ = said_to(talk([*START, "1.20"]), "change 11 79.5 in")
    again, (offer, *_) = said_to(asked, "81 in")
    assert isinstance(offer, Offer)
    assert "to 81 in" in offer.text
    done, _ = said_to(again, "yes")
    assert done.situation.known["distance_per_turn"].settled == "81 in"


# -- cards and facts told early ---------------------------------------------------------------

CARD = CardOffer(
    "abc",
    "2026-04-14 wheat",
    (
        Told("feed", "fluted", origin="last_time"),
        Told("row_count", "24", origin="last_time"),
        Told("row_spacing", "7.5 in", origin="last_time"),
        Told("drive_halves", "one", origin="last_time"),
    ),
)


EVERYTHING = {
    "feed": "fluted",
    "row_count": "24",
    "row_spacing": "7.5 in",
    "drive_halves": "one",
    "crop": "wheat",
    "lot": "4471",
    "treated": "no",
    "target": "80 lb/ac",
    "wheel_method": "taped",
    "distance_per_turn": "81.5 in",
    "scale_step": "0.01 lb",
    "tare": "0 lb",
    "rows_caught": "6",
    "turns": "30",
    "lever_top": "10",
    "widest_opening": "40 mm",
    "lever_opens": "higher",
    "start_opening": "14 mm",
}


def recalled() -> State:
    """A drill that the book knows, its card taken with Enter."""
    state, _ = begin(calibrate())
    state, _ = advance(calibrate(), state, Typed("the hill drill"))
    state, _ = advance(calibrate(), state, OfferedCards((CARD,)))
    return said_to(state, "")[0]


def test_what_a_card_lends_is_not_asked() -> None:
    state = recalled()
    assert state.situation.open
    assert state.situation.open.facts == ("crop", "lot")
    assert state.situation.known["row_spacing"].origin == "last_time"


def test_back_over_a_recall_offers_the_cards_again_and_nothing_is_fetched_twice() -> None:
    state, said = said_to(recalled(), "back")
    assert any(isinstance(message, Offer) and CARD.line in message.choices for message in said)
    assert not any(isinstance(message, Fetch) for message in said)
    assert "row_spacing" not in state.situation.known


def test_a_card_that_is_not_wanted_lends_nothing() -> None:
    state, _ = said_to(said_to(recalled(), "back")[0], "2")
    assert state.situation.open
    assert state.situation.open.facts == ("feed",)


def test_facts_from_a_pool_are_used_and_read_back_at_their_step() -> None:
    state, _ = begin(calibrate())
    facts = {"row_count": "24", "row_spacing": "7.5 in", "target": "80 lb/ac", "treated": "no"}
    state, _ = advance(calibrate(), state, Given(facts))
    state, _ = said_to(state, "the hill drill")
    state, said = said_to(state, "fluted")
    assert [m.text for m in said if isinstance(m, ReadBack)] == [
        "You told: Rows that drop 24, Row spacing 7.5 in."
    ]
    assert state.situation.open
    assert state.situation.open.facts == ("drive_halves",)


def test_all_facts_told_at_once_leave_only_what_a_person_must_do() -> None:
    state, _ = begin(calibrate())
    state, _ = advance(calibrate(), state, Given(EVERYTHING))
    state, _ = said_to(state, "the hill drill")
    assert state.situation.open
    assert state.situation.open.hazard == "raised_drill"


def test_what_was_told_early_can_be_gone_back_to() -> None:
    state, _ = begin(calibrate())
    state, _ = advance(calibrate(), state, Given({"row_count": "24", "row_spacing": "7.5 in"}))
    assert [each.typed for each in state.situation.pool.values()] == ["24", "7.5 in"]
    for line in ("the hill drill", "fluted", "one", "back"):
        state, _ = said_to(state, line)
    assert state.situation.open
    assert state.situation.open.facts == ("drive_halves",)
    assert state.situation.known["row_count"].settled == "24"


# -- cautions ---------------------------------------------------------------------------------


def test_a_resume_at_the_catch_repeats_its_cautions_before_the_question() -> None:
    state, reply = advance(calibrate(), talk([*START, "1.20"]), GoOn())
    warned = [message for message in reply.messages if isinstance(message, Warn)]
    assert [message.hazard for message in warned] == ["raised_drill"]
    assert not any(isinstance(message, Ask) for message in reply.messages)
    assert past_guards(state).situation.open == talk([*START, "1.20"]).situation.open


def test_a_caution_is_never_passed_by_enter_or_by_a_change() -> None:
    state = talk(START[:14])
    held, _ = said_to(state, "")
    changed, _ = advance(calibrate(), held, ChangeTo("turns", "40"))
    assert changed.situation.open
    assert changed.situation.open.hazard == "raised_drill"


@pytest.mark.parametrize("lines", [START, [*START, "1.20"], [*START, "1.40", "1.41"]])
def test_a_pause_beside_a_raised_drill_shows_what_to_put_back(lines: list[str]) -> None:
    state, said = said_to(talk(lines), "pause")
    assert state.left
    assert [message.ask for message in said if isinstance(message, Todo)] == [""]


def test_a_pause_before_the_drill_is_raised_shows_no_list() -> None:
    _, said = said_to(talk(START[:10]), "pause")
    assert not any(isinstance(message, Todo) for message in said)


def test_a_pause_after_the_drill_was_put_back_shows_no_list() -> None:
    _, said = said_to(talk([*START, "1.40", "1.41", "4.5", "done"]), "pause")
    assert not any(isinstance(message, Todo) for message in said)


def test_a_review_numbers_what_can_be_changed_and_tells_what_was_worked_out() -> None:
    state = talk([*START, "1.20"])
    lines = review_of(calibrate(), state).lines
    answers = [line for line in lines if line.number]
    results = [line for line in lines if not line.number]
    assert [line.number for line in answers] == list(range(1, len(answers) + 1))
    assert lines == (*answers, *results)
    assert {line.number for line in results} == {0}
    assert {line.origin for line in results} == {"worked out"}
    assert (results[0].label, results[-1].value) == ("Seed to drop", "16 mm")


def test_a_result_has_few_words_too_where_the_flow_gives_it_some() -> None:
    at = START.index("6, 30")
    _, said = said_to(talk(START[:at]), START[at])
    few = [message.brief for message in said if isinstance(message, Work)]
    assert few[-1] == "The scale should show 1.40 lb. Near enough: 1.34 lb to 1.47 lb."
    assert set(few[:-1]) == {""}


def test_why_tells_of_each_fact_asked_on_lines_of_their_own() -> None:
    asked = talk(START[: START.index("6, 30")])
    told = said_to(asked, "why")[1][0]
    assert isinstance(told, Say)
    lines = told.text.split("\n")
    assert {calibrate().fact(name).why for name in ("rows_caught", "turns")} <= set(lines)


def test_a_row_is_changed_by_the_name_that_the_review_gives_it() -> None:
    offered = said_to(talk([*START, "1.20"]), "change Catch 1 to 1.25 lb")[1][0]
    assert isinstance(offered, Offer)
    assert offered.text.startswith("Catch 1: from 1.2 lb to 1.25 lb.")
