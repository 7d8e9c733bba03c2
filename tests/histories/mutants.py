"""The flows that ship with one caution or put-back list taken out, past the checker."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Container, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from assistant.calc.catalogue import CATALOGUE
from assistant.dialogue.job import Job, job_of
from assistant.dialogue.situation import Open
from assistant.flow.load import load
from assistant.flow.model import Part
from assistant.flow.place import flows_folder
from tests.histories.lines import word_for
from tests.histories.talk import Talk
from tests.histories.watch import Watch
from tests.stories.play import job_named, library, played
from tests.stories.story import Story, stories


@dataclass(frozen=True)
class Caution:
    """One caution of the flow files: the file, the step, the hazard."""

    file: str
    step: str
    hazard: str

    def __str__(self) -> str:
        return f"{self.file.partition('/')[2]}:{self.step}"


@dataclass(frozen=True)
class Lists:
    """Some lists of what to put back, all of one file: the file, the steps."""

    file: str
    steps: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.file.partition('/')[2]}:{'+'.join(self.steps)}"


def parts() -> list[Part]:
    """Every job and part."""
    return [*library().jobs.values(), *library().parts.values()]


def cautions() -> list[Caution]:
    """Every caution of every flow."""
    return [
        Caution(part.file, step.id, step.what[0])
        for part in parts()
        for step in part.steps
        if step.kind == "caution"
    ]


def put_backs() -> list[Lists]:
    """The put-back lists of every flow, those of a file together."""
    found = [Lists(part.file, tuple(s.id for s in part.steps if s.put_back)) for part in parts()]
    return [each for each in found if each.steps]


def flows_without(caution: Caution, folder: Path) -> Path:
    """A copy of the flows in which a caution only says something, or is a list that waits."""

    def spoiled(step: str) -> str:
        put = "wait = true" if "\nsay = " in step else 'say = "On."'
        return step.replace(f'caution = "{caution.hazard}"', put)

    return _copied(folder, caution.file, (caution.step,), spoiled)


def flows_without_lists(gone: Lists, folder: Path) -> Path:
    """A copy of the flows in which some put-back lists say a word and go on."""

    def spoiled(step: str) -> str:
        kept = [line for line in step.splitlines() if line.startswith(("id = ", "next = "))]
        return "\n".join(["", *kept, 'say = "On."', "", ""])

    return _copied(folder, gone.file, gone.steps, spoiled)


def _copied(folder: Path, file: str, ids: Iterable[str], spoiled: Callable[[str], str]) -> Path:
    """A copy of the flows with some steps of a file changed."""
    flows = Path(shutil.copytree(flows_folder(), folder / "flows"))
    path = flows / file
    head, *steps = path.read_text(encoding="utf-8").split("[[step]]")
    for each in ids:
        at = next(n for n, step in enumerate(steps) if f'id = "{each}"\n' in step)
        steps[at] = spoiled(steps[at])
    path.write_text("[[step]]".join([head, *steps]), encoding="utf-8")
    return flows


def jobs_of(flows: Path) -> dict[str, Job]:
    """The jobs of a copy, whatever the checker says of it."""
    found = load(flows)
    return {name: job_of(found, name, CATALOGUE) for name in found.jobs}


def near(file: str, ids: Container[str]) -> Iterator[Story]:
    """The stories that come to some steps of a file."""
    found = (step for part in parts() if part.file == file for step in part.steps)
    steps = {id(step) for step in found if step.id in ids}
    for story in stories():
        graph = job_named(story.job).graph
        if steps & {id(node.step) for node in graph.nodes.values()}:
            trail = {place for state in played(story).states for place, _ in state.situation.trail}
            if steps & {id(graph[place].step) for place in trail}:
                yield story


def answers_of(story: Story) -> list[str]:
    """What was typed in a story, but for the words that pass a caution."""
    told = played(story)
    before: list[Open | None] = [None, *(state.situation.open for state in told.states)]
    lines = [text for kind, text in story.moves if kind == ">"]
    kinds = [open_.kind if open_ else "" for open_ in before]
    return [t for t, kind in zip(lines, kinds, strict=False) if kind not in {"caution", "guard"}]


def retold(job: Job, story: Story) -> Watch:
    """A story told again under watch, with whatever words its cautions want now."""
    watch = Watch(Talk(job, story.after))
    waiting = answers_of(story)
    while waiting and not watch.faults and not watch.talk.ended:
        open_ = watch.talk.open
        if open_.kind in {"caution", "guard"}:
            watch.type(word_for(job, watch.talk.state, open_))
        else:
            watch.type(waiting.pop(0))
    return watch
