"""What a script run came to, as one object for other programs."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any

from assistant import __version__
from assistant.dialogue.doubt import doubts
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import CardOffer
from assistant.dialogue.messages import Ask, Message, Offer, Warn
from assistant.dialogue.questions import proposals, question
from assistant.dialogue.walk import CARD
from assistant.dialogue.wording import say, shown_fact
from assistant.script.lines import STANDARD_INPUT
from assistant.sitting.sitting import Sitting
from assistant.sitting.values import facts_of, judgement_of, series_of

FORMAT = 1
HEAD: dict[str, Any] = {"format": FORMAT, "program": f"drillside {__version__}"}


@dataclass(frozen=True, slots=True)
class Refusal:
    """An answer or a fact that was refused: the code, the sentence, and two readings if it had.

    `file` and `line` say where it was read, as far as that can be told.
    """

    code: str
    text: str
    readings: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    file: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Report:
    """The end of a run: its exit code, what was refused, and notes as (code, fact)."""

    sitting: Sitting
    exit: int
    refused: Refusal | None = None
    notes: tuple[tuple[str, str], ...] = ()
    said: tuple[Message, ...] = ()

    def why(self) -> list[str]:
        """Why the run ended before its job, in words."""
        if self.refused:
            return [*self.where(), self.refused.text, *self.refused.readings]
        needs = self.needs()
        if needs is None:
            return []
        names = needs["name"] if isinstance(needs["name"], list) else [needs["name"]]
        return [say(self.sitting.job, "script.missing", name=name) for name in names]

    def where(self) -> list[str]:
        """Where what was refused stands."""
        refused = self.refused
        if refused is None or not refused.line:
            return []
        file = (
            self.sitting.job.word("script.piped")
            if refused.file == STANDARD_INPUT
            else refused.file
        )
        names = ", ".join(refused.facts)
        return [
            say(self.sitting.job, "script.where", file=file, line=str(refused.line), name=names)
        ]

    def as_json(self) -> str:
        """One object, whatever the exit code."""
        return json.dumps(self.as_data(), indent=2)

    def as_data(self) -> dict[str, Any]:
        """The object: `finished`, `outcome`, `needs`, `refused`, `notes`, `facts`, `series`."""
        sitting = self.sitting
        finish = sitting.finish
        return {
            **HEAD,
            "job": sitting.job.graph.job,
            "id": sitting.id,
            "finished": finish is not None,
            "outcome": finish.outcome if finish else judgement_of(sitting.state),
            "exit": self.exit,
            "needs": self.needs(),
            "refused": self.refusal(),
            "notes": [self.note(code, name) for code, name in self.notes],
            "facts": with_doubt(sitting.job, sitting.state),
            "series": series_of(sitting.job, sitting.state),
        }

    def refusal(self) -> dict[str, Any] | None:
        """What was refused and where, with both readings where there were two."""
        return asdict(self.refused) if self.refused else None

    def needs(self) -> dict[str, Any] | None:
        """What the conversation waits for."""
        state = self.sitting.state
        open_ = state.situation.open
        if self.sitting.finish or open_ is None or open_.kind == "ended":
            return None
        put = question(self.sitting.job, state)
        if open_.kind in {"caution", "guard"}:
            word = put[0].word if isinstance(put[0], Warn) else ""
            text = put[0].text if isinstance(put[0], Warn) else ""
            return need("caution", open_.hazard, text, [word])
        if open_.kind == "ask":
            return self.needed(open_.facts, put[0])
        if open_.kind == "offer":
            text = put[0].text if isinstance(put[0], Offer) else ""
            return need("fact", CARD, text, [card.id for card in self.offered()])
        kind = "review" if open_.kind == "review" else "list"
        return need(kind, open_.place, "", ["done"])

    def offered(self) -> tuple[CardOffer, ...]:
        """The cards that are offered just now."""
        state = self.sitting.state
        offer = state.log.offered(state.situation.place, state.situation.visit)
        return offer.cards if offer else ()

    def needed(self, facts: tuple[str, ...], ask: Message) -> dict[str, Any]:
        """The facts without which there is no answer: those for which nothing is proposed."""
        job, state = self.sitting.job, self.sitting.state
        taken = proposals(job, state)
        lacking = [name for name in facts if name not in taken] or list(facts)
        names = [self.told_as(name) for name in lacking]
        choices = [choice.name for name in lacking for choice in job.fact(name).choices]
        text = ask.text if isinstance(ask, Ask) else ""
        return need("fact", names[0] if len(names) == 1 else names, text, choices)

    def told_as(self, name: str) -> str:
        """The name that a plain value goes by: for a catch, by what the scale shows."""
        fact = self.sitting.job.fact(name)
        choice = self.sitting.state.situation.choice(fact.variant_by) if fact.variant_by else ""
        return fact.variants.get(choice, name)

    def note(self, code: str, name: str) -> str:
        """A note in words."""
        job, state = self.sitting.job, self.sitting.state
        value = shown_fact(job, state.log, state.situation, name) if code == "unusual" else ""
        return say(job, f"script.{code}", name=name, value=value)


def not_begun(exit_code: int, code: str, text: str) -> str:
    """The object for a run that came to no conversation, or was broken off inside one."""
    nothing: dict[str, Any] = {"job": None, "id": None, "finished": False, "outcome": None}
    nothing |= {"exit": exit_code, "needs": None, "refused": asdict(Refusal(code, text))}
    nothing |= {"notes": [], "facts": {}, "series": {}}
    return json.dumps(HEAD | nothing, indent=2)


def need(kind: str, name: str | list[str], text: str, accepts: list[str]) -> dict[str, Any]:
    """What is needed, as data."""
    return {"kind": kind, "name": name, "question": text, "accepts": accepts}


def with_doubt(job: Job, state: State) -> dict[str, Any]:
    """Every fact that is known; a number that was worked out with how far it may be off, in SI."""
    facts = facts_of(job, state)
    half = {name: doubt.half for name, doubt in doubts(job, state).items()}
    return {n: {**each, "plus_minus": half[n]} if n in half else each for n, each in facts.items()}
