"""How far a result may be off by what its readings can miss, and which reading matters most.

Each reading is moved both ways by what its tool can miss and by how such readings scatter, and all
is worked out again, unrounded; what each moves is added as squares. Source: JCGM 100 (GUM), 5.1.2
and 5.1.3, note 2.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from math import hypot, isclose

from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Say
from assistant.dialogue.review import label_of
from assistant.dialogue.situation import Known, Situation
from assistant.dialogue.standing import number
from assistant.dialogue.steps import ran
from assistant.dialogue.walk import Walk
from assistant.dialogue.wording import say, shown
from assistant.quantities.settled import si_value

TOLD = 3
"""So many results are told, the last ones: what a screen holds."""
COVERS = 1.96
"""So many standard deviations hold 95 in 100: the standard normal distribution."""
BETTER = 2
"""What matters most might be known so many times as well."""
NOTHING_LEFT = (ArithmeticError, LookupError, ValueError)
"""What a formula raises where a moved reading leaves it nothing, such as a catch below zero."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A value that was read, and what that can miss, in SI; of a series, its row."""

    fact: str
    misses: float
    series: str = ""
    row: int = 0


@dataclass(frozen=True, slots=True)
class Doubt:
    """What each reading alone may move a result by, in SI."""

    parts: tuple[tuple[Reading, float], ...]

    @property
    def half(self) -> float:
        """Half the width that should hold the truth 95 times in 100."""
        return hypot(*(moves for _, moves in self.parts))

    @property
    def is_reading(self) -> bool:
        """Whether it is one reading and no more: that alone moves it, by all that it can miss."""
        return len(self.parts) == 1 and isclose(self.half, self.parts[0][0].misses)

    def by_fact(self) -> dict[str, float]:
        """The same by what was read, all rows of a series together, the most first."""
        facts = dict.fromkeys(reading.fact for reading, _ in self.parts)
        each = {f: hypot(*(moves for r, moves in self.parts if r.fact == f)) for f in facts}
        return dict(sorted(each.items(), key=lambda one: -one[1]))

    def with_better(self, times: float) -> float:
        """The half width, were what matters most known so many times as well."""
        most, *rest = self.by_fact().values()
        return hypot(most / times, *rest)


def doubts(job: Job, state: State) -> dict[str, Doubt]:
    """The doubt of every number that was worked out and that some reading moves."""
    moved: dict[str, list[tuple[Reading, float]]] = {}
    for reading in readings(job, state.situation):
        up, down = (worked_again(job, state, {reading: way * reading.misses}) for way in (1, -1))
        for name in up:
            if up[name] != down[name] and not job.fact(name).of_doubt:
                moved.setdefault(name, []).append((reading, abs(up[name] - down[name]) / 2))
    return {name: Doubt(tuple(moved[name])) for name in state.situation.known if name in moved}


def readings(job: Job, at: Situation) -> Iterator[Reading]:
    """Every value that was read with a tool: those that are known, then those of each row."""
    for name, known in at.known.items():
        if job.graph.home(name) is None and (misses := missed(job, at, name, known)):
            yield Reading(name, misses)
    for series, rows in at.rows.items():
        for row, members in enumerate(rows):
            for name, known in members.items():
                if misses := missed(job, at, name, known):
                    yield Reading(name, misses, series, row)


def missed(job: Job, at: Situation, name: str, known: Known) -> float:
    """What a value can miss, in SI: by its tool, and by how such values scatter. 95 in 100."""
    fact = job.graph.facts.get(name)
    if fact is None or known.inputs or not known.value:
        return 0  # a scale that was set to zero shows zero
    tool = number(job, at, fact.misses_by)
    if fact.misses_by and fact.misses_by not in job.graph.facts:
        tool = float(si_value(fact.kind, fact.misses_by))  # type: ignore[arg-type]  # the checker reads it as a number
    scatter = number(job, at, fact.scatters_by) * number(job, at, fact.scatters_about)
    return hypot(tool, COVERS * scatter)


def worked_again(job: Job, state: State, moves: Mapping[Reading, float]) -> dict[str, float]:
    """Every number worked out, once each of some readings is more by so much, in SI.

    What a step does not find, as it comes out another way or not at all, stays as it was.
    """
    at = state.situation.copy()
    for reading, by in moves.items():
        move(at, reading, by)
    walk = Walk(job, state.log, at)
    for place in last_worked(job, at.trail):
        at.place = place
        with suppress(*NOTHING_LEFT):
            results = ran(walk)[-1]
            for name in results.keys() & at.known.keys():
                at.known[name] = replace(at.known[name], value=results[name])
    return {
        name: known.value
        for name, known in at.known.items()
        if known.inputs and isinstance(known.value, float)
    }


def move(at: Situation, reading: Reading, by: float) -> None:
    """Let one reading be more by so much."""
    if reading.series:
        rows = [dict(row) for row in at.rows[reading.series]]
        rows[reading.row][reading.fact] = more(rows[reading.row][reading.fact], by)
        at.rows[reading.series] = tuple(rows)
    else:
        at.known[reading.fact] = more(at.known[reading.fact], by)


def more(known: Known, by: float) -> Known:
    """A known number that is more by so much; of several, each."""
    if isinstance(known.value, tuple):
        return replace(known, value=tuple(each + by for each in known.value))
    return replace(known, value=known.value + by)  # type: ignore[operator]  # what a tool reads is a number


def last_worked(job: Job, trail: Iterable[tuple[str, str]]) -> list[str]:
    """The steps that worked something out, in the order in which each did so last."""
    places = [place for place, _ in trail if job.graph[place].step.kind == "work_out"]
    return list(dict.fromkeys(reversed(places)))[::-1]


def how_sure(job: Job, state: State) -> Say:
    """The last main results with their doubt in words, and the reading that matters most."""
    found, known = doubts(job, state), state.situation.known
    told = [n for n, each in found.items() if job.fact(n).main and not each.is_reading][-TOLD:]
    if not told:
        return Say(say(job, "sure.nothing"))
    last = next((n for n in reversed(told) if not job.fact(n).signed), told[-1])
    most = next(iter(found[last].by_fact()))
    lines = [between(job, state, name, found[name].half) for name in told]
    lines.append(say(job, "sure.most", name=label_of(job, most)))
    lines.append(between(job, state, last, found[last].with_better(BETTER), "sure.better"))
    guessed = {label_of(job, guess): None for name in told for guess in guesses_under(known, name)}
    if guessed:
        lines.append(say(job, "sure.guess", names=", ".join(guessed)))
    return Say("\n".join(lines))


def guesses_under(known: Mapping[str, Known], name: str) -> Iterator[str]:
    """The guesses of people that a value rests on, or is."""
    if name not in known:
        return
    if known[name].guess and not known[name].inputs:
        yield name
    for read in known[name].inputs:
        yield from guesses_under(known, read)


def between(job: Job, state: State, name: str, half: float, form: str = "sure.about") -> str:
    """A result in words, from the least to the most that it may be."""
    at, fact = state.situation, job.fact(name)
    value: float = at.known[name].value  # type: ignore[assignment]  # what a reading moves is a number
    least, most = (
        shown(job, state.log, at, fact, Known(end)) for end in (value - half, value + half)
    )
    return say(job, form, name=label_of(job, name), least=least, most=most)
