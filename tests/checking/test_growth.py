"""The made flows that the cost of the check is measured on are sound in every shape."""

import re

import pytest

from tests.checking.growth import Shape, asked, branched, in_parts, told, with_made
from tests.checking.judged_once import judged_once
from tests.house.tree import ROOT
from tests.stories.play import job_named


@pytest.mark.parametrize("shape", [told, asked, branched, in_parts])
def test_made_flows_of_each_shape_are_sound(shape: Shape) -> None:
    assert with_made(shape, 10) > 0  # it fails where the check finds anything


def test_the_size_of_the_main_job_is_as_it_is_told() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    found = re.search(r"has some ([\d,]+) places in some ([\d,]+) states", text)
    assert found
    places, states = (int(each.replace(",", "")) for each in found.groups())
    assert len(job_named("calibrate").graph.nodes) == pytest.approx(places, rel=0.1)
    assert len(judged_once().roads["calibrate"].edges) == pytest.approx(states, rel=0.1)
