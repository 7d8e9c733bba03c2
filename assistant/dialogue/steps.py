"""One function a kind of step: each passes its place with an outcome, or opens a question there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any

from assistant.dialogue.asking import LEAVE, ask
from assistant.dialogue.guard import (
    acknowledge,
    caution,
    corrected_from_afar,
    guarded,
    to_put_back,
    within,
)
from assistant.dialogue.job import Calculation, WaysDifferError, row_type
from assistant.dialogue.log import REVIEW, CardOffer
from assistant.dialogue.messages import Fetch, Finish, ReadBack, Say, Work
from assistant.dialogue.situation import Known, Open, Situation, Value
from assistant.dialogue.standing import known_fact
from assistant.dialogue.walk import CARD, DONE, Walk
from assistant.dialogue.wording import say
from assistant.flow.graph import KNOWN, MISSING, NEXT, NONE, TAKEN, Node


def walk_on(walk: Walk) -> None:
    """Walk until an answer is needed or the job has ended."""
    walk.at.open = None
    while True:
        outcome = STEPS[walk.node.step.kind](walk)
        if outcome is None:
            return
        walk.at.trail.append((walk.at.place, outcome))
        walk.at.move(walk.node.next[outcome])


def work_out(walk: Walk) -> str:
    """Run a calculation on what is known; its outcome is the way on."""
    node, at = walk.node, walk.at
    reads, given, outcome, results = ran(walk)
    forget_outputs(walk, walk.job.calculations[node.step.what[0]].outcomes)
    guess = any(at.known[real].guess for real in reads.values() if real in at.known)
    inputs = tuple(reads.values())
    for real, value in results.items():
        at.known[real] = Known(value, inputs=inputs, guess=guess or guessed_in_a_row(walk, value))
    if node.step.records:
        at.forget_after(node.real(node.step.records))
        at.known[node.real(node.step.records)] = Known(outcome, outcome, inputs=inputs, guess=guess)
    if node.step.say:
        numbers = {n: v for n, v in given.items() if isinstance(v, float)}
        text = walk.text(node.step.say)
        brief = walk.text(node.step.brief)
        walk.said.append(Work(node.step.what[0], outcome, text, numbers, brief))
    return outcome if outcome in node.next else NEXT


def ran(walk: Walk) -> tuple[dict[str, str], dict[str, Any], str, dict[str, Any]]:
    """The calculation of this step on what is known: what it reads, with what, how it came out."""
    from assistant.calc.calculation import outcome_name

    node = walk.node
    calculation = walk.job.calculations[node.step.what[0]]
    reads = {name: node.real(node.step.reads.get(name, name)) for name in calculation.parameters}
    given = {name: argument(walk, calculation, name, real) for name, real in reads.items()}
    result = calculation.run(given)
    if facts := calculation.differing(given, result):
        raise WaysDifferError(node.step.what[0], facts)
    results = {node.result(each.name): getattr(result, each.name) for each in fields(result)}
    return reads, given, outcome_name(type(result)), results


def guessed_in_a_row(walk: Walk, value: Value) -> bool:
    """Whether a choice that a result took over from the rows was a guess there."""
    rows = (row for rows in walk.at.rows.values() for row in rows)
    found = (known for row in rows for known in row.values())
    return isinstance(value, str) and any(k.guess and k.value == value for k in found)


def argument(walk: Walk, calculation: Calculation, name: str, real: str) -> Any:
    """The plain value of a parameter: an SI float, a choice's name, or the rows of a series."""
    if real in walk.job.graph.series:
        row = row_type(calculation, name)
        return tuple(
            row(**{m.name: row_value(walk, lap, m.name) for m in fields(row)})
            for lap in walk.at.rows.get(real, ())
        )
    known = known_fact(walk.job, walk.at, real)
    if known is None or known.value is None:
        raise KeyError(real)  # the checker proves that no flow that ships comes here
    return known.value


def row_value(walk: Walk, row: Any, member: str) -> Any:
    """The plain value of a member in a row, None where it does not count."""
    known = row.get(walk.node.real(member))
    return known.value if known else None


def forget_outputs(walk: Walk, outcomes: Any) -> None:
    """Results of an earlier run are stale, whichever set them; what a person told is no result."""
    node = walk.node
    for each in {f for outcome in outcomes.values() for f in outcome}:
        real = node.result(each)
        before = walk.at.known.get(real)
        if before and before.settled and not before.inputs:
            continue
        walk.at.forget_after(real)
        walk.at.known.pop(real, None)


