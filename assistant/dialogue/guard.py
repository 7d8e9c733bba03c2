"""Cautions: shown once a sitting and part; no exposing step waits without them."""

from __future__ import annotations

from collections.abc import Iterator

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
    acknowledge(walk)
    entry = walk.entry(hazard)
    if entry is None:
        if guarded(walk):
            walk.open("caution", hazard=hazard)
        return None
    walk.use(entry)
    if entry.sitting == walk.log.sitting:
        walk.at.guarded.add((hazard, walk.node.part))
    if not due_now.of_seed:  # else the drill still stands as it stood
        expose(walk)
    return NEXT


def corrected_from_afar(walk: Walk) -> bool:
    """Whether a correction came this far without anyone going near the machine."""
    since, cautions = walk.log.corrected_from, walk.job.library.cautions
    near = any(entry.fact in cautions and entry.sitting >= since for entry in walk.at.used)
    return bool(walk.log.corrects) and not near


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
            walk.at.guarded.add((hazard, home_of(walk, hazard)))


def home_of(walk: Walk, hazard: str) -> str:
    """The part that shows a hazard's caution on the way to this step."""
    here = walk.node.part
    homes = [
        node.part
        for node in walk.job.graph.nodes.values()
        if node.step.kind == "caution" and node.step.what[0] == hazard and within(here, node.part)
    ]
    return max(homes, key=len, default=here)
