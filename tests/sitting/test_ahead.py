"""What lies ahead is said once, before the first question, to a person who wants it."""

import re

import pytest

from assistant.checking.shipped import shipped_usual
from assistant.dialogue.messages import Finish, Say
from assistant.flow.place import flows_folder
from assistant.flow.tools import tools_for
from assistant.sitting.ahead import ahead, with_ahead
from assistant.sitting.plain_text import folded
from tests.stories.play import job_named, library, played
from tests.stories.story import stories
from tests.terminal.pseudo import running

SMALL, MOST_LINES, HALF_OF_FIVE = 40, 3, 2.5
SHIPPED = shipped_usual(flows_folder())


@pytest.mark.parametrize("name", sorted(SHIPPED))
def test_it_is_three_lines_at_most_on_a_small_screen(name: str) -> None:
    lines = folded("\n".join(ahead(job_named(name), SHIPPED[name])), SMALL)
    assert len(lines) <= MOST_LINES


@pytest.mark.parametrize("name", sorted(SHIPPED))
def test_it_tells_the_number_of_the_report_the_time_and_every_tool(name: str) -> None:
    job = job_named(name)
    first, *bring = ahead(job, SHIPPED[name])
    number = int(first.split()[1])
    assert number % 5 == 0
    assert abs(number - SHIPPED[name]) <= HALF_OF_FIVE
    assert library().jobs[name].takes in first
    tools = [library().words[f"tools.{tool}"] for tool in tools_for(job.graph, library())]
    assert bring == ([f"Bring: {', '.join(tools)}."] if tools else [])


@pytest.mark.parametrize(("prompts", "told"), [(1, 5), (7, 5), (8, 10), (22, 20), (24, 25)])
def test_the_number_is_told_to_the_nearest_five(prompts: int, told: int) -> None:
    assert next(ahead(job_named("calibrate"), prompts)).startswith(f"About {told} questions")


def test_nothing_lies_ahead_of_a_job_that_ends_at_once() -> None:
    said = (Say("No card."), Finish("given_up", card=False, text="No card."))
    assert with_ahead(job_named("recheck"), 9, said) == said


def test_it_is_said_once_and_before_the_first_question() -> None:
    for story in stories():
        told = [str(said) for _, said in played(story).exchanges]
        with_it = [
            number for number, said in enumerate(told) if re.search(r"About \d+ questions", said)
        ]
        ends_at_once = len(told) == 1
        wanted = [] if story.say == "short" or ends_at_once else [0]
        assert with_it == wanted, story.name


@pytest.mark.terminal
@pytest.mark.parametrize(("level", "told"), [("short", 0), ("normal", 1), ("teach", 1)])
def test_a_person_at_a_terminal_sees_it_with_the_first_question(level: str, told: int) -> None:
    with running("calibrate", "--book", "none", "--say", level) as terminal:
        screen = terminal.ready("Drill?" if level == "short" else "What do you call this drill?")
        assert screen.count("About 25 questions, half an hour.") == told
        terminal.type("\x04")
        terminal.ended()
