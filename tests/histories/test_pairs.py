"""What can follow what: every pair of outcomes is walked, and what is listed as unwalked is not."""

from __future__ import annotations

from random import Random

import pytest

from tests.checking.judged_once import judged_once
from tests.histories.edges import unwalked, unwalked_pairs
from tests.histories.led import led_walks
from tests.histories.pairs import named
from tests.histories.search import Search
from tests.histories.talk import STARTS
from tests.stories.play import job_named

ROUNDS, TRIES = 30, 200


@pytest.mark.campaign
def test_the_checker_finds_no_road_to_what_is_said_to_have_none() -> None:
    found = {
        named(job_named(name).graph[state.place], edge.outcome)
        for name, each in judged_once().roads.items()
        for state, edges in each.edges.items()
        for edge in edges
    }
    for group in unwalked():
        on_roads = set(group.steps) & found
        assert on_roads == (set() if group.by == "checker" else set(group.steps)), group.why


@pytest.mark.campaign
def test_every_pair_that_can_follow_is_walked() -> None:
    """A search from behind the first outcome of each pair that is left, in rounds over the jobs."""
    searches = [Search(name, Random(1)) for name in STARTS]
    jobs = dict(zip(STARTS, searches, strict=True))
    can = {
        p for name, each in judged_once().roads.items() for p in jobs[name].folded.on_roads(each)
    }
    shape = {pair for each in searches for pair in each.folded.pairs()}
    listed = set(unwalked_pairs())
    alone = {each for group in unwalked() for each in group.steps}
    alone -= {outcome for each in searches for outcome in each.folded.endings()}
    wanted = {pair for pair in can if not set(pair) & alone}
    walked = {pair for each in searches for pair in each.walked}
    by_stories = len(walked & shape)
    for name, states in led_walks():
        walked |= {p for s in states for p in jobs[name].folded.walked(s.situation.trail, {})}
    for _ in range(ROUNDS):
        for each in searches:
            each.walked |= walked
            each.seek(wanted - listed, TRIES)
            walked |= each.walked
    print(f"{len(shape)} pairs by shape, {len(can)} with a road; by stories {by_stories}")
    print(f"{len(walked & can)} walked, {len(listed)} listed, {len(can - wanted)} with no outcome")

    for pair in sorted(wanted - walked ^ listed):
        print("listed, but walked or without a road:" if pair in listed else "left:", *pair)
    assert wanted - walked == listed
    assert walked & shape <= can


def test_each_listed_pair_begins_and_ends_with_outcomes_that_are_walked() -> None:
    """A pair of an outcome that nobody comes to needs no reason of its own."""
    alone = {each for group in unwalked() for each in group.steps}
    pairs = unwalked_pairs()
    assert len(pairs) == len(set(pairs))
    assert not [pair for pair in pairs if set(pair) & alone]
