"""Looks on at a conversation and holds it to its cautions, by what was said and typed alone.

It keeps its own account: which cautions were put and passed in this sitting, and whether the drill
stands raised. The graph only tells which acts are near a hazard, and where a put-back list is.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta

from assistant.dialogue.foretelling import PREVIEW
from assistant.dialogue.messages import Message, Todo, Trouble, Warn
from assistant.dialogue.situation import Open, holds
from assistant.flow.graph import Node
from tests.histories.talk import Talk

AGREED = {"done", "yes"}
"""What passes a reminder beside its own word; a stop is passed by that alone."""


def section(place: str) -> str:
    """The part of the job that a place lies in, empty for the job's own steps."""
    return place.partition("/")[0] if "/" in place else ""


@dataclass
class Watch:
    """A talk that is watched. Every line goes through `type`, every return through `come_back`."""

    talk: Talk
    put: Warn | None = None
    passed: set[tuple[str, str]] = field(default_factory=set)
    ever: set[tuple[str, str]] = field(default_factory=set)
    raised: dict[str, str] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.look(self.talk.said)

    def type(self, line: str) -> None:
        """One typed line, and a look at what comes of it."""
        before, half_asked = self.talk.open, self.talk.state.moment
        said = self.talk.type(line)
        if line == "pause":
            self.shown_at_pause(said)
        if not any(isinstance(each, Trouble) for each in said) and self.talk.open != before:
            self.went_on(before, line)
            reshaped = line == "back" or (half_asked is not None and half_asked.kind == PREVIEW)
            if reshaped and section(self.talk.open.place) != section(before.place):
                self.passed.clear()
        self.look(said)

    def come_back(self, away: timedelta) -> None:
        """A new sitting: nothing that was passed before counts any more."""
        self.passed.clear()
        self.put = None
        self.look(self.talk.come_back(away))

    def went_on(self, before: Open, line: str) -> None:
        """A caution was passed by its word, or a list was done."""
        if self.put and before.hazard == self.put.hazard and self.agreed(line, self.put):
            home = self.home(before)
            self.passed.add((before.hazard, section(f"{home}/")))
            self.ever.add((before.hazard, section(f"{home}/")))
            caution, listed = self.talk.job.caution(before.hazard), self.list_in(home)
            if caution.undone or (listed and not caution.of_seed):
                self.raised[section(before.place)] = listed
        node = self.node(before)
        if before.kind == "wait" and node.step.put_back and line == "done":
            self.raised.pop(section(before.place), None)

    def agreed(self, line: str, put: Warn) -> bool:
        """Whether a line passes a caution."""
        return line == put.word or (put.grade == "mind" and line in AGREED)

    def home(self, caution: Open) -> str:
        """The part that shows a caution on the way to where it was passed."""
        here = self.node(caution).part
        return max(
            (
                each.part
                for each in self.talk.job.graph.nodes.values()
                if each.step.kind == "caution"
                and each.step.what == (caution.hazard,)
                and f"{here}/".startswith(f"{each.part}/" if each.part else "")
            ),
            key=len,
            default=here,
        )

    def list_in(self, part: str) -> str:
        """The first line of the put-back list of a part, empty where it has none."""
        nodes = self.talk.job.graph.nodes.values()
        listed = (n for n in nodes if n.step.put_back and f"{n.part}/".startswith(f"{part}/"))
        return next((each.step.say.split("\n")[0] for each in listed), "")

    def node(self, open_: Open) -> Node:
        """The step of a question."""
        return self.talk.job.graph[open_.place]

    # -- what must hold ---------------------------------------------------------------------

    def look(self, said: tuple[Message, ...]) -> None:
        """Look at what was said, and at the question that is open now."""
        self.put = next((each for each in said if isinstance(each, Warn)), self.put)
        open_ = self.talk.open
        if open_.kind == "guard" and not self.covers(self.ever, open_.hazard):
            self.fault(f"{open_.hazard} was never shown before {open_.place}")
        if open_.kind in {"ask", "wait"}:
            for hazard in self.node(open_).step.exposes:
                under = self.talk.job.caution(hazard).only
                if holds(under, self.talk.state.situation) and not self.covers(self.passed, hazard):
                    self.fault(f"{open_.place} without {hazard}")
        if open_.kind in {"review", "ended"} and self.raised:
            self.fault(f"{open_.place} while the drill stands raised")

    def covers(self, acknowledged: set[tuple[str, str]], hazard: str) -> bool:
        """Whether a caution was passed here, or in the job's own steps."""
        here = section(self.talk.open.place)
        return bool({(hazard, here), (hazard, "")} & acknowledged)

    def shown_at_pause(self, said: tuple[Message, ...]) -> None:
        """Who leaves a raised drill is shown how to put it back."""
        shown = [each.text.split("\n")[0] for each in said if isinstance(each, Todo)]
        for first in self.raised.values():
            if first not in shown:
                self.fault(f"paused at {self.talk.open.place}, and no list is shown")

    def fault(self, text: str) -> None:
        """Keep a fault with the lines that led to it."""
        self.faults.append(f"{text}: {self.talk.typed[-12:]}")
