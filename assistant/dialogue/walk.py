"""One walk over the graph: where it stands, the log's entries by their keys, what was said."""

from __future__ import annotations

from dataclasses import dataclass, field

from assistant.dialogue.job import Job
from assistant.dialogue.log import Entry, Log, key
from assistant.dialogue.messages import Message
from assistant.dialogue.situation import Open, Situation
from assistant.dialogue.wording import filled
from assistant.flow.graph import Node

CARD, DONE = "card", "done"
DRILL, SOUGHT = "drill", "sought"
NO_CARD = "none"


@dataclass(slots=True)
class Walk:
    """One walk over the graph: the log's entries by their keys, and what was said on the way."""

    job: Job
    log: Log
    at: Situation
    said: list[Message] = field(default_factory=list)
    entries: dict[tuple[str, int, str], Entry] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.entries = {key(entry): entry for entry in self.log.entries}

    @property
    def node(self) -> Node:
        """The node that the walk stands at."""
        return self.job.graph[self.at.place]

    def entry(self, fact: str, hazard: str = "") -> Entry | None:
        """The log's entry for a fact at this place and visit."""
        return self.entries.get((self.at.place + hazard, self.at.visit, fact))

    def use(self, entry: Entry) -> None:
        """Use an entry of the log; what was said before it is old."""
        self.said.clear()
        self.at.used.append(entry)

    def open(self, kind: str, facts: tuple[str, ...] = (), hazard: str = "") -> None:
        """Wait here for an answer."""
        self.at.open = Open(kind, self.at.place, self.at.visit, facts, hazard)

    def text(self, template: str) -> str:
        """A text of this step with its values."""
        return filled(self.job, self.log, self.at, self.node, template)
