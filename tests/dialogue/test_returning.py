"""Coming back after a pause: what is asked again, what never, and where one was."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count

import pytest

from assistant.book.ids import CHANCE_BYTES
from assistant.book.nobook import NoBook
from assistant.dialogue.events import Event, Given, Typed
from assistant.dialogue.fold import replayed
from assistant.dialogue.log import WentStale, fold
from assistant.dialogue.messages import Ask, Message
from assistant.dialogue.questions import caution_word
from assistant.dialogue.returning import seconds
from assistant.sitting.plain_text import lines_of
from assistant.sitting.sitting import Sitting, corrected, go_on, open_sitting, records_of
from assistant.sitting.values import facts_of
from assistant.sitting.world import World
from tests.stories.play import calibrate, library, played
from tests.stories.story import FOLDER, Story, read_story

LUNCH, LONG = timedelta(hours=5), timedelta(days=4)
MARKED = {"tare", "rolled_turns", "rolled_distance", "axle_height", "distance_per_turn"}


@dataclass
class Yard:
    """A conversation held by a clock that stands still until it is moved."""

    now: datetime = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)
    book: NoBook = field(default_factory=NoBook)
    numbers: count[int] = field(default_factory=lambda: count(1))
    said: tuple[Message, ...] = ()
    sitting: Sitting = field(init=False)

    def __post_init__(self) -> None:
        self.sitting, self.said = open_sitting(calibrate(), self.book, self.world)

    @property
    def world(self) -> World:
        return World(
            clock=lambda: self.now,
            chance=lambda size: next(self.numbers).to_bytes(CHANCE_BYTES, "big").ljust(size, b"-"),
        )

    def hear(self, event: Event) -> None:
        self.said = self.sitting.hear(event)

    def type(self, *lines: str) -> None:
        for line in lines:
            self.hear(Typed(line))

    def type_or_word(self, line: str) -> None:
        """A line of a story; at a caution its word, which depends on what was asked before."""
        open_ = self.sitting.state.situation.open
        if open_ and open_.kind == "caution":
            line = caution_word(calibrate(), self.sitting.state, open_)
        self.type(line)

    def away(self, pause: timedelta, *, asks_again: bool = True) -> None:
        """Leave, and come back after a pause."""
        self.now += pause
        talk = self.book.talk(self.sitting.id)
        assert talk is not None
        self.sitting, self.said = go_on(
            calibrate(), self.book, self.world, talk, asks_again=asks_again
        )

    def asked_again(self) -> set[str]:
        """The facts that the last pause made stale."""
        stale = [r for r in records_of(self.book, self.sitting.id) if isinstance(r, WentStale)]
        return {entry.fact for entry in stale[-1].entries} if stale else set()

    def heard(self) -> str:
        return " ".join(
            line for message in self.said for line in lines_of(library(), message, 1000)
        )

    def keep_all(self) -> int:
        """Enter at what is asked again, the word at each caution; returns how often Enter."""
        enters = 0
        while open_ := self.sitting.state.situation.open:
            state = self.sitting.state
            again = {(open_.place, open_.visit, name) for name in open_.facts}
            if open_.kind == "guard":
                self.type(caution_word(calibrate(), state, open_))
            elif open_.kind == "ask" and again & set(state.log.again):
                self.type("")
                enters += 1
            else:
                break
        return enters


@cache
def story(name: str) -> Story:
    return read_story(FOLDER / f"{name}.txt")


def lines(name: str) -> list[str]:
    return [text for _, text in story(name).moves]


def at_the_catch() -> Yard:
    """The straight story in pounds, after the first catch."""
    yard = Yard()
    yard.type(*lines("fluted_pounds")[:18])
    assert yard.sitting.state.situation.place == "catch/trials/lap/fluted_lap"
    return yard


# -- what is asked again ----------------------------------------------------------------------


def test_after_lunch_the_tub_alone_is_asked_again_and_enter_keeps_it() -> None:
    yard = at_the_catch()
    before = yard.sitting.state.situation
    yard.away(LUNCH)
    assert yard.asked_again() == {"tare"}
    assert "I ask again: Empty tub." in yard.heard()
    asked = yard.said[-1]
    assert isinstance(asked, Ask)
    assert (asked.facts, asked.proposal) == (("tare",), "0.00 lb")
    assert yard.keep_all() == 1
    after = yard.sitting.state.situation
    assert (after.place, after.visit, after.open) == (before.place, before.visit, before.open)
    assert after.known == before.known


def test_after_days_the_wheel_is_asked_again_too() -> None:
    yard = at_the_catch()
    yard.away(LONG)
    assert yard.asked_again() == {"tare", "distance_per_turn"}
    assert yard.keep_all() == 2


@pytest.mark.parametrize(
    ("pause", "stale"),
    [
        (timedelta(hours=2), set[str]()),
        (timedelta(hours=2, seconds=1), {"tare"}),
        (timedelta(days=3), {"tare"}),
        (timedelta(days=3, seconds=1), {"tare", "distance_per_turn"}),
        (timedelta(hours=-1), set[str]()),
        (timedelta(days=-400), set[str]()),
    ],
)
def test_only_a_pause_longer_than_the_fact_says_makes_it_stale(
    pause: timedelta, stale: set[str]
) -> None:
    yard = at_the_catch()
    yard.away(pause)
    assert yard.asked_again() == stale


def test_a_new_answer_moves_what_rests_on_it() -> None:
    yard = at_the_catch()
    before = yard.sitting.state.situation.known["target_catch"].value
    yard.away(LONG)
    yard.type("80 in")
    yard.keep_all()
    after = yard.sitting.state.situation.known["target_catch"].value
    old = at_the_catch().sitting.state.situation.known["distance_per_turn"].value
    assert isinstance(before, float)
    assert isinstance(after, float)
    assert isinstance(old, float)
    assert after / before == pytest.approx(80 * 0.0254 / old)


def test_what_was_told_early_is_asked_again_in_its_turn() -> None:
    yard = Yard()
    yard.hear(Given({"tare": "0.4 lb"}))
    told = lines("fluted_pounds")
    yard.type(*told[:18])
    known = yard.sitting.state.situation.known
    assert known["tare"].settled == "0.4 lb"
    yard.away(LUNCH)
    assert yard.asked_again() == {"tare"}
    assert yard.keep_all() == 1
    assert yard.sitting.state.situation.known["tare"].settled == "0.4 lb"


def test_what_was_told_early_after_the_pause_is_not_asked_once_more() -> None:
    yard = at_the_catch()
    yard.away(LONG)
    yard.hear(Given({"tare": "0.4 lb"}))
    assert yard.keep_all() == 1
    assert yard.sitting.state.situation.known["tare"].settled == "0.4 lb"


# -- what never is ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name",
    ["fluted_pounds", "wheel_rolled", pytest.param("two_halves", marks=pytest.mark.campaign)],
)
def test_wherever_one_leaves_only_marked_answers_come_again_and_the_end_is_the_same(
    name: str,
) -> None:
    whole = played(story(name)).sitting
    typed = lines(name)
    for cut in range(1, len(typed)):
        yard = Yard()
        yard.type(*typed[:cut])
        used = {e.fact for e in yard.sitting.state.situation.used}
        open_ = yard.sitting.state.situation.open
        assert open_ is not None
        yard.away(LONG)
        marked = {fact for fact in used if fact.rpartition(".")[2] in MARKED}
        assert yard.asked_again() == (set() if open_.kind == "review" else marked), cut
        yard.keep_all()
        for line in typed[cut:]:
            yard.type_or_word(line)
            yard.keep_all()
        assert yard.sitting.finish == whole.finish, cut
        assert facts_of(calibrate(), yard.sitting.state) == facts_of(calibrate(), whole.state), cut


def test_what_a_card_lent_does_not_go_stale() -> None:
    yard = Yard()
    yard.type(*lines("fluted_pounds"))
    assert yard.sitting.card
    yard.now += timedelta(days=365)
    yard.sitting, yard.said = open_sitting(calibrate(), yard.book, yard.world)
    yard.type(*lines("known_drill")[:8])
    used = yard.sitting.state.situation.used
    assert {"tare", "distance_per_turn"} <= {entry.fact for entry in used}
    yard.away(LONG)
    assert yard.asked_again() == set()


def test_a_finished_conversation_that_is_corrected_is_never_stale() -> None:
    yard = Yard()
    yard.type(*lines("fluted_pounds"))
    talk = yard.book.talk(yard.sitting.id)
    assert talk is not None
    yard.now += timedelta(days=365)
    yard.sitting, yard.said = corrected(calibrate(), yard.book, yard.world, talk)
    assert not any(isinstance(record, WentStale) for record in records_of(yard.book, talk.id))
    assert yard.sitting.state.log.again == {}
    assert "Last:" not in yard.heard()


def test_a_run_by_script_was_not_away() -> None:
    yard = at_the_catch()
    yard.away(LONG, asks_again=False)
    assert yard.asked_again() == set()


# -- the journal ------------------------------------------------------------------------------


def test_replay_comes_to_the_same_state() -> None:
    yard = at_the_catch()
    yard.away(LONG)
    for _ in range(3):
        log = fold(records_of(yard.book, yard.sitting.id))
        state, _ = replayed(calibrate(), log)
        assert log == yard.sitting.state.log
        assert state.situation.known == yard.sitting.state.situation.known
        assert state.situation.open == yard.sitting.state.situation.open
        yard.type("")


# -- where one was ----------------------------------------------------------------------------


def test_the_last_act_and_the_state_of_the_drill_come_before_caution_and_question() -> None:
    yard = at_the_catch()
    yard.away(timedelta(minutes=30))
    heard = yard.heard()
    last = heard.index("Last: Catch 1, 14 mm, 1.39 lb.")
    state = heard.index("Raised: on its jack stands.")
    assert last < state < heard.index("is the drill still as you left it?")


def test_beside_a_raised_drill_nothing_is_asked_again_without_the_reminder() -> None:
    yard = at_the_catch()
    yard.away(LUNCH)
    heard = yard.heard()
    reminder = heard.index("Still on its jack stands? No levers in the tractor.")
    assert heard.index("Raised: on its jack stands.") < reminder < heard.index("I ask again")
    assert "Treated seed" not in heard  # this seed is not


def test_before_the_drill_is_raised_only_the_last_act_is_told() -> None:
    yard = Yard()
    yard.type(*lines("fluted_pounds")[:3])
    yard.away(timedelta(minutes=30))
    assert yard.heard().startswith("Last: Row spacing, ")
    assert "should stand" not in yard.heard()


def test_every_place_beside_a_raised_drill_says_how_it_should_stand() -> None:
    graph = calibrate().graph
    beside = [node for node in graph.nodes.values() if node.step.exposes]
    assert len(beside) > 10
    assert [node.place for node in beside if not node.state] == []


@pytest.mark.parametrize(
    ("span", "length"), [("2 h", 7200), ("1 day", 86_400), ("3 days", 259_200)]
)
def test_a_length_of_time_is_read(span: str, length: int) -> None:
    assert seconds(span) == length


@pytest.mark.parametrize("span", ["", "h", "2", "2 moons", "-2 h", "2 h 5", "1.5 h"])
def test_no_other_length_of_time_is(span: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(span)}$"):
        seconds(span)


def test_just_these_facts_go_stale() -> None:
    declared = {name for name, fact in library().facts.items() if fact.stale_after}
    assert declared == MARKED
