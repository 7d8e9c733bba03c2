"""A conversation about a practice drill: the same job, beside it what the drill would show.

The job knows nothing of it. A line that is an act in the yard goes to the drill, all else to the
job; where the job asks for what can be seen, that is told first.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

from assistant.answers.expect import Settled
from assistant.answers.read import read
from assistant.book.book import Book
from assistant.book.ids import new_id
from assistant.dialogue.advance import begin
from assistant.dialogue.events import Event, Typed
from assistant.dialogue.expecting import expect
from assistant.dialogue.job import Job
from assistant.dialogue.messages import Ask, Message, Say
from assistant.dialogue.questions import caution_word, proposals
from assistant.dialogue.wording import say
from assistant.practice.drill import TOOLS, Yard, caught_rows, drawn, other_rows
from assistant.practice.population import LEVELS
from assistant.practice.sights import opening, sights, weighed
from assistant.sitting.sitting import Sitting
from assistant.sitting.world import World

JOB, CATCH, OTHER, OPENING = "calibrate", "catch", "other_weight", "opening"
PRIME, SHUT, LOOK, TURN = "prime", "shut", "look", "turn"
MEND, MENDED = "rows_mended", "mended"
PASSED = "done"
MOST_LINES = 60


@dataclass(slots=True)
class Practice(Sitting):
    """A sitting beside a practice drill."""

    yard: Yard = field(kw_only=True)

    def hear(self, event: Event) -> tuple[Message, ...]:
        """Do what is an act in the yard; else let the job hear it, and tell what can be seen."""
        if not isinstance(event, Typed):
            return Sitting.hear(self, event)
        act, _, rest = event.text.strip().lower().partition(" ")
        if self.at_catch and self.state.moment is None and act in self.acts:
            return (Say(self.act(act, rest)),)
        looked = self.asked(MEND)
        said = Sitting.hear(self, event)
        known = self.state.situation.known.get(MEND)
        if looked and known and known.value == MENDED:
            self.yard.mend(self.rows)
        return self.shown(said)

    @property
    def at_catch(self) -> bool:
        """Whether a catch is asked for."""
        return self.asked(CATCH) or self.asked(OTHER)

    @property
    def acts(self) -> set[str]:
        """What can be done in the yard now: other rows are caught with the lever as it is."""
        return {PRIME, LOOK, TURN} | ({SHUT} if self.asked(CATCH) else set())

    def asked(self, fact: str) -> bool:
        """Whether a fact is asked for."""
        open_ = self.state.situation.open
        return open_ is not None and open_.kind == "ask" and fact in open_.facts

    def shown(self, said: tuple[Message, ...]) -> tuple[Message, ...]:
        """What is said, with what can be seen before the question."""
        if not said or not isinstance(said[-1], Ask):
            return said
        return (*said[:-1], *map(Say, self.seen(said[-1])), said[-1])

    def seen(self, asked: Ask) -> list[str]:
        """What can be seen of the facts that are asked for."""
        if self.at_catch:
            first = "practice.turn_first" if not self.yard.catches else "practice.turn_now"
            return [say(self.job, "practice.turn_other" if self.asked(OTHER) else first)]
        told = self.sights()
        words = [f"practice.sights.{name}" for name in asked.facts]
        words += [f"{name}.{told.get(fact)}" for name, fact in zip(words, asked.facts, strict=True)]
        seen = [say(self.job, each, **told) for each in words if each in self.job.library.words]
        return [say(self.job, "practice.sees", sight=each) for each in seen]

    def sights(self) -> dict[str, str]:
        """Each fact as it would be typed by who tells what can be seen."""
        return sights(self.yard, self.state.log.system, self.rows)

    def act(self, act: str, rest: str) -> str:
        """What an act in the yard brings."""
        if act == PRIME:
            self.yard.prime()
            return say(self.job, "practice.primed")
        if act == SHUT:
            self.yard.shut()
            return say(self.job, "practice.shut")
        if act == LOOK:
            return self.look()
        other = self.asked(OTHER)
        setting = self.yard.set_at if other else self.setting(rest)
        if setting is None:
            return say(self.job, "practice.no_opening", heard=rest)
        turns = self.number("turns")
        if (judged := self.state.situation.known.get("judgement")) and judged.value == "same_mark":
            self.yard.shut()  # as it was asked for
        rows = other_rows(self.rows) if other else caught_rows(self.rows)
        seed = self.yard.turn(setting, turns, rows)
        return say(
            self.job,
            "practice.turned",
            opening=opening(setting),
            turns=f"{turns:g}",
            weight=weighed(self.yard, seed, 0.0 if other else self.number("tare")),
        )

    def look(self) -> str:
        """Each tub by itself."""
        if not self.yard.catches:
            return say(self.job, "practice.not_yet")
        self.yard.looked = True
        each = [weighed(self.yard, row, 0.0) for row in self.yard.catches[-1][1]]
        return say(self.job, "practice.looked", weights=", ".join(each))

    def setting(self, heard: str) -> float | None:
        """The opening (m) that was named, else the one that is proposed; nothing unreadable."""
        taken = proposals(self.job, self.state).get(OPENING)
        text = heard or (taken[0] if taken else "")
        found = read(expect(self.job, self.state.log, self.state.situation, OPENING), text)
        return float(found.value) if isinstance(found, Settled) else None  # type: ignore[arg-type]  # an opening is a number

    @property
    def rows(self) -> int:
        """How many rows are caught, 0 where the job does not know yet."""
        return int(self.number("rows_caught"))

    def number(self, fact: str) -> float:
        """A number that the job knows, 0 where it does not."""
        known = self.state.situation.known.get(fact)
        return float(known.value) if known and isinstance(known.value, float) else 0.0


def begun(  # noqa: PLR0913  a job, where it is kept, and which drill
    job: Job, book: Book, world: World, *, system: str, level: int, seed: str
) -> tuple[Practice, tuple[Message, ...]]:
    """Begin a job beside a drill drawn by a seed. Raises KeyError for a level that is not there."""
    random = Random(f"{level} {seed}")
    state, reply = begin(job, system)
    number = new_id(world.clock(), world.chance(10))
    sitting = Practice(
        job,
        book,
        world,
        number,
        state,
        lends_book=False,
        started=world.now(),
        yard=Yard(drawn(random, LEVELS[level]), TOOLS[system], random),
    )
    return sitting, (Say(say(job, "practice.hello")), *sitting.shown(sitting.told(reply)))


def at_the_catch(sitting: Practice) -> tuple[Message, ...]:
    """Go through all that comes before the first catch as the drill shows it: trials only."""
    said: tuple[Message, ...] = ()
    for _ in range(MOST_LINES):
        open_ = sitting.state.situation.open
        if sitting.at_catch or open_ is None or open_.kind == "ended":
            break
        said = sitting.hear(Typed(as_seen(sitting)))
    return said


def as_seen(sitting: Practice) -> str:
    """What somebody types who does as is asked and tells what can be seen; else just Enter."""
    open_ = sitting.state.situation.open
    if open_ is None:
        return ""
    if open_.hazard:
        return caution_word(sitting.job, sitting.state, open_)
    if open_.kind == "wait":
        return PASSED
    told = sitting.sights()
    return ", ".join(told[name] for name in open_.facts if name in told)
