"""What the stories say on 40 columns by 20 rows: nothing is cut, and a question is last."""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest

from assistant.dialogue.messages import Ask, Message, Offer, Review, Todo, Warn, Work
from assistant.flow.model import Step
from assistant.sitting.plain_text import lines_of
from assistant.sitting.saying import TEACH
from assistant.terminal.paging import Pages
from assistant.terminal.screen import Screen
from tests.stories.play import library, played
from tests.stories.story import Story, stories

COLUMNS, ROWS = 40, 20
QUESTION_ROWS = 8
STORIES = list(stories())
CHECKS = ("Hands clear?", "All clear?", "Box still level?")
"""Looks to take while the hands work: nothing to type."""


def shown(message: Message) -> list[str]:
    """One message on the small screen."""
    return lines_of(library(), message, COLUMNS)


def by_name(story: Story) -> str:
    return story.name


def rows(said: Sequence[Message], capsys: pytest.CaptureFixture[str]) -> int:
    """The lines that a reply takes, as the screen sets it."""
    Screen(library()).show(said)
    return capsys.readouterr().out.count("\n")


@pytest.fixture(autouse=True)
def small(monkeypatch: pytest.MonkeyPatch) -> None:
    """The size of a phone."""
    monkeypatch.setenv("COLUMNS", str(COLUMNS))
    monkeypatch.setenv("LINES", str(ROWS))


@pytest.mark.parametrize("story", STORIES, ids=by_name)
def test_every_reply_fits_the_screen_and_what_waits_stands_last(
    story: Story, capsys: pytest.CaptureFixture[str]
) -> None:
    """A caution fits as a whole, with what comes with it or alone; a review comes in pages.

    Who is taught reads the lesson with its question, and a result before both on its own.
    """
    for _, said in played(story).exchanges:
        assert all(len(line) <= COLUMNS for each in said for line in shown(each))
        for part in parted(said, taught=story.say == TEACH):
            assert rows(part, capsys) <= ROWS, part
        what_waits_stands_last(said)


def parted(said: Sequence[Message], *, taught: bool) -> list[Sequence[Message]]:
    """A reply, cut where a person may have to look up: before a caution, in a review."""
    if any(isinstance(each, Review) for each in said):
        return pages_of(said)
    apart = Warn | Work if taught else Warn
    return [
        [m for m in said if not isinstance(m, apart)],
        [m for m in said if isinstance(m, apart)],
    ]


def pages_of(said: Sequence[Message]) -> list[Sequence[Message]]:
    """The pages that a reply with a review is shown in."""
    pages = Pages(Screen(library()))
    return [pages.cut(said), *pages.rest]


def test_a_review_comes_whole_and_in_its_order_over_its_pages() -> None:
    told = played(next(s for s in STORIES if s.name == "fluted_plants"))
    said = next(s for _, s in told.exchanges if any(isinstance(m, Review) for m in s))
    pages = pages_of(said)
    more = library().words["review.more"]
    lines = [line for page in pages for each in page for line in shown(each)]
    assert [line for line in lines if line != more] == [
        line for each in said for line in shown(each)
    ]
    assert [shown(page[-1])[-1] == more for page in pages] == [True] * (len(pages) - 1) + [False]
    assert "Worked out:" in shown(pages[-1][0])


def what_waits_stands_last(said: Sequence[Message]) -> None:
    """What waits for an answer ends the reply, and a question takes eight lines at most."""
    words = library().words
    for each in said:
        assert not isinstance(each, Ask) or len(shown(each)) <= QUESTION_ROWS, each
    waiting = [each for each in said if isinstance(each, Ask | Warn | Offer) or is_list(each)]
    if waiting:
        assert waiting[-1] is said[-1]
        last = " ".join(shown(said[-1]))
        match said[-1]:
            case Ask(choices=()):
                assert last.endswith("?")
            case Ask():
                assert words["ask.pick"] in last[last.rindex("?") :]
            case Warn(ask=ask) | Offer(ask=ask) | Todo(ask=ask):
                assert last.endswith(ask)


def is_list(message: Message) -> bool:
    return isinstance(message, Todo) and bool(message.ask)


def asked_texts() -> dict[str, str]:
    """The text of every question that is declared."""
    flows = library()
    texts = {name: fact.ask for name, fact in flows.facts.items() if fact.ask}
    for part in [*flows.jobs.values(), *flows.parts.values()]:
        texts |= {f"{part.name}/{step.id}": step.ask for step in part.steps if question_in(step)}
    return texts


def question_in(step: Step) -> bool:
    return step.kind == "ask" and bool(step.ask)


@pytest.mark.parametrize("name", sorted(asked_texts()))
def test_a_declared_question_asks_one_thing_and_ends_with_it(name: str) -> None:
    text = asked_texts()[name]
    for check in CHECKS:
        text = text.replace(check, "")
    assert text.rstrip().endswith("?")
    assert len(re.findall(r"\?", text)) == 1
