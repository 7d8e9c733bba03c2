"""A job run without a terminal. Nothing is asked; what is missing ends the run, saved."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from assistant.dialogue.events import ChangeTo, Event, Supplied, Typed
from assistant.dialogue.log import UNKNOWN
from assistant.dialogue.messages import Message, Offer, Trouble
from assistant.dialogue.questions import caution_word, proposals
from assistant.dialogue.situation import Open
from assistant.flow.graph import Node
from assistant.script.facts_file import FactsFile
from assistant.script.report import Refusal, Report
from assistant.sitting.sitting import Sitting

DONE, USAGE, MISSING, REFUSED = 0, 2, 3, 4
DO_NOT_KNOW = "don't know"

Show = Callable[[str, tuple[Message, ...]], None]
"""Shows what was typed, if anything, and what was said to it."""


@dataclass(slots=True)
class Script:
    """What answers the questions: named facts first, then typed lines."""

    sitting: Sitting
    show: Show
    facts: FactsFile | None = None
    lines: Iterator[str] | None = None
    asks_rest: bool = False
    used: set[str] = field(default_factory=set)
    refused: Refusal | None = None
    typed: bool = False
    said: tuple[Message, ...] = ()

    def run(self, said: tuple[Message, ...]) -> Report:
        """Answer until the job ends or an answer lacks."""
        self.said = said
        self.show("", said)
        if not self._limits():
            return self._report(REFUSED)
        while True:
            open_ = self.sitting.state.situation.open
            if open_ is None or open_.kind == "ended" or self.sitting.state.left:
                return self._report(DONE)
            event = self._event(open_)
            if event is None:
                return self._report(self._ran_out(open_))
            if not self._hear(event):
                return self._report(REFUSED)

    def _hear(self, event: Event) -> bool:
        """React to an event; False when a named fact was refused."""
        self.said = said = self.sitting.hear(event)
        self.show(event.text if isinstance(event, Typed) else "", said)
        self.refused = refusal_in(said, event) or None
        self.typed = isinstance(event, Typed)
        return self.refused is None or self.typed

    # -- what answers the open question ------------------------------------------------------

    def _event(self, open_: Open) -> Event | None:
        if self.sitting.state.moment is None and self.facts is not None:
            event = self._from_facts(open_, self.facts)
            if event:
                return event
        line = self._line()
        if line is not None:
            return Typed(line)
        if self.asks_rest:
            return None
        if self.facts is not None and open_.kind == "ask" and self.sitting.state.moment is None:
            return self._without(open_, self.facts)
        return None

    def _line(self) -> str | None:
        """The next typed line; a line that starts with # is a comment."""
        for line in self.lines or ():
            if not line.startswith("#"):
                return line.rstrip("\n")
        return None

    def _from_facts(self, open_: Open, facts: FactsFile) -> Event | None:
        if open_.kind == "ask":
            return self._named(open_, facts)
        if open_.kind == "offer":
            return Typed(facts.texts.get("card", ""))
        if not facts.cautions_read:
            return None
        if open_.kind in {"caution", "guard"}:
            return Typed(caution_word(self.sitting.job, self.sitting.state, open_))
        return Typed("done" if open_.kind == "wait" else "")

    def _named(self, open_: Open, facts: FactsFile) -> Event | None:
        """The texts for the facts that are due, each by its own name."""
        given = self._row(open_, facts) or facts.texts
        job = self.sitting.job
        found: dict[str, str] = {}
        for name in open_.facts:
            for each in (name, *job.fact(name).variants.values()):
                if each in given:
                    found[each] = given[each]
                    break
        if not found:
            return None
        self.used |= set(found)
        return Supplied(found)

    def _row(self, open_: Open, facts: FactsFile) -> dict[str, str] | None:
        """The row of the series that this lap is answered from."""
        home = self.sitting.job.graph.home(open_.facts[0])
        if home is None:
            return None
        rows = facts.rows.get(home.name, [])
        done = len(self.sitting.state.situation.rows.get(home.name, ()))
        return rows[done] if done < len(rows) else {}

    def _without(self, open_: Open, facts: FactsFile) -> Event | None:
        """A fact that was not given: what is proposed, a guess, going without, or nothing."""
        job, state = self.sitting.job, self.sitting.state
        taken = proposals(job, state)
        if set(taken) >= set(open_.facts):
            return Typed("")
        policy = job.fact(open_.facts[0]).unknown
        if job.graph.home(open_.facts[0]) or policy is None or policy.way == "stop":
            return None
        if policy.way == "part" and not self._finds_out(job.graph[open_.place], open_, facts):
            return None
        return Typed(DO_NOT_KNOW)

    def _finds_out(self, node: Node, open_: Open, facts: FactsFile) -> bool:
        """A way to find out is entered only if one of its facts is given."""
        way = node.next.get(f"unknown:{open_.facts[0]}", "")
        inside = way.rpartition("/")[0]
        return any(
            name in facts.texts
            for place, each in self.sitting.job.graph.nodes.items()
            if place.startswith(f"{inside}/") and each.step.kind == "ask"
            for name in each.facts
        )

    def _limits(self) -> bool:
        """Limits that the file sets, before anything is asked."""
        for name, text in list(self.facts.texts.items()) if self.facts else ():
            if self.sitting.job.fact(name).stands_at:
                self.used.add(name)
                if not self._hear(ChangeTo(name, text)):
                    return False
        return True

    # -- how it ended ------------------------------------------------------------------------

    def _ran_out(self, open_: Open) -> int:
        """Trials used up after a judged catch are a result, not a lack."""
        if self.refused and self.typed:
            return REFUSED
        home = self.sitting.job.graph.home(open_.facts[0]) if open_.facts else None
        if self.facts and home and self.sitting.state.situation.rows.get(home.name):
            return DONE
        return MISSING

    def _report(self, code: int) -> Report:
        refused = self.refused if code == REFUSED else None
        return Report(self.sitting, code, refused, tuple(self._notes()), self.said)

    def _notes(self) -> Iterator[tuple[str, str]]:
        """Facts that were given and not asked, and unusual ones that were used."""
        for name in sorted(set(self.facts.texts) - self.used) if self.facts else ():
            if name != "card":
                yield "not_used", name
        for entry in self.sitting.state.situation.used:
            if entry.sure and entry.settled != UNKNOWN:
                yield "unusual", entry.fact


def refusal_in(said: tuple[Message, ...], event: Event) -> Refusal | None:
    """What was refused, or read two ways, among the messages."""
    for message in said:
        if isinstance(message, Trouble) and message.code != "unused":
            return Refusal(message.code, message.text, ())
        if isinstance(message, Offer) and message.choices and not isinstance(event, Typed):
            return Refusal("two_readings", message.text, message.choices)
    return None
