"""Cautions: shown once a sitting and part; no exposing step waits without them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from assistant.dialogue.job import Job
from assistant.dialogue.log import Log
from assistant.dialogue.messages import Say
from assistant.dialogue.situation import holds
from assistant.dialogue.walk import DONE, Walk
from assistant.flow.graph import NEXT, Node


def caution(walk: Walk) -> str | None:
    """Show a caution once a sitting and part; afterwards its short line."""
    hazard = walk.node.step.what[0]
    due_now = walk.job.caution(hazard)
    if not holds(due_now.only, walk.at):
        return NEXT
    if is_guarded(walk, hazard):
        walk.said.append(Say(due_now.short))
        return NEXT
    acknowledge(walk)
    entry = walk.entry(hazard)
    if entry is None:
        if guarded(walk):
            walk.open("caution", hazard=hazard)
        return None
    walk.use(entry)
    if entry.sitting == walk.log.sitting:
        walk.at.guarded.add((hazard, walk.node.part))
    return NEXT


def corrected_from_afar(walk: Walk) -> bool:
    """Whether a correction came this far without anyone going near the machine."""
    since, cautions = walk.log.corrected_from, walk.job.library.cautions
    near = any(entry.fact in cautions and entry.sitting >= since for entry in walk.at.used)
    return bool(walk.log.corrects) and not near


def to_put_back(job: Job, log: Log) -> dict[str, Node]:
    """The put-back lists that are due, by the part whose caution was passed and not undone since.

    Where the conversation stands by now does not matter. After a caution about the seed the drill
    still stands as it stood.
    """
    due: dict[str, Node] = {}
    lists = [node for node in job.graph.nodes.values() if node.step.put_back]
    for entry in log.entries:
        node = job.graph.nodes.get(entry.place.partition("!")[0])
        if node in lists and entry.fact == DONE:
            due = {part: n for part, n in due.items() if not within(node.part, part)}
        elif node and entry.fact in job.library.cautions and not job.caution(entry.fact).of_seed:
            home = home_of(job, node.part, entry.fact)
            due.update((home, n) for n in reversed(lists) if within(n.part, home))
    return due


def within(part: str, outer: str) -> bool:
    """Whether a part is another one, or is used by it."""
    return part == outer or not outer or part.startswith(f"{outer}/")


def is_guarded(walk: Walk, hazard: str) -> bool:
    """Whether the caution was acknowledged in this sitting, in this part or one that uses it."""
    return covered(walk.at.guarded, hazard, walk.node.part)


def covered(guarded: Iterable[tuple[str, str]], hazard: str, part: str) -> bool:
    """Whether a hazard's caution guards a part: it was passed there, or in one around it."""
    return any(name == hazard and within(part, outer) for name, outer in guarded)


def guarded(walk: Walk) -> bool:
    """Hold an exposing step until each caution was acknowledged in this sitting and part."""
    for hazard in unguarded(walk):
        walk.at.guards += 1
        walk.said.clear()  # what went before can wait; the caution has to fit the screen
        walk.open("guard", hazard=hazard)
        return False
    return True


def unguarded(walk: Walk) -> Iterator[str]:
    """The hazards of this step that lack an acknowledgement."""
    for hazard in walk.node.step.exposes:
        if holds(walk.job.caution(hazard).only, walk.at) and not is_guarded(walk, hazard):
            yield hazard


def acknowledge(walk: Walk) -> None:
    """Use what the log holds of the guard at this step, whether or not it is still open."""
    for hazard in walk.node.step.exposes:
        entry = walk.entry(hazard, f"!{hazard}")
        if entry and entry.sitting == walk.log.sitting:
            walk.use(entry)
            walk.at.guarded.add((hazard, home_of(walk.job, walk.node.part, hazard)))


def home_of(job: Job, here: str, hazard: str) -> str:
    """The part that shows a hazard's caution on the way to a step in the part `here`."""
    homes = [
        node.part
        for node in job.graph.nodes.values()
        if node.step.kind == "caution" and node.step.what[0] == hazard and within(here, node.part)
    ]
    return max(homes, key=len, default=here)
