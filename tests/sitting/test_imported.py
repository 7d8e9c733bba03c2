"""What the program writes is taken back; what it would never write is refused."""

from __future__ import annotations

import copy
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.answers.expect import Settled
from assistant.answers.read import read
from assistant.book.nobook import NoBook
from assistant.dialogue.expecting import expect
from assistant.dialogue.fold import replayed
from assistant.dialogue.log import Entry, Log, fold
from assistant.dialogue.situation import Situation
from assistant.sitting.imported import Reads
from assistant.sitting.sitting import FINISHED, go_on, records_of
from tests.book.exchanging import as_file, file_of, resealed, rows_of, taken
from tests.stories.play import calibrate, library, play, played, world
from tests.stories.story import FOLDER, Story, read_story, stories

READS = Reads(library())
STORIES = list(stories())
Body = dict[str, Any]


@cache
def story_file(name: str) -> bytes:
    """The book of a story as a file."""
    return file_of(played(read_story(FOLDER / f"{name}.txt")).book)


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.name)
def test_the_book_of_every_story_is_rebuilt_byte_for_byte(story: Story) -> None:
    told = played(story)
    file = file_of(told.book)
    with NoBook() as book:
        report = taken(book, file, READS)
        assert (report.refusals, report.missing) == ([], 0)
        assert file_of(book) == file
        log, rebuilt = (
            fold(records_of(told.book, told.sitting.id)),
            fold(records_of(book, told.sitting.id)),
        )
        assert replayed(calibrate(), rebuilt)[0] == replayed(calibrate(), log)[0]


def test_an_unfinished_conversation_goes_on_in_the_rebuilt_book_with_the_same_words() -> None:
    told = play(read_story(FOLDER / "pause_at_catch.txt"))
    with NoBook() as book:
        taken(book, file_of(told.book), READS)
        talk = book.talk(told.sitting.id)
        assert talk is not None
        _, there = go_on(calibrate(), told.book, world(), talk)
        _, here = go_on(calibrate(), book, world(), talk)
        assert here == there


def accepted() -> list[tuple[str, str]]:
    """Every text that a fact says it accepts, beside the fact."""
    facts = library().facts.values()
    return [(fact.name, text) for fact in facts for text in fact.accepts]


def test_whatever_an_answer_settles_on_reads_when_a_book_is_taken_over() -> None:
    """A field with no overlap was called strange, with all that was told after it."""
    job = calibrate()
    lost = []
    for name, text in accepted():
        found = read(expect(job, Log(), Situation(""), name), text)
        assert isinstance(found, Settled), (name, text)
        variant = found.fact if found.fact != name else ""
        if not READS.answers(Entry("", 1, name, found.settled, variant=variant)):
            lost.append((name, text))
    assert len(accepted()) > len(library().facts) / 2
    assert lost == []


# -- events -----------------------------------------------------------------------------------

ENTRY: Body = {
    "place": "rows",
    "visit": 1,
    "fact": "row_spacing",
    "settled": "7.5 in",
    "variant": "",
    "typed": "7.5",
    "origin": "measured",
    "sure": False,
    "sitting": 1,
}
TOLD: Body = {key: ENTRY[key] for key in ("fact", "settled", "variant", "typed", "origin", "sure")}


