"""Cautions: shown once a sitting and part; no exposing step waits without them."""

from __future__ import annotations

from assistant.dialogue.messages import Say
from assistant.dialogue.situation import holds
from assistant.dialogue.walk import Walk
from assistant.flow.graph import NEXT


def caution(walk: Walk) -> str | None:
    """Show a caution once a sitting and part; afterwards its short line."""
    hazard = walk.node.step.what[0]
    due_now = walk.job.caution(hazard)
    if not holds(due_now.only, walk.at):
        return NEXT
    if is_guarded(walk, hazard):
        walk.said.append(Say(due_now.short))
        return NEXT
    entry = walk.entry(hazard)
    if entry is None:
        walk.open("caution", hazard=hazard)
        return None
    walk.use(entry)
    if entry.sitting == walk.log.sitting:
        walk.at.guarded.add((hazard, walk.node.part))
    expose(walk)
    return NEXT


def expose(walk: Walk) -> None:
    """Remember the put-back list that is due from here on."""
    part = walk.node.part
    for place, node in walk.job.graph.nodes.items():
        if node.step.put_back and within(node.part, part):
            walk.at.exposed[part] = place
            return


def within(part: str, outer: str) -> bool:
    """Whether a part is another one, or is used by it."""
    return part == outer or not outer or part.startswith(f"{outer}/")


def is_guarded(walk: Walk, hazard: str) -> bool:
    """Whether the caution was acknowledged in this sitting, in this part or one that uses it."""
    part = walk.node.part
    return any(h == hazard and within(part, p) for h, p in walk.at.guarded)


def guarded(walk: Walk) -> bool:
    """Hold an exposing step until each caution was acknowledged in this sitting and part."""
    for hazard in walk.node.step.exposes:
        if not holds(walk.job.caution(hazard).only, walk.at) or is_guarded(walk, hazard):
            continue
        entry = walk.entry(hazard, "!" + hazard)
        if entry is None or entry.sitting != walk.log.sitting:
            walk.at.guards += 1
            walk.open("guard", hazard=hazard)
            return False
        walk.use(entry)
        walk.at.guarded.add((hazard, walk.node.part))
    return True
