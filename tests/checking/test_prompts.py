"""The prompts of a job: as counted by hand, as the machine takes them, as all walks count them."""

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.check import ground_of
from assistant.checking.flows import Flows, opened
from assistant.checking.knots import knots
from assistant.checking.prompts import farthest, longest, most_met, usual, ways_to
from assistant.checking.roads import State, roads_of
from assistant.flow.place import flows_folder
from tests.flowfile.small import CALCULATIONS, spoil, written
from tests.stories.play import played
from tests.stories.story import FOLDER, read_story


@pytest.fixture(scope="module")
def shipped() -> Flows:
    """The flows that ship."""
    return opened(flows_folder(), CATALOGUE)


def small(folder: Path) -> Flows:
    return opened(folder, CALCULATIONS)


def test_the_usual_road_is_walked_step_for_step_by_the_machine(shipped: Flows) -> None:
    told = played(read_story(FOLDER / "usual_road.txt"))
    counted = usual(ground_of(shipped, "calibrate"))
    assert counted.trail == told.sitting.state.situation.trail
    assert len(counted.prompts) == told.prompts


def test_the_usual_recheck_is_that_of_a_treated_lot(shipped: Flows) -> None:
    told = played(read_story(FOLDER / "recheck_treated.txt"))
    counted = usual(ground_of(shipped, "recheck"))
    opened_at = [state.situation.place for state in told.states][:-1]  # the last one has ended
    assert len(counted.prompts) == told.prompts
    assert counted.finish == "one_catch"
    by_tubs = "room/tubs"  # the card had no test weight to compare with
    assert [p.replace("room/either", by_tubs) for p in counted.prompts[1:]] == opened_at


def test_the_usual_road_of_the_small_job_as_counted_by_hand(tmp_path: Path) -> None:
    counted = usual(ground_of(small(written(tmp_path)), "plot"))
    assert counted.finish == "proven"
    assert counted.prompts == [
        "name",
        "treated",
        "care",
        "size/sides",
        "dose",
        "remark",
        "ready",
        "catches/lap",
        "tidy/list",
        "done",
    ]


def test_a_card_that_is_taken_saves_what_it_lends(tmp_path: Path) -> None:
    folder = written(tmp_path)
    spoil(
        folder,
        "jobs/plot.toml",
        'match = ["plot"]\n',
        'match = ["plot"]\nnext = { taken = "treated", none = "treated" }\n',
    )
    prompts = usual(ground_of(small(folder), "plot")).prompts
    assert prompts[:3] == ["name", "old", "treated"]
    spoil(folder, "jobs/plot.toml", 'recall = ["width"]', 'recall = ["width", "length"]')
    fewer = usual(ground_of(small(folder), "plot")).prompts
    assert [place for place in prompts if place not in fewer] == ["size/sides"]


def test_the_next_way_is_taken_where_a_fork_is_come_to_again(tmp_path: Path) -> None:
    folder = written(tmp_path)
    old = '{ plenty = "good", little = "less" }'
    spoil(folder, "parts/catches.toml", old, '{ little = "less", plenty = "good" }')
    counted = usual(ground_of(small(folder), "plot"))
    assert counted.prompts.count("catches/lap") == 2


def test_a_loop_that_ends_by_a_typed_word_alone_ends(tmp_path: Path) -> None:
    folder = written(tmp_path)
    old = '{ plenty = "good", little = "less" }'
    spoil(folder, "parts/catches.toml", old, '{ plenty = "less", little = "less" }')
    counted = usual(ground_of(small(folder), "plot"))
    assert counted.finish == "given_up"
    assert ("catches/lap", "leave:give up") in counted.trail


def test_the_longest_road_of_the_small_job_as_counted_by_hand(tmp_path: Path) -> None:
    # the ten of the usual road, the card that the book may offer, and the paces
    assert longest(roads_of(ground_of(small(written(tmp_path)), "plot"))) == 12


def test_the_way_out_of_the_small_job_as_counted_by_hand(tmp_path: Path) -> None:
    # from its start: name, a card that the book may offer, treated, sides, dose, remark, ready,
    # the catch that is given up, and the list of what to put back
    assert farthest(roads_of(ground_of(small(written(tmp_path)), "plot"))) == 9


Graph = dict[State, list[State]]


@st.composite
def graphs(draw: st.DrawFn) -> tuple[Graph, dict[State, str]]:
    """A small graph, some of whose places wait for Enter."""
    places = [State(str(n)) for n in range(draw(st.integers(1, 6)))]
    ways = {place: draw(st.lists(st.sampled_from(places), max_size=3)) for place in places}
    waiting = draw(st.sets(st.sampled_from(places)))
    return ways, {place: place.place for place in waiting}


def by_walking(onward: Graph, prompts: dict[State, str]) -> int:
    """The same by every walk there is, each with the prompts that it met."""
    front = [(place, frozenset[str]()) for place in onward]
    seen = set(front)
    most = 0
    while front:
        place, met = front.pop()
        met |= {prompts[place]} if place in prompts else set()
        most = max(most, len(met))
        new = {(to, met) for to in onward[place]} - seen
        seen |= new
        front += new
    return most


@given(graphs())
def test_the_longest_road_is_the_longest_of_all_walks(
    graph: tuple[Graph, dict[State, str]],
) -> None:
    assert most_met(*graph) == by_walking(*graph)


def step_by_step(onward: Graph, prompts: dict[State, str], ends: set[State]) -> dict[State, int]:
    """The same by as many rounds over all places as there are places."""
    left = {end: int(end in prompts) for end in ends}
    for _ in onward:
        for place, ways in onward.items():
            for to in (each for each in ways if each in left):
                told = left[to] + (place in prompts)
                left[place] = min(left.get(place, told), told)
    return left


@given(graphs(), st.data())
def test_the_way_out_is_the_shortest(
    graph: tuple[Graph, dict[State, str]], data: st.DataObject
) -> None:
    ends = data.draw(st.sets(st.sampled_from(list(graph[0]))))
    assert ways_to(ends, *graph) == step_by_step(*graph, ends)


@given(graphs())
def test_knots_hold_what_leads_to_one_another_and_come_in_order(
    graph: tuple[Graph, dict[State, str]],
) -> None:
    onward, _ = graph
    reached = {place: reach(onward, place) for place in onward}
    found = list(knots(onward))
    assert sorted(place for knot in found for place in knot) == sorted(onward)
    for knot in found:
        assert all(b in reached[a] and a in reached[b] for a, b in pairwise(knot))
    for at, knot in enumerate(found):
        later = {place for after in found[at + 1 :] for place in after}
        assert all(reached[place].isdisjoint(knot) for place in later)


def reach(onward: Graph, place: State) -> set[State]:
    """All that is reached from a place, by one step or more."""
    found, front = set[State](), [place]
    while front:
        new = set(onward[front.pop()]) - found
        found |= new
        front += new
    return found
