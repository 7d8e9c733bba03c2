"""The report on the flows that ship: its numbers are those of their roads, its page is one page."""

import json
import re
import shutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from assistant.checking.check import judged
from assistant.checking.judge import whole
from assistant.checking.report import proven, report, usual_prompts
from assistant.checking.shipped import shipped_mutants, shipped_proof, shipped_usual
from assistant.cli import main
from assistant.flow.graph import shape_of
from assistant.flow.place import flows_folder
from assistant.terminal.flow_files import report_lines
from assistant.terminal.screen import laid_out
from tests.checking.judged_once import judged_once
from tests.flowfile.small import CALCULATIONS, line_with, spoil, written
from tests.stamp import mutants
from tests.stories.play import library, played
from tests.stories.story import stories

WIDTH, LINES = 72, 84
ROOM = 2
"""So much farther than its farthest step a job may allow its end to be."""
ROLLS = [
    *("crank/roll", "crank/roll_again", "gear/roll_mark", "gear/roll"),
    *("pace/drive", "pace/once_more", "wheel/roll", "wheel/roll_again"),
]
"""The steps that the caution of a moving drill guards."""


@cache
def found() -> dict[str, Any]:
    return report(judged_once())


def job(name: str) -> dict[str, Any]:
    return next(each for each in found()["jobs"] if each["name"] == name)


def test_the_usual_numbers_that_ship_are_true() -> None:
    counted = {each["name"]: each["usual"] for each in found()["jobs"]}
    assert usual_prompts(flows_folder()) == counted
    assert shipped_usual(flows_folder()) == counted, "run python -m tests.stamp"
    for name, told in proven(found()).items():
        shipped = shipped_proof(flows_folder(), name)
        assert shipped == {**told, "mutants": mutants()}, "run python -m tests.stamp"


@pytest.mark.parametrize("name", ["calibrate", "recheck", "air"])
def test_what_to_bring_is_all_that_any_road_needs(name: str) -> None:
    roads = judged_once().roads[name]
    needed = {tool for state in roads.known for tool in needs(name, state.place)}
    assert set(job(name)["bring"]) == needed
    assert ("air_bags" if name == "air" else "jack_stands") in needed


def needs(name: str, place: str) -> Iterator[str]:
    """The tools that one place needs, as the flow files declare them."""
    graph = judged_once().roads[name].ground.graph
    step = graph[place].step
    for fact in graph[place].facts if (step.kind, step.quiet) == ("ask", False) else ():
        yield from graph.facts[fact].bring
    if step.kind == "caution":
        yield from library().cautions[step.what[0]].bring


def test_no_story_waits_in_more_places_than_the_longest_road() -> None:
    for story in stories():
        situations = [state.situation for state in played(story).states]
        waited = {each.place for each in situations if each.open and each.open.kind != "ended"}
        assert len(waited) <= job(story.job)["longest"], story.name


def test_each_job_says_how_far_its_end_may_be_and_keeps_near_it() -> None:
    for name, part in library().jobs.items():
        far = job(name)["farthest"]
        assert part.ends_within is not None, name
        assert far <= part.ends_within <= far + ROOM, name


def test_flows_and_sizes_are_those_of_the_graphs() -> None:
    for name, roads in judged_once().roads.items():
        graph = roads.ground.graph
        edges = [(place, outcome) for place, node in graph.nodes.items() for outcome in node.next]
        assert job(name)["flow"] == shape_of(graph)
        assert (job(name)["places"], job(name)["edges"]) == (len(graph.nodes), len(edges))


def test_each_caution_is_told_with_the_steps_that_it_guards() -> None:
    told = {each["name"]: each for each in found()["cautions"]}
    assert set(told) == set(library().cautions)
    assert told["rolling"] == {"name": "rolling", "grade": "stop", "guards": ROLLS}


def test_the_page_is_one_page(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "200")
    text = "\n".join(report_lines(library().words, found()))
    lines = laid_out(text)
    assert max(map(len, lines)) <= WIDTH
    assert len(lines) <= LINES
    assert "{" not in text
    assert f"- Prompts: {job('calibrate')['usual']} as a rule" in text


def test_the_command_tells_the_report_as_words_and_as_data(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("assistant.checking.judge.whole", lambda _folder: judged_once())
    assert main(["flows", "check", "--report", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == found()
    assert main(["flows", "check", "--report"]) == 0
    assert capsys.readouterr().out.startswith("The flow files are sound.")


def test_faulty_flows_get_no_report(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = written(tmp_path)
    spoil(folder, "jobs/plot.toml", 'ask = "remark"', 'ask = "remarks"')
    faulty = whole(folder)
    monkeypatch.setattr("assistant.checking.judge.whole", lambda _folder: faulty)
    assert main(["flows", "check", "--report"]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "jobs/plot.toml:45: remark: " in said.err


def test_the_page_tells_the_mutants_of_the_last_campaign() -> None:
    assert shipped_mutants(flows_folder()) == mutants(), "run python -m tests.stamp"
    told = "\n".join(report_lines(library().words, found()))
    killed, tried = mutants()["killed"], mutants()["tried"]
    assert re.search(f"{killed} of {tried} tried in (these|earlier) flows were found out", told)


def test_figures_of_other_flows_are_told_as_such() -> None:
    before = found() | {"mutants": {**mutants(), "flows": {"calibrate": "another"}}}
    told = "\n".join(report_lines(library().words, before))
    assert f"{mutants()['tried']} tried in earlier flows were found out" in told


def test_changed_flows_have_no_figures_of_mutants(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(flows_folder(), tmp_path / "flows"))
    assert shipped_mutants(folder)
    (folder / "glossary.toml").write_text('"a" = "Another word."\n', encoding="utf-8")
    assert shipped_mutants(folder) == {}


def test_faults_are_told_as_data_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = written(tmp_path)
    say = 'say = "{dose_weight} on {area}."\nnext = '
    spoil(folder, "jobs/plot.toml", f'{say}"remark"', f'{say}"remarc"')
    line = line_with(folder, "jobs/plot.toml", '"remarc"')
    spoilt = judged(folder, CALCULATIONS).faults
    monkeypatch.setattr("assistant.checking.judge.whole", lambda _folder: spoilt)
    assert main(["flows", "check", "--json"]) == 1
    (fault,) = json.loads(capsys.readouterr().out)["faults"]
    assert (fault["code"], fault["step"]) == ("unknown_step", "by_weight")
    assert (fault["file"], fault["line"]) == ("jobs/plot.toml", line)
    assert fault["about"] == {"step": "remarc", "near": "remark"}
    assert fault["told"].startswith(f"jobs/plot.toml:{line}: by_weight: ")
