"""What finds a mutant of the flow files out: the gate, the checker, then the tests of the flows.

Each is asked only where those before it found nothing. A mutant is judged in a process of its own
that is forked from one that has everything imported and nothing of the flows read.
"""

from __future__ import annotations

import multiprocessing
import shutil
from collections.abc import Callable, Iterator, Mapping, Set
from functools import partial
from multiprocessing.connection import Connection
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.check import JUDGES, ground_of, job_faults
from assistant.checking.flows import Flows, opened
from assistant.checking.readings import reading_faults
from assistant.checking.roads import roads_of
from assistant.checking.ways_out import unreached
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from assistant.flowfile.findings import Finding
from assistant.flowfile.gate import shape_faults
from tests.bad_input import edges
from tests.campaigns.mutants import NO_ROADS, TEXTS, Mutant
from tests.card import test_page
from tests.checking.test_by_hand import as_listed, listed
from tests.stories import play, test_stories
from tests.stories.story import FOLDER, Story, read_story, stories
from tests.stories.write_demo import DEMOS, PREFIX

SURVIVED, HUNG = "survived", "hung"
PATIENCE = 400.0
"""Seconds after which a mutant counts as one that hangs; a whole judgement takes thirty."""

SNAPSHOTS = FOLDER / "__snapshots__" / "test_stories"
SNAPSHOT = "test_the_conversation_reads_as_it_did[{}].txt"
CARD = "card.toml"
Uses = Mapping[str, frozenset[str]]
"""The steps of the flow files that each story comes by, as `file id`."""
Jobs = Mapping[str, frozenset[str]]
"""The jobs in which each flow file has a step."""


def apart(do: Callable[[], Any]) -> Any:
    """What a function gives in a process of its own, or that it hung."""
    ours, theirs = multiprocessing.Pipe(duplex=False)
    child = multiprocessing.get_context("fork").Process(target=_tell, args=(do, theirs))
    child.start()
    theirs.close()
    told = ours.recv() if ours.poll(PATIENCE) else HUNG
    child.kill()
    child.join()
    return told


def _tell(do: Callable[[], object], to: Connection) -> None:
    to.send(do())


def uses() -> Uses:
    """The steps that each story comes by in the flows that ship."""
    library = play.library()
    parts = [*library.jobs.values(), *library.parts.values()]
    homes = {id(step): part.file for part in parts for step in part.steps}
    return {story.name: frozenset(_steps_of(story, homes)) for story in stories()}


def jobs_by_file() -> Jobs:
    """The jobs in which a step of each flow file stands, in the flows that ship."""
    library = play.library()
    parts = [*library.jobs.values(), *library.parts.values()]
    laid = {
        job: {id(node.step) for node in play.job_named(job).graph.nodes.values()}
        for job in library.jobs
    }
    return {
        part.file: frozenset(j for j, of in laid.items() if any(id(s) in of for s in part.steps))
        for part in parts
    }


def _steps_of(story: Story, homes: Mapping[int, str]) -> Iterator[str]:
    graph = play.job_named(story.job).graph
    for state in play.played(story).states:
        for place, _ in state.situation.trail:
            step = graph[place].step
            yield f"{homes[id(step)]} {step.id}"
    if story.after:
        yield from _steps_of(read_story(FOLDER / f"{story.after}.txt"), homes)


def killer(mutant: Mutant, jobs: Jobs, used: Uses) -> str:
    """What finds a mutant out, as `who: what`, or that it survives.

    The jobs that it can change are asked first.
    """
    with TemporaryDirectory() as name:
        folder = Path(shutil.copytree(flows_folder(), Path(name) / "flows"))
        mutant.apply(folder)
        return next(_found(mutant, folder, jobs.get(mutant.file, frozenset()), used), SURVIVED)


def _found(mutant: Mutant, folder: Path, jobs: Set[str], used: Uses) -> Iterator[str]:
    yield from (f"gate: {each.code}" for each in shape_faults(folder))
    flows = opened(folder, CATALOGUE)
    roads = partial(road_faults, first=jobs)
    for judge in (*JUDGES, reading_faults, *((roads,) if on_the_road(mutant) else ())):
        yield from (f"checker: {each.code}" for each in judge(flows))
    yield from (f"edges: {each}" for each in edges.faults(load(folder)))
    yield from ("by hand: marks" for _ in range([*as_listed(load(folder))] != listed()))
    vars(play).update(flows_folder=lambda: folder)  # this process is thrown away
    yield from ("page: conditions" for _ in range(mutant.file == CARD and not page_holds()))
    for story in touched(mutant, jobs, used):
        yield from (f"story: {story.name}" for _ in range(not holds(story)))


def road_faults(flows: Flows, first: Set[str]) -> Iterator[Finding]:
    """The faults on the roads as the checker finds them, job by job, these jobs first."""
    walked = []
    for job in sorted(flows.library.jobs, key=lambda job: job not in first):
        walked.append(roads_of(ground_of(flows, job)))
        yield from job_faults(flows, walked[-1])
    yield from unreached(flows, walked)


def on_the_road(mutant: Mutant) -> bool:
    """Whether a mutant may change the roads of a job, which take by far the longest to walk."""
    in_flow = mutant.file.startswith(("jobs/", "parts/"))
    of_roads = mutant.operator not in NO_ROADS and mutant.file != CARD
    return of_roads and (in_flow or mutant.operator != TEXTS)


def touched(mutant: Mutant, jobs: Set[str], used: Uses) -> list[Story]:
    """The stories that a mutant can touch; those that come by its very step or job first.

    Where it is not known what the stories use, all of them.
    """
    step, told = f"{mutant.file} {mutant.where}", list(stories())
    told.sort(key=lambda story: (step not in used.get(story.name, ()), story.job not in jobs))
    if not used or not mutant.file.startswith(("jobs/", "parts/")):
        return told
    return [s for s in told if any(each.startswith(f"{mutant.file} ") for each in used[s.name])]


def page_holds() -> bool:
    """Whether the page of a card passes the tests of its conditions."""
    try:
        for test in test_page.HOLDS:
            test()
    except Exception:  # noqa: BLE001  a flow that breaks a test in any way is found out
        return False
    return True


def holds(story: Story) -> bool:
    """Whether a story passes its tests, its transcripts too where they are kept."""
    try:
        for test in test_stories.HOLDS:
            test(story)
        told = play.played(story).transcript()
    except Exception:  # noqa: BLE001  a flow that breaks a test in any way is found out
        return False
    return all(told == text for text in _kept(story))


def _kept(story: Story) -> Iterator[str]:
    if story.snapshot:
        yield (SNAPSHOTS / SNAPSHOT.format(story.name)).read_text(encoding="utf-8")
    if story.demo:
        demo = (DEMOS / f"{story.name.removeprefix(PREFIX)}.txt").read_text(encoding="utf-8")
        yield demo.removeprefix(f"# {story.title}\n\n")
