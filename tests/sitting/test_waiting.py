"""Jobs that wait lend to another what they know so far, once they know what is asked first."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.book.nobook import NoBook
from assistant.dialogue.messages import Fetch
from assistant.dialogue.walk import SOUGHT
from assistant.sitting.remembering import offers
from tests.stories.play import book_after, job_named

WANTED = {"job_off": "percent_off", "job_catch": "target_catch", "rows_in_tubs": "rows_caught"}


def lent(book: NoBook, wanted: dict[str, str], **match: str) -> list[dict[str, str]]:
    """The facts of each job that is offered."""
    fetch = Fetch("waits", 1, wanted, match, waiting=True)
    found = offers(job_named("fault"), book, fetch, scripted=False)
    return [{told.fact: told.settled for told in each.facts} for each in found]


def test_a_job_that_waits_lends_what_it_worked_out_and_what_it_was_told() -> None:
    # 5.62 / 1.40324 = 4.005
    told = {"job_off": "300.5 %", "job_catch": "1.403 lb", "rows_in_tubs": "6"}
    assert lent(book_after("left_far_off"), WANTED) == [told]


def test_one_that_does_not_know_the_first_fact_is_not_offered() -> None:
    assert lent(book_after("left_far_off"), {"judgement": "wheel_judgement", **WANTED}) == []


@pytest.mark.parametrize(("sought", "count"), [("The Hill Drill", 1), ("wheat", 1), ("oats", 0)])
def test_it_is_found_by_its_drill_its_crop_or_its_lot(sought: str, count: int) -> None:
    assert len(lent(book_after("left_far_off"), WANTED, **{SOUGHT: sought})) == count


def test_a_finished_job_does_not_wait() -> None:
    assert lent(book_after("fluted_pounds"), WANTED) == []


def test_one_that_can_not_be_worked_out_today_is_passed_over() -> None:
    book = book_after("left_far_off")
    (talk,) = book.unfinished()
    book.start(replace(talk, id="another", job="no such job"), (), None)
    assert len(book.unfinished()) == 2
    assert len(lent(book, WANTED)) == 1
