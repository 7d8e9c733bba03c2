"""The example of an answer is what the scale at hand shows."""

from __future__ import annotations

import pytest

from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from tests.stories.play import job_named, played
from tests.stories.story import FOLDER, read_story


@pytest.mark.parametrize(
    ("story", "example"),
    [("fluted_pounds", "1.12 lb"), ("metric_throughout", "508 g"), ("demo_first_timer", "508 g")],
)
def test_a_weight_is_shown_as_the_scale_shows_it(story: str, example: str) -> None:
    """1.12 lb x 453.59237 = 508.02 g."""
    told = played(read_story(FOLDER / f"{story}.txt"))
    asked = [s for s in told.states if (at := s.situation.open) and "catch" in at.facts]
    for line in ("a lot of it", "help"):
        _, said = advance(job_named("calibrate"), asked[0], Typed(line))
        assert f"Like this: {example}" in str(said)
