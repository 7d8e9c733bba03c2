"""A run that lacked something goes on later: facts and lines fill in what was left."""

from __future__ import annotations

import pytest

from assistant.book.nobook import NoBook
from tests.script.running import BASE, Facts, Ran, run, without
from tests.script.test_answers import STORY

ON_TARGET, AGREES = BASE["trials"]
ONE: Facts = {**BASE, "trials": [ON_TARGET]}


@pytest.fixture
def book() -> NoBook:
    return NoBook()


def again(book: NoBook, before: Ran, facts: Facts | None = None, *lines: str) -> Ran:
    return run(facts, lines or None, book=book, resumes=before.sitting.id)


def test_a_fact_that_lacked_is_given_later(book: NoBook) -> None:
    before = run(without(BASE, "target"), book=book)
    assert before.code == 3
    after = again(book, before, {"cautions_read": True, "target": "80 lb/ac"})
    assert after.facts["target"]["shown"] == "80 lb/ac"
    assert after.facts["crop"]["value"] == "wheat"
    assert (after.code, after.data["needs"]["name"]) == (3, "axle_height")
    assert after.data["id"] == before.data["id"]


def test_the_whole_file_once_more_goes_on_where_it_ended(book: NoBook) -> None:
    before = run(without(BASE, "target"), book=book)
    after = again(book, before, BASE)
    assert (after.code, after.data["outcome"], after.data["notes"]) == (0, "proven", [])
    assert after.facts["target_catch"] == run(BASE).facts["target_catch"]


def test_the_file_with_one_more_catch_goes_on_with_that_one(book: NoBook) -> None:
    before = run(ONE, book=book)
    assert (before.code, before.data["outcome"]) == (0, "on_target")
    after = again(book, before, BASE)
    assert (after.code, after.data["outcome"]) == (0, "proven")
    assert [row["catch_weight"]["shown"] for row in after.data["series"]["trials"]] == [
        "1.39 lb",
        "1.41 lb",
    ]


def test_a_file_with_the_new_catch_alone_goes_on_as_well(book: NoBook) -> None:
    before = run(ONE, book=book)
    rest = {"cautions_read": True, "final_lever_mark": "4.5", "trials": [AGREES]}
    assert again(book, before, rest).data["outcome"] == "proven"


def test_the_same_file_once_more_counts_no_catch_twice(book: NoBook) -> None:
    before = run(ONE, book=book)
    after = again(book, before, ONE)
    assert (after.code, after.data["outcome"]) == (0, "on_target")
    assert len(after.data["series"]["trials"]) == 1
    assert after.data["notes"] == [
        "Catches that the book holds already were not counted again: trials."
    ]


def test_lines_go_on_where_lines_ended(book: NoBook) -> None:
    before = run(lines=STORY[:10], book=book)
    assert before.code == 3
    after = again(book, before, None, *STORY[10:])
    assert (after.code, after.data["outcome"]) == (0, "proven")
    assert after.facts == run(lines=STORY).facts


def test_beside_a_raised_drill_the_caution_comes_again(book: NoBook) -> None:
    before = run(lines=STORY[:18], book=book)
    after = again(book, before, {"lot": "A1"})
    assert after.code == 3
    assert (after.data["needs"]["kind"], after.data["needs"]["name"]) == ("caution", "raised_drill")
    assert "as you left it" in after.data["needs"]["question"]
    passed = again(book, before, {"cautions_read": True})
    assert (passed.code, passed.data["outcome"]) == (0, "on_target")


def test_a_refused_fact_leaves_the_earlier_ones(book: NoBook) -> None:
    before = run({**BASE, "turns": "0"}, book=book)
    assert before.code == 4
    after = again(book, before, {**BASE, "turns": "30"})
    assert (after.code, after.data["outcome"]) == (0, "proven")


def test_a_run_is_kept_and_marked_as_one_by_script(book: NoBook) -> None:
    ran = run(BASE, book=book)
    card = book.card(ran.sitting.id)
    assert card is not None
    assert card.scripted
    assert card.outcome == "proven"
    assert book.cards() == []
    assert [each.id for each in book.cards(include_scripted=True)] == [card.id]


def test_a_card_of_a_named_book_is_lent(book: NoBook) -> None:
    run(BASE, book=book)
    told = ("cautions_read", "drill", "crop", "lot", "treated", "target", "rows_caught", "turns")
    few = {**{name: BASE[name] for name in told}, "trials": BASE["trials"]}
    lent = run(few, book=book)
    assert lent.facts["row_spacing"]["from"] == "last time"


def test_a_card_that_the_book_does_not_offer_is_refused(book: NoBook) -> None:
    run(BASE, book=book)
    ran = run({**BASE, "card": "nothing"}, book=book)
    assert (ran.code, ran.data["refused"]["facts"]) == (4, ["card"])
