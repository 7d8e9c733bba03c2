"""A job run without a terminal. Nothing is asked; what is missing ends the run, saved."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from assistant.dialogue.events import ChangeTo, Event, Given, Supplied, Typed
from assistant.dialogue.log import UNKNOWN
from assistant.dialogue.messages import Message, Offer, Trouble
from assistant.dialogue.questions import caution_word, proposals
from assistant.dialogue.situation import Open
from assistant.dialogue.trouble import DOUBT
from assistant.dialogue.walk import CARD, DRILL
from assistant.flow.graph import MISSING as NOT_KNOWN
from assistant.flow.graph import Graph, Node
from assistant.script.facts_file import FactsFile
from assistant.script.laps import Laps
from assistant.script.lines import Lines
from assistant.script.report import Refusal, Report
from assistant.script.roads import still_asked
from assistant.sitting.sitting import Sitting

DONE, USAGE, MISSING, REFUSED = 0, 2, 3, 4
DO_NOT_KNOW = "don't know"

Show = Callable[[str, tuple[Message, ...]], None]
"""Shows what was typed, if anything, and what was said to it."""


@dataclass(frozen=True, slots=True)
class Cue:
    """What answers the open question, and what it was read from: a line, or names of the file."""

    event: Event
    line: int = 0
    names: tuple[str, ...] = ()
    series: str = ""


@dataclass(slots=True)
class Script:
    """What answers the questions: named facts first, then typed lines.

    A named fact answers once. Where a question comes again, the same text would run in a circle.
    """

    sitting: Sitting
    show: Show
    facts: FactsFile | None = None
    lines: Lines | None = None
    asks_rest: bool = False
    used: set[str] = field(default_factory=set)
    early: set[str] = field(default_factory=set)
    refused: Refusal | None = None
    said: tuple[Message, ...] = ()
    laps: Laps = field(init=False)

    def __post_init__(self) -> None:
        self.laps = Laps(self.sitting, self.facts.rows if self.facts else {})

    def run(self, said: tuple[Message, ...]) -> Report:
        """Answer until the job ends or an answer lacks."""
        self.said = said
        self.show("", said)
        if not all(self._hear(cue) for cue in self._limits()):
            return self._report(REFUSED)
        while True:
            open_ = self.sitting.state.situation.open
            if open_ is None or open_.kind == "ended" or self.sitting.state.left:
                return self._report(DONE)
            cue = self._cue(open_)
            if cue is None and self.asks_rest:
                return self._report(self._tell_rest())
            if cue is None:
                return self._report(self._ran_out(open_))
            if not self._hear(cue):
                return self._report(REFUSED)

    def _hear(self, cue: Cue) -> bool:
        """React; False when something of the facts file was refused."""
        event = cue.event
        self.said = said = self.sitting.hear(event)
        self.show(event.text if isinstance(event, Typed) else "", said)
        half_asked = self.sitting.state.moment is not None and not cue.line
        refused = refusal_in(said, half_asked=half_asked)
        self.refused = self._placed(refused, cue) if refused else None
        if cue.series and not refused:
            self.laps.took(cue.series, cue.names)
        return self.refused is None or cue.line > 0

    def _placed(self, refused: Refusal, cue: Cue) -> Refusal:
        """A refusal with its file, its line and its facts."""
        if cue.line and self.lines:
            open_ = self.sitting.state.situation.open
            names = open_.facts if open_ else ()
            return replace(refused, facts=names, file=self.lines.name, line=cue.line)
        if self.facts is None:
            return refused
        told, row = self._blamed(cue), 0
        name = told
        if cue.series:
            name, row = self.laps.in_file(cue.series, told), self.laps.number(cue.series)
        line = self.facts.line(name, row)
        return replace(refused, facts=(told,), file=self.facts.path, line=line)

    def _blamed(self, cue: Cue) -> str:
        """Of several facts supplied together, the one that was refused or read two ways."""
        job, moment = self.sitting.job, self.sitting.state.moment
        names = {each.fact for each in self.said if isinstance(each, Trouble) and each.fact}
        if moment and moment.kind == DOUBT:
            names |= {name for name, _ in moment.options if isinstance(name, str)}
        names |= {told for name in names for told in job.fact(name).variants.values()}
        return next((name for name in cue.names if name in names), cue.names[0])

    # -- what answers the open question ------------------------------------------------------

    def _cue(self, open_: Open) -> Cue | None:
        facts = self.facts if self.sitting.state.moment is None else None
        found = self._from_facts(open_, facts) if facts else None
        if found:
            return found
        line = self.lines.following() if self.lines else None
        if line is not None and self.lines:
            return Cue(Typed(line), line=self.lines.number)
        if self.asks_rest or self.refused or facts is None or open_.kind != "ask":
            return None
        return self._without(open_, facts)

    def _from_facts(self, open_: Open, facts: FactsFile) -> Cue | None:
        if open_.kind == "ask":
            return self._looked_at(open_, facts) or self._named(open_, facts)
        if open_.kind == "offer":
            return self._card(open_, facts)
        if not facts.cautions_read:
            return None
        if open_.kind in {"caution", "guard"}:
            return Cue(Typed(caution_word(self.sitting.job, self.sitting.state, open_)))
        return Cue(Typed("done" if open_.kind == "wait" else ""))

    def _card(self, open_: Open, facts: FactsFile) -> Cue:
        """The card that the file names, by its id or by the drill; else the newest."""
        by_drill = DRILL in self.sitting.job.graph[open_.place].step.what
        name = CARD if CARD in facts.texts or not by_drill else DRILL
        self.used.add(name)
        return Cue(Typed(facts.texts.get(name, "")), names=(name,))

    def _named(self, open_: Open, facts: FactsFile) -> Cue | None:
        """The texts for the facts that are due, each by its own name."""
        job = self.sitting.job
        home = job.graph.home(open_.facts[0])
        given = self.laps.following(home.name) if home else facts.texts
        found: dict[str, str] = {}
        for name in open_.facts:
            for each in (name, *job.fact(name).variants.values()):
                if each in given and each not in self.used:
                    found[each] = given[each]
                    break
        if not found:
            return None
        if home is None:
            self.used |= set(found)
        return Cue(Supplied(found), names=tuple(found), series=home.name if home else "")

    def _looked_at(self, open_: Open, facts: FactsFile) -> Cue | None:
        """Facts that the part of this question looks at without asking: told before."""
        graph = self.sitting.job.graph
        part = graph[open_.place].part
        for node in graph.nodes.values():
            if node.step.quiet and part in (node.part, _before(graph, node)):
                for name in set(node.facts) & set(facts.texts) - self.used - self.early:
                    self.early.add(name)
                    if name not in self.sitting.state.situation.known:
                        return Cue(Given({name: facts.texts[name]}), names=(name,))
        return None

    def _without(self, open_: Open, facts: FactsFile) -> Cue | None:
        """A fact that was not given: what is proposed, a guess, going without, or nothing."""
        job, state = self.sitting.job, self.sitting.state
        if set(open_.facts) & (self.used | self.early):
            return None
        if set(proposals(job, state)) >= set(open_.facts):
            return Cue(Typed(""))
        policy = job.fact(open_.facts[0]).unknown
        if job.graph.home(open_.facts[0]) or policy is None or policy.way == "stop":
            return None
        if policy.way == "part" and not self._finds_out(job.graph[open_.place], open_, facts):
            return None
        return Cue(Typed(DO_NOT_KNOW))

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

    def _limits(self) -> Iterator[Cue]:
        """Limits that the file sets, before anything is asked."""
        for name, text in list(self.facts.texts.items()) if self.facts else ():
            if name != CARD and self.sitting.job.fact(name).stands_at:
                self.used.add(name)
                yield Cue(ChangeTo(name, text), names=(name,))

    def _tell_rest(self) -> int:
        """What the file has beyond this question waits until its own is reached."""
        situation, texts = self.sitting.state.situation, self.facts.texts if self.facts else {}
        for name in still_asked(self.sitting.job, situation) & set(texts) - self.used - self.early:
            if name in situation.known or self.sitting.job.graph.home(name):
                continue
            self.early.add(name)
            if not self._hear(Cue(Given({name: texts[name]}), names=(name,))):
                return REFUSED
        return MISSING

    # -- how it ended ------------------------------------------------------------------------

    def _ran_out(self, open_: Open) -> int:
        """Trials used up after a judged catch are a result, not a lack."""
        if self.refused:
            return REFUSED
        home = self.sitting.job.graph.home(open_.facts[0]) if open_.facts else None
        judged = home and self.sitting.state.situation.rows.get(home.name)
        return DONE if self.facts and home and judged and self.laps.used_up(home.name) else MISSING

    def _report(self, code: int) -> Report:
        refused = self.refused if code == REFUSED else None
        return Report(self.sitting, code, refused, tuple(self._notes()), self.said)

    def _notes(self) -> Iterator[tuple[str, str]]:
        """Facts that were given and are not asked any more, and unusual ones that were used."""
        at = self.sitting.state.situation
        held = {name: each.typed for each in at.used for name in (each.fact, each.variant)}
        waits = still_asked(self.sitting.job, at) | self.used | (self.early & set(at.known))
        for name, text in sorted(self.facts.texts.items()) if self.facts else ():
            if name not in waits and held.get(name) != text:
                yield "not_used", name
        yield from self.laps.notes()
        for entry in at.used:
            if entry.sure and entry.settled != UNKNOWN:
                yield "unusual", entry.fact


def refusal_in(said: tuple[Message, ...], *, half_asked: bool) -> Refusal | None:
    """What was refused, or read two ways, among the messages; a typed line may yet choose.

    `half_asked` says that an offer asks which of two readings was meant.
    """
    for message in said:
        if isinstance(message, Trouble) and message.code != "unused":
            return Refusal(message.code, message.text)
        if half_asked and isinstance(message, Offer) and message.choices:
            return Refusal("two_readings", message.text, message.choices)
    return None


def _before(graph: Graph, node: Node) -> str | None:
    """The part that uses the one which begins with this step: no question comes between them."""
    use = graph.nodes.get(node.part)
    return use.part if use and use.next.get(NOT_KNOWN) == node.place else None
