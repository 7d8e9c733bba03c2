"""What a conversation may still ask from where it stands."""

from __future__ import annotations

from assistant.dialogue.job import Job
from assistant.dialogue.situation import Situation


def still_asked(job: Job, at: Situation) -> set[str]:
    """Every fact that some road from here on asks, with the facts that it may be told as."""
    seen: set[str] = set()
    front = [at.place] if at.open and at.open.kind != "ended" else []
    found: set[str] = set()
    while front:
        place = front.pop()
        if place in seen:
            continue
        seen.add(place)
        node = job.graph[place]
        if node.step.kind == "ask":
            for name in node.facts:
                found |= {name, *job.fact(name).variants.values()}
        chosen = at.choice(node.facts[0]) if node.step.kind == "split" else ""
        front += [node.next[chosen]] if chosen in node.next else node.next.values()
    return found