def answered(**changed: object) -> Body:
    return {"entries": [{**ENTRY, **changed}]}


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("answered", answered()),
        ("answered", answered(fact="seeds_per_weight", settled="?")),
        ("answered", answered(fact="row_count", settled="24")),
        ("answered", answered(fact="other_half.turns", settled="20")),
        ("answered", answered(fact="feed", settled="cup")),
        ("answered", answered(fact="tare", settled="0 lb")),
        ("answered", answered(fact="job_off", settled="-85.75 %")),
        ("answered", answered(fact="row_weights", settled="0.2 lb; 0.3 lb")),
        ("answered", answered(fact="target", settled="80 lb/ac", variant="target_weight")),
        ("answered", answered(fact="lot", settled="\x1b[2J")),  # the screen's filter is for that
        ("answered", answered(fact="!review", settled="done")),
        ("answered", {"entries": [{key: ENTRY[key] for key in list(ENTRY)[:4]}]}),
        ("given_early", {"facts": [TOLD]}),
        ("resumed", {}),
        ("began", {"system": "metric"}),
        (FINISHED, {"outcome": "proven"}),
    ],
)
def test_what_the_program_writes_is_taken(kind: str, body: Body) -> None:
    assert READS.event(kind, body)


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("unheard_of", {}),
        ("answered", {}),
        ("answered", {"entries": None}),
        ("answered", {"entries": {"place": "rows"}}),
        ("answered", {"entries": ["rows"]}),
        ("answered", {"entries": [{}]}),
        ("answered", {**answered(), "more": 1}),
        ("answered", answered(more="x")),
        ("answered", answered(visit=True)),
        ("answered", answered(visit=0)),
        ("answered", answered(visit=1.0)),
        ("answered", answered(visit=10**12)),
        ("answered", answered(sure=1)),
        ("answered", answered(typed=None)),
        ("answered", answered(typed="x" * 1001)),
        ("answered", answered(settled=7.5)),
        ("answered", answered(settled="?")),
        ("answered", answered(fact="feed", settled="?")),
        ("answered", answered(settled="7.5")),
        ("answered", answered(settled="7.5 lb")),
        ("answered", answered(settled="7.5 furlongs")),
        ("answered", answered(settled="seven in")),
        ("answered", answered(settled="1/0 in")),
        ("answered", answered(settled="0 in")),
        ("answered", answered(settled="-7.5 in")),
        ("answered", answered(fact="scale_step", settled="0 lb")),
        ("answered", answered(fact="purity", settled="-5 %")),
        ("answered", answered(settled="7.5 in; -1 in")),
        ("answered", answered(settled="9" * 900 + " in")),
        ("answered", answered(fact="row_count", settled="24 in")),
        ("answered", answered(fact="seeds_per_weight", settled="0 g")),
        ("answered", answered(fact="feed", settled="spoon")),
        ("answered", answered(fact="target", settled="80 lb/ac")),
        ("answered", answered(fact="target", settled="80 lb/ac", variant="target_seeds")),
        ("answered", answered(fact="target", settled="80 lb/ac", variant="row_spacing")),
        ("answered", answered(place="limits", fact="no_such_limit", settled="1")),
        ("answered", answered(variant="target_weight")),
        ("given_early", {"facts": [{**TOLD, "settled": "x"}]}),
        ("offered", {"place": "a", "visit": 1, "cards": [{"id": "x"}]}),
        ("offered", {"place": "a", "visit": 1, "cards": [{"id": "x", "line": 1, "facts": []}]}),
        ("changed", {"entry": ENTRY, "fresh": [{**ENTRY, "settled": ""}]}),
        ("struck", {"entries": [], "reason": ["why"]}),
        ("went_back", {"place": "rows"}),
        ("resumed", {"place": "rows"}),
        ("began", {"system": "imperial"}),
        ("units_set", {"system": ""}),
        (FINISHED, {}),
        (FINISHED, {"outcome": None}),
        (FINISHED, {"outcome": "proven", "more": 1}),
    ],
)
def test_what_the_program_never_writes_is_refused(kind: str, body: Body) -> None:
    assert not READS.event(kind, body)


# -- cards ------------------------------------------------------------------------------------

FACT: Body = {"value": 0.1905, "unit": "m", "shown": "7.5 in", "from": "measured"}


def card(name: str = "row_spacing", line: object = "CARD", **changed: object) -> Body:
    return {"facts": {name: {**FACT, **changed}}, "lines": [line]}


NOWHERE: Body = {"facts": {"row_spacing": {**FACT, "from": None}}, "lines": ["CARD"]}


@pytest.mark.parametrize(
    "body",
    [
        card(),
        card(settled="7.5 in", unusual=True, guess=True),
        card(value=None),
        card(value=[1, 2.5]),
        card(plus_minus=0.004),
        card("a_fact_of_a_later_version", settled="anything"),
        card(shown="\x1b]0;title\x07"),  # the screen's filter is for that
        {**card(), "made_with": {"plan": 1}},
    ],
)
def test_a_card_that_can_be_shown_and_lent_is_taken(body: Body) -> None:
    assert READS.card(body)


@pytest.mark.parametrize(
    "body",
    [
        {},
        {"facts": {}},
        {"facts": [], "lines": []},
        {"facts": {"row_spacing": "7.5 in"}, "lines": []},
        {"facts": {}, "lines": "CARD"},
        card(line=["CARD"]),
        card(line="CARD\x1b[2J"),
        card(line="two\nlines"),
        card(line="turned \u202e around"),
        card(line="x" * 1001),
        card(value={"deep": 1}),
        card(value=[[1]]),
        card(value="x" * 1001),
        card(shown=7.5),
        NOWHERE,
        card(unit=0),
        card(settled="seven"),
        card(settled=None),
        card("feed", settled="spoon"),
    ],
)
def test_a_card_that_would_trip_a_reader_is_refused(body: Body) -> None:
    assert not READS.card(body)


# -- what passes can be held ------------------------------------------------------------------


@settings(max_examples=60)
@given(st.data())
def test_a_forged_conversation_that_is_taken_can_be_gone_on_with(data: st.DataObject) -> None:
    rows = copy.deepcopy(rows_of(story_file("pause_at_catch")))
    events = [row for row in rows if row["row"] == "event" and row["kind"] == "answered"]
    pool = [entry["settled"] for row in events for entry in row["body"]["entries"]]
    for _ in range(data.draw(st.integers(1, 3))):
        entry = data.draw(st.sampled_from(data.draw(st.sampled_from(events))["body"]["entries"]))
        entry["settled"] = data.draw(st.sampled_from([*pool, "?", "0.001 in", "1", "none"]))
        entry["visit"] = data.draw(st.sampled_from([entry["visit"], 1, 2, 9]))
    with NoBook() as book:
        taken(book, as_file(resealed(rows)), READS)
        talk = book.talk(rows[0]["id"])
        assert talk is not None
        _, said = go_on(calibrate(), book, world(), talk)
        assert said
