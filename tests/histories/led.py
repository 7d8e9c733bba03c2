"""Walks that are led: typed answers for what chance does not come to."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from assistant.dialogue.job import State
from tests.histories.lines import word_for
from tests.histories.mutants import answers_of
from tests.histories.talk import Talk, talk_of
from tests.stories.story import FOLDER, read_story


def led_walks() -> Iterator[tuple[str, list[State]]]:
    """Each walk of `led.txt`: its job, and the state after each line."""
    text = (Path(__file__).parent / "led.txt").read_text(encoding="utf-8")
    for line in text.splitlines():
        if line and not line.startswith("#"):
            head, _, own = line.partition(" : ")
            job, after, story, first = head.split()
            answers = answers_of(read_story(FOLDER / f"{story}.txt"))[: int(first)]
            yield job, list(walk(talk_of(job, after.strip("-")), answers + own.split(" / ")))


def walk(talk: Talk, answers: list[str]) -> Iterator[State]:
    """Type the answers; at each caution or list the word that passes it, unless one leaves it."""
    for answer in answers:
        while talk.open.kind in {"caution", "guard", "wait"} and not leaves(talk, answer):
            talk.type(word_for(talk.job, talk.state, talk.open))
        talk.type(answer)
        yield talk.state


def leaves(talk: Talk, answer: str) -> bool:
    """Whether an answer is a word that leaves the open list another way."""
    return talk.open.kind == "wait" and answer in talk.job.graph[talk.open.place].step.leave
