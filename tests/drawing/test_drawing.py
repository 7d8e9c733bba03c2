"""A drawing holds the places and edges of the graph, no more and no fewer."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from assistant.calc.catalogue import CATALOGUE
from assistant.cli import main
from assistant.drawing.folded import folded, path_of
from assistant.drawing.mermaid import SHAPES, mermaid, name_of
from assistant.flow.graph import NEXT, Graph, compiled, facts_set
from assistant.flow.load import load
from assistant.flow.model import Library
from assistant.flow.place import flows_folder
from tests.drawing.chart import read_chart
from tests.house.tree import ROOT

JOBS = sorted(path.stem for path in (flows_folder() / "jobs").glob("*.toml"))


@cache
def library() -> Library:
    return load(flows_folder())


@cache
def graph_of(job: str) -> Graph:
    return compiled(library(), job, facts_set(CATALOGUE))


def drawn() -> Iterator[tuple[str, str]]:
    """Every job, and every part that it uses, as the path of the part."""
    for job in JOBS:
        paths = [path_of(graph_of(job), part) for part in library().parts]
        yield from ((job, path) for path in ["", *paths] if path is not None)


def in_drawing(place: str, part: str) -> str:
    """The place of a drawing that a place of the graph lies in, told from its path alone."""
    steps, inside = place.split("/"), part.split("/") if part else []
    return steps[len(inside)] if steps[: len(inside)] == inside and len(steps) > len(inside) else ""


def edges_of(graph: Graph, part: str) -> set[tuple[str, str, str]]:
    """The edges of the graph between two places of the drawing, or from one back to itself."""
    found = set[tuple[str, str, str]]()
    for place, node in graph.nodes.items():
        for outcome, to in node.next.items():
            here, there = in_drawing(place, part), in_drawing(to, part)
            whole = f"{part}/{there}" if part else there
            if here and there and (here != there or to == whole):
                said = node.step.what[0] if node.step.kind == "finish" else outcome
                found.add((name_of(here), "" if said == NEXT else said, name_of(there)))
    return found


@pytest.mark.parametrize(("job", "part"), list(drawn()))
def test_places_and_edges_are_those_of_the_graph(job: str, part: str) -> None:
    graph = graph_of(job)
    chart = read_chart(mermaid(folded(graph, part), library().cautions))
    places = {in_drawing(place, part) for place in graph.nodes} - {""}
    assert len({name_of(place) for place in places}) == len(places)
    assert set(chart.labels) == {name_of(place) for place in places}
    assert chart.edges == edges_of(graph, part)
    assert chart.edges


@pytest.mark.parametrize("job", JOBS)
def test_all_drawings_of_a_job_hold_every_step_of_its_files(job: str) -> None:
    graph = graph_of(job)
    paths = [path for name, path in drawn() if name == job]
    seen = {id(node.step) for path in paths for node in folded(graph, path).nodes.values()}
    assert seen == {id(node.step) for node in graph.nodes.values()}


def test_a_caution_is_marked_by_its_shape_and_a_word_and_nothing_else_looks_so() -> None:
    graph = graph_of("calibrate")
    chart = read_chart(mermaid(folded(graph, "catch"), library().cautions))
    six_sides = {name for name, shape in chart.shapes.items() if shape == "{{"}
    assert six_sides == {"at_raise", "at_strip_care", "at_turn_care", "at_change_range"}
    assert chart.labels["at_raise"] == "raise: caution raised_drill, stop"
    assert chart.labels["at_turn_care"] == "turn_care: caution turning, mind"


def test_each_kind_of_step_has_a_look_of_its_own() -> None:
    assert len(set(SHAPES.values())) == len(SHAPES)


def test_a_way_to_find_out_is_drawn_as_a_part() -> None:
    chart = read_chart(mermaid(folded(graph_of("calibrate"), "target"), library().cautions))
    assert chart.labels["at_tag__count_seed"] == "tag: use count_seed"
    assert ("at_tag", "unknown:seeds_per_weight", "at_tag__count_seed") in chart.edges
    assert ("at_tag__count_seed", "worked", "at_tag") in chart.edges


@pytest.mark.parametrize(("job", "number"), [("calibrate", 1), ("air", 2)])
def test_the_drawings_in_the_developers_page_are_fresh(job: str, number: int) -> None:
    page = Path(ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    shown = page.split("```mermaid\n")[number].split("\n```")[0]
    assert shown == mermaid(folded(graph_of(job)), library().cautions)


def test_the_command_draws_a_job_and_a_part(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["flows", "draw", "recheck"]) == 0
    assert "at_card" in read_chart(capsys.readouterr().out.rstrip("\n")).labels
    assert main(["flows", "draw", "recheck", "--part", "put_back"]) == 0
    assert set(read_chart(capsys.readouterr().out.rstrip("\n")).labels) == {
        "at_list",
        "at_done",
        "at_more",
    }


@pytest.mark.parametrize("typed", [["nowhere"], ["recheck", "--part", "nowhere"]])
def test_a_name_that_nothing_has_is_told(
    typed: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["flows", "draw", *typed]) == 2
    assert "nowhere" in capsys.readouterr().err


@pytest.mark.parametrize(
    "spoiled",
    [
        "flowchart LR",
        'flowchart TD\n  at_a["a"]\n  at_a --> at_b',
        'flowchart TD\n  at_a["a")',
        'flowchart TD\n  end["a"]',
        'flowchart TD\n  at_a["a"]\n  at_a --> at_a\n  at_a --> at_a',
    ],
)
def test_the_reader_is_strict(spoiled: str) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        read_chart(spoiled)
