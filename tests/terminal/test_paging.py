"""A long review comes in pages: Enter goes on, the last page alone can be made final."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from assistant.dialogue.messages import Ask, Message, Offer, Review, ReviewLine, Say
from assistant.terminal.paging import Pages
from tests.terminal.small import screen

ASKED = Offer("", (), "All right?")
MORE = "Enter shows more."
HEIGHT = 12


@pytest.fixture(autouse=True)
def low(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    monkeypatch.setenv("LINES", str(HEIGHT))


def review(lines: int) -> Review:
    return Review(tuple(ReviewLine(n, "Turns", f"{n}", "") for n in range(1, lines + 1)))


def pages_of(said: Sequence[Message]) -> tuple[Pages, list[str]]:
    """The pages, and how each ends."""
    pages = Pages(screen())
    first = pages.cut(said)
    asked = [page[-1] for page in (first, *pages.rest)]
    return pages, [each.ask for each in asked if hasattr(each, "ask")]


def test_what_fits_is_shown_at_once() -> None:
    said = (review(4), ASKED)
    pages = Pages(screen())
    assert pages.cut(said) is said
    assert not pages.goes_on("")


@pytest.mark.parametrize("lines", [9, 20, 60])
def test_enter_goes_on_until_the_question_and_never_past_it(lines: int) -> None:
    pages, asked = pages_of((Say("Changed."), review(lines), ASKED))
    assert asked == [MORE] * (len(asked) - 1) + ["All right?"]
    left = len(pages.rest)
    for number in range(left):
        assert pages.goes_on(("  ", "yes", "ok")[number % 3])
        assert screen().rows(pages.due()) < HEIGHT
    assert left
    assert not pages.goes_on("")


@pytest.mark.parametrize("typed", ["change 4", "no", "7"])
def test_any_other_line_is_an_answer_and_ends_the_pages(typed: str) -> None:
    pages, _ = pages_of((review(60), ASKED))
    assert not pages.goes_on(typed)
    assert not pages.goes_on("")


def test_a_review_asked_for_in_mid_job_ends_with_the_open_question() -> None:
    ask = Ask("How many turns?", ("turns",))
    pages, _ = pages_of((review(30), ask))
    assert pages.rest[-1][-1] == ask
