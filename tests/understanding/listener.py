"""What the program makes of a line at a question: understood, asked about, refused, or misfiled."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from assistant.answers.expect import Refusal, Settled
from assistant.answers.read import read
from assistant.answers.slips import judge
from assistant.dialogue.advance import advance
from assistant.dialogue.events import Typed
from assistant.dialogue.expecting import expect
from assistant.dialogue.foretelling import PREVIEW
from assistant.dialogue.in_passing import FITS
from assistant.dialogue.job import State
from assistant.dialogue.log import UNKNOWN, Changed
from assistant.dialogue.messages import Trouble
from assistant.dialogue.review import targets
from tests.stories.play import calibrate, played
from tests.stories.story import stories

FOLDER = Path(__file__).parent
NEAR = 0.005
METRIC = {"g", "kg", "cm", "m", "mm", "kg/ha"}
UNDERSTOOD, ASKED, REFUSED, ASIDE, MISFILED = "understood", "asked", "refused", "aside", "misfiled"
ASKED_AS = {"catch_weight": "catch", "row_weights": "catch"}


@dataclass(frozen=True)
class Line:
    """One line of the corpus: where it is typed, and what a good listener makes of it."""

    at: tuple[str, ...]
    typed: str
    wanted: str
    means: Mapping[str, Any]
    asked_in: str | None
    group: str
    contested: str


def corpus(name: str = "lines.toml") -> list[Line]:
    """Every line of a file."""
    table = tomllib.loads((FOLDER / name).read_text(encoding="utf-8"))["line"]
    return [line_of(each) for each in table]


def line_of(each: Mapping[str, Any]) -> Line:
    """One line from its table."""
    wanted = next(
        name
        for key, name in (
            ("means", UNDERSTOOD),
            ("ask", ASKED),
            ("refuse", REFUSED),
            ("aside", ASIDE),
        )
        if key in each
    )
    return Line(
        tuple(each["at"].split(", ")),
        each["typed"],
        wanted,
        each.get("means", {}),
        each.get("asked_in"),
        each["group"],
        each.get("contested", ""),
    )


@cache
def states() -> tuple[State, ...]:
    """Every state of every story of the main job in which something is asked."""
    found = []
    for story in stories():
        if story.job == "calibrate":
            for state in played(story).states:
                open_ = state.situation.open
                if open_ and open_.kind == "ask" and not state.moment:
                    found.append(state)
    return tuple(found)


def state_for(line: Line) -> State | None:
    """The state at which a line is typed: one that asks for just its facts, in its unit.

    Where the line means more, one that asks more of it at once is better; so is one in which what
    is meant can be, such as a lever that has the mark. None if no question asks for such facts.
    """
    wanted = {ASKED_AS.get(name, name) for name in line.at}
    meant_too = {ASKED_AS.get(name, name) for name in line.means}
    first = {ASKED_AS.get(line.at[0], line.at[0])}
    asking = [state for state in states() if wanted <= facts_of(state)]
    asking = asking or [state for state in states() if first <= facts_of(state)]
    if not asking:
        return None
    best = first_of_best(
        asking,
        lambda state: (
            not in_unit(state, line.asked_in),
            sum(not can_be(state, name, value) for name, value in line.means.items()),
            len(meant_too - facts_of(state)),
            len(facts_of(state) - wanted - meant_too),
        ),
    )
    return alone(best, wanted | meant_too)


def first_of_best(asking: Iterable[State], misses: Callable[[State], tuple[int, ...]]) -> State:
    """The first state that misses least; none is looked at after one that misses nothing."""
    ranked = []
    for state in asking:
        ranked.append((misses(state), state))
        if not any(ranked[-1][0]):
            break
    return min(ranked, key=lambda each: each[0])[1]


def facts_of(state: State) -> set[str]:
    """The facts that a state asks for."""
    return set(state.situation.open.facts if state.situation.open else ())


def in_unit(state: State, unit: str | None) -> bool:
    """Whether a state asks in a unit: weights in that of the scale, all else by its system."""
    if not unit:
        return True
    scale = state.situation.known.get("scale_step")
    if scale and unit in {"lb", "oz", "g", "kg"}:
        return scale.settled.endswith(f" {unit}")
    return (state.log.system == "metric") == (unit in METRIC)


def can_be(state: State, name: str, value: Any) -> bool:
    """Whether a meant value is one that its question there would take."""
    if name not in calibrate().graph.facts:
        return True
    wanted = expect(calibrate(), state.log, state.situation, name)
    reading = read(wanted, spelled(str(value)))
    return isinstance(reading, Settled) and judge(wanted, reading) is None


@cache
def just_after(facts: tuple[str, ...]) -> State | None:
    """A state whose last answer was one of these facts."""
    names = {ASKED_AS.get(name, name) for name in facts}
    for state in states():
        told = targets(calibrate(), state.situation)
        last = [each for each in told if each.entry.place == told[-1].entry.place]
        if {e.fact for each in last for e in (each.entry, *each.entries)} & names:
            return state
    return None


def alone(state: State, wanted: set[str]) -> State:
    """The state once what stands beside the wanted facts is answered, where that can be."""
    others = sorted(facts_of(state) - wanted, key=list(calibrate().graph.facts).index)
    said = " ".join(calibrate().fact(name).example for name in others)
    after, _ = advance(calibrate(), state, Typed(said)) if said else (state, None)
    return after if facts_of(after) and facts_of(after) <= wanted else state


@dataclass(frozen=True)
class Heard:
    """What came of a line: the kind of outcome, and what was taken down."""

    outcome: str
    told: Mapping[str, Any]
    said: str


def listen(line: Line) -> Heard | None:
    """What the program makes of a line; None where no question of this job asks for that."""
    state = just_after(tuple(line.means)) if line.group == "fix" else state_for(line)
    if state is None:
        return None
    if not in_unit(state, line.asked_in):
        state = replace(state, log=replace(state.log, system="metric"))
    after, reply = advance(calibrate(), state, Typed(line.typed))
    said = " | ".join(str(getattr(each, "text", each)) for each in reply.messages)[:300]
    told = dict(taken_down(state, after))
    trouble = any(isinstance(each, Trouble) and each.code != "unused" for each in reply.messages)
    if not told and already_so(line, state, said):
        return Heard(UNDERSTOOD, told, said)
    return Heard(outcome_of(line, state, after, told, trouble=trouble), told, said)


@cache
def all_heard(name: str = "lines.toml") -> tuple[tuple[Line, Heard], ...]:
    """The lines of a file that some question of the job asks for, with what came of each."""
    heard = ((line, listen(line)) for line in corpus(name))
    return tuple((line, each) for line, each in heard if each is not None)


def outcome_of(
    line: Line, state: State, after: State, told: dict[str, Any], *, trouble: bool
) -> str:
    """The kind of outcome; misfiled is what was taken down and not meant."""
    wrong = {name for name, value in told.items() if not meant(line, name, value)}
    if wrong:
        return MISFILED
    if line.means and (all(name in told for name in names_of(line)) or foretold(line, after)):
        return UNDERSTOOD
    if after.moment is not None:
        return ASKED
    if trouble:
        return REFUSED
    if after.log.entries == state.log.entries and after.log.told == state.log.told:
        return ASIDE
    return UNDERSTOOD if told and line.means else ASIDE


def already_so(line: Line, state: State, said: str) -> bool:
    """Whether it was said that what the line means stands so already."""
    stands = {entry.fact: entry.settled for entry in state.log.entries}
    return bool(line.means) and all(
        f"{calibrate().fact(name).label} is " in said
        and " already." in said
        and equal(name, stands.get(name, ""), str(value))
        for name, value in line.means.items()
    )


def foretold(line: Line, after: State) -> bool:
    """Whether what is half-asked is what was meant: a change, or a value for another question."""
    moment = after.moment
    if moment is None or moment.kind not in {PREVIEW, FITS}:
        return False
    if moment.kind == FITS:
        ((_, reading),) = moment.options
        return meant(line, reading.fact, (reading.settled, line.typed))
    record = moment.options[0]
    if not isinstance(record, Changed):
        return False
    entry = record.entry
    return meant(line, entry.variant or entry.fact, (entry.settled, line.typed))


def taken_down(state: State, after: State) -> Iterator[tuple[str, Any]]:
    """The facts that the log gained, by name, with their values."""
    before = {(e.place, e.visit, e.fact): e.settled for e in state.log.entries}
    for entry in after.log.entries:
        key = (entry.place, entry.visit, entry.fact)
        if before.get(key) != entry.settled and entry.settled != UNKNOWN:
            yield entry.variant or entry.fact, (entry.settled, entry.typed)
    old = {t.fact: t.settled for t in state.log.told}
    for told in after.log.told:
        if old.get(told.fact) != told.settled:
            yield told.variant or told.fact, (told.settled, told.typed)


def names_of(line: Line) -> list[str]:
    """The facts that a line means, under the names that entries have."""
    return [name for name in line.means if name != "gross"]


def meant(line: Line, name: str, taken: tuple[str, str]) -> bool:
    """Whether a value that was taken down is one that the line means."""
    settled, typed = taken
    if not typed:  # a proposal that Enter would take, beside the answer
        return True
    if line.wanted in {ASKED, REFUSED, ASIDE}:
        return False
    wanted = {fact: value for fact, value in line.means.items() if same_fact(fact, name)}
    return any(equal(name, settled, str(value)) for value in wanted.values())


def same_fact(wanted: str, name: str) -> bool:
    """Whether a fact of the corpus and one of the log are the same; a target has many variants."""
    if wanted == "target":
        return name.startswith("target")
    if wanted == "catch_weight":
        return name in {"catch_weight", "gross_weight"}
    return wanted == name


def equal(name: str, settled: str, wanted: str) -> bool:
    """Whether two spellings of a fact are one value."""
    job, state = calibrate(), states()[0]
    ours = read(expect(job, state.log, state.situation, name), spelled(settled))
    theirs = read(expect(job, state.log, state.situation, name), spelled(wanted))
    if isinstance(ours, Refusal) or isinstance(theirs, Refusal):
        return settled == wanted
    if not (isinstance(ours, Settled) and isinstance(theirs, Settled)):
        return str(ours) == str(theirs)
    one, other = ours.value, theirs.value
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= NEAR * max(abs(one), abs(other))
    return str(one).casefold() == str(other).casefold()


def spelled(text: str) -> str:
    """A spelling of the corpus as the program has it."""
    text = re.sub(r"\b(plant|seed)s?/ft2\b", r"\1s per sq ft", text)
    text = re.sub(r"\b(plant|seed)s?/m2\b", r"\1s per m2", text)
    return text.replace("g/1000 seeds", "g")
