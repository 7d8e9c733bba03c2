"""A pause says in what state the drill and the seed are to be left."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.dialogue.messages import Paused, Todo
from tests.stories.play import play
from tests.stories.story import FOLDER, read_story

SEED = "Treated seed: gloves on."


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (2, ()),  # the caution is still to be read
        (3, (SEED,)),  # seed was handled, the drill stands on its wheels
        (5, ("Put the drill back:",)),  # raised: one list, not one for each caution
        (8, (SEED,)),  # put back
    ],
)
def test_a_pause_in_a_recheck_with_treated_seed(lines: int, told: tuple[str, ...]) -> None:
    story = read_story(FOLDER / "recheck_treated.txt")
    played = play(replace(story, moves=(*story.moves[:lines], (">", "pause"))))
    _, (saved, *rest) = played.exchanges[-1]
    lists = [each for each in rest if isinstance(each, Todo)]
    assert isinstance(saved, Paused)
    assert [each.text.startswith(words) for each, words in zip(lists, told, strict=True)] == [
        True for _ in told
    ]
    assert len(lists) == len(rest)
    assert not any(each.ask for each in lists)