def tell(walk: Walk) -> str | None:
    """Say a text; a waiting one goes on at "done"."""
    step = walk.node.step
    if not step.wait:
        walk.said.append(Say(walk.text(step.say), walk.text(step.brief)))
        return NEXT
    acknowledge(walk)
    left, entry = walk.entry(LEAVE), walk.entry(DONE)
    if left:
        walk.use(left)
        return f"leave:{left.settled}"
    if step.put_back and any(within(walk.node.part, p) for p in to_put_back(walk.job, walk.log)):
        entry = None  # not done yet, or the drill was raised again since
    if entry:
        walk.use(entry)
    if entry or (step.put_back and corrected_from_afar(walk)):
        return NEXT
    if guarded(walk):
        walk.open("wait")
    return None


def split(walk: Walk) -> str:
    """Go by a choice made earlier."""
    return walk.at.choice(walk.node.facts[0])


def use(walk: Walk) -> str:
    """Enter a part when something that it gives is missing."""
    node, at = walk.node, walk.at
    if node.gives and all(name in at.known for name in node.gives):
        return KNOWN
    if node.series:
        at.empty(node.series, walk.job.graph.series[node.series].members)
    for name, source in node.step.carry.items():
        if source in at.known and at.known[source].value is not None:
            at.learn(node.real(name), at.known[source])
    return MISSING


def finish(walk: Walk) -> str | None:
    """Leave a part, or end the job after its review."""
    node = walk.node
    if node.next:
        return NEXT
    if undone(walk):
        return None
    if node.step.card:
        entry = walk.entry(REVIEW)
        if not entry:
            walk.open("review")
            return None
        walk.use(entry)
    walk.open("ended")
    walk.said.append(Finish(node.step.what[0], node.step.card, walk.text(node.step.say)))
    return None


def undone(walk: Walk) -> bool:
    """Ask for a put-back list that is still due: a change can lead to an end around it."""
    listed = next(iter(to_put_back(walk.job, walk.log).values()), None)
    if listed is None or corrected_from_afar(walk):
        return False
    walk.at.open = Open("wait", listed.place, walk.at.visits.get(listed.place, 0) + 1)
    return True


def recall(walk: Walk) -> str | None:
    """Ask the shell for cards, offer them, and put what is taken into the pool."""
    at, node = walk.at, walk.node
    offer, match = walk.log.offered(at.place, at.visit), matched(walk)
    if offer is None or offer.match not in {(), tuple(match.values())}:
        walk.said.append(fetch(node, at.visit, match))
        walk.open("fetch")
        return None
    if not offer.cards:
        return went(node, NONE)
    if node.step.quiet:
        lend(at, offer.cards[0])
        return went(node, TAKEN)
    entry = walk.entry(CARD)
    if entry is None:
        walk.open("offer")
        return None
    walk.use(entry)
    taken = next((card for card in offer.cards if card.id == entry.settled), None)
    if taken is None:
        return went(node, NONE)
    name = "recall.taken_waiting" if node.step.waiting else "recall.taken"
    walk.said.append(ReadBack(say(walk.job, name, line=taken.line)))
    lend(at, taken)
    return went(node, TAKEN)


def fetch(node: Node, visit: int, match: Mapping[str, str]) -> Fetch:
    """What a step that recalls asks of the shell."""
    wanted = {name: node.step.reads.get(name, name) for name in node.step.what}
    return Fetch(node.place, visit, wanted, match, node.step.waiting)


def matched(walk: Walk) -> dict[str, str]:
    """What the cards that a step recalls have to match."""
    node, known = walk.node, walk.at.known
    return {node.real(name): known[node.real(name)].settled for name in node.step.match}


def went(node: Node, outcome: str) -> str:
    """The outcome where the step tells outcomes apart."""
    return outcome if outcome in node.next else NEXT


def lend(at: Situation, card: CardOffer) -> None:
    """What a card lends waits in the pool; what the person told comes first."""
    at.pool |= {t.fact: t for t in card.facts if t.fact not in at.known and t.fact not in at.pool}


STEPS: dict[str, Callable[[Walk], str | None]] = {
    "ask": ask,
    "work_out": work_out,
    "say": tell,
    "caution": caution,
    "recall": recall,
    "use": use,
    "split": split,
    "finish": finish,
}
