"""One function a kind of step: each passes its place with an outcome, or opens a question there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, fields
from typing import Any

from assistant.dialogue.expecting import known_fact
from assistant.dialogue.job import Calculation, Job, row_type
from assistant.dialogue.log import REVIEW, UNKNOWN, Entry, Log, key
from assistant.dialogue.messages import Fetch, Finish, Message, ReadBack, Say, Work
from assistant.dialogue.situation import Known, Open, Situation, counts, holds
from assistant.dialogue.wording import filled, say, shown_fact
from assistant.flow.graph import KNOWN, MISSING, NEXT, Node

CARD, DONE = "card", "done"
GUESS, LATER, LAST_TIME = "guess", "later", "last_time"
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


def walk_on(walk: Walk) -> None:
    """Walk until an answer is needed or the job has ended."""
    walk.at.open = None
    while True:
        outcome = STEPS[walk.node.step.kind](walk)
        if outcome is None:
            return
        walk.at.trail.append((walk.at.place, outcome))
        walk.at.move(walk.node.next[outcome])


# -- asking -----------------------------------------------------------------------------------


def ask(walk: Walk) -> str | None:
    """Settle what the log or the pool answers; open the rest."""
    for fact in due(walk):
        entry = walk.entry(fact)
        if entry:
            walk.use(entry)
            settle(walk, entry)
        elif fact in walk.at.pool and fits_here(walk, fact):
            take_from_pool(walk, fact)
    if walk.node.step.quiet:
        for fact in due(walk):
            walk.at.learn(fact, Known(None, UNKNOWN))
            walk.at.here.add(fact)
    still = due(walk)
    left = walk.entry(LEAVE)
    if left and still:
        walk.use(left)
        return f"leave:{left.settled}"
    if still:
        if guarded(walk):
            if walk.node.step.say and not walk.at.here:
                walk.said.append(Say(walk.text(walk.node.step.say)))
            walk.open("ask", still)
        return None
    return outcome_of_ask(walk)


LEAVE = "!leave"


def due(walk: Walk) -> tuple[str, ...]:
    """The facts that this step still has to ask in this visit."""
    return tuple(fact for fact in walk.node.facts if is_due(walk, fact))


def is_due(walk: Walk, fact: str) -> bool:
    """A member in every lap where it counts, else what is lacking or asked again."""
    if fact in walk.at.here:
        return False
    home = walk.job.graph.home(fact)
    if home:
        return counts(home.only, fact, walk.at)
    return walk.node.step.again or lacking(walk, fact)


def lacking(walk: Walk, fact: str) -> bool:
    """Not known, or not known with a way to find out that has not given it yet."""
    known = walk.at.known.get(fact)
    if known is None:
        return True
    detour = f"unknown:{fact}" in walk.node.next and not walk.node.step.quiet
    return known.value is None and detour


def fits_here(walk: Walk, fact: str) -> bool:
    """A step that says where its answer comes from takes from a card only what the card told."""
    said = walk.node.step.told.get(walk.job.graph.declared.get(fact, fact), "")
    return walk.at.pool[fact].origin != LAST_TIME or said in {"", LAST_TIME}


def take_from_pool(walk: Walk, fact: str) -> None:
    """Settle what was told early, and read it back."""
    told = walk.at.pool.pop(fact)
    at = walk.at
    entry = Entry(
        at.place,
        at.visit,
        fact,
        told.settled,
        told.variant,
        told.typed,
        told.origin or walk.job.fact(fact).told,
        told.sure,
        walk.log.sitting,
    )
    at.used.append(entry)
    settle(walk, entry)
    if told.origin != LAST_TIME:
        name, value = walk.job.fact(fact).label, shown_fact(walk.job, walk.log, at, fact)
        walk.said.append(ReadBack(say(walk.job, "told_early", name=name, value=value)))


def settle(walk: Walk, entry: Entry) -> None:
    """Make what an entry settled known; a member goes to its row."""
    at, graph = walk.at, walk.job.graph
    at.here.add(entry.fact)
    known = known_of(walk.job, entry)
    home = graph.home(entry.fact)
    for name, each in named(walk.job, entry, known):
        at.learn(name, each)
        if home:
            at.partial.setdefault(home.name, {})[name] = each
    if home and entry.fact in home.last:
        at.add_row(home.name)


def named(job: Job, entry: Entry, known: Known) -> Iterator[tuple[str, Known]]:
    """The facts that one entry makes known: a one-of fact also names its variant and its kind."""
    yield entry.fact, known
    if entry.variant:
        yield entry.variant, known
        kinds = job.fact(entry.fact).variants
        kind = next(kind for kind, name in kinds.items() if name == entry.variant)
        yield f"{entry.fact}_kind", Known(kind, kind, entry.origin)


def known_of(job: Job, entry: Entry) -> Known:
    """The value of an entry: replay reads `settled` only."""
    if entry.settled == UNKNOWN:
        return Known(None, UNKNOWN, entry.origin)
    from assistant.quantities.settled import si_value

    kind = job.fact(entry.variant or entry.fact).kind
    value = si_value(kind, entry.settled)
    return Known(value, entry.settled, entry.origin, entry.origin in {GUESS, LATER}, entry.sure)


def outcome_of_ask(walk: Walk) -> str:
    """A way to find out, the branch that an answer names, or on."""
    node = walk.node
    for fact in node.facts:
        known = walk.at.known.get(fact)
        detour = f"unknown:{fact}"
        if known and known.value is None and detour in node.next and not node.step.quiet:
            return detour
        branch = branch_of(walk, fact)
        if branch in node.next:
            return branch
    return NEXT


def branch_of(walk: Walk, fact: str) -> str:
    """The name that a table `next` may branch on: a choice, a variant's kind, or known or not."""
    known = walk.at.known.get(fact)
    if known is None or known.value is None:
        return "not_known"
    spec = walk.job.fact(fact)
    if spec.variants:
        return walk.at.choice(f"{fact}_kind")
    return str(known.value) if spec.kind == "choice" else KNOWN


# -- working out, saying, using ---------------------------------------------------------------


def work_out(walk: Walk) -> str:
    """Run a calculation on what is known; its outcome is the way on."""
    node, at = walk.node, walk.at
    calculation = walk.job.calculations[node.step.what[0]]
    reads = {name: node.real(node.step.reads.get(name, name)) for name in calculation.parameters}
    given = {name: argument(walk, calculation, name, real) for name, real in reads.items()}
    result = calculation.function(**given)
    outcome = snake(type(result).__name__)
    forget_outputs(walk, calculation.outcomes)
    guess = any(at.known[real].guess for real in reads.values() if real in at.known)
    inputs = tuple(reads.values())
    for each in fields(result):
        real = node.real(node.step.sets.get(each.name, each.name))
        at.known[real] = Known(getattr(result, each.name), inputs=inputs, guess=guess)
    if node.step.records:
        at.known[node.real(node.step.records)] = Known(outcome, outcome, inputs=inputs)
    if node.step.say:
        numbers = {n: v for n, v in given.items() if isinstance(v, float)}
        text = walk.text(node.step.say)
        walk.said.append(Work(node.step.what[0], outcome, text, numbers))
    return outcome if outcome in node.next else NEXT


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
    """Results of an earlier run are stale, whichever outcome set them."""
    node = walk.node
    for each in {f for outcome in outcomes.values() for f in outcome}:
        real = node.real(node.step.sets.get(each, each))
        walk.at.forget_after(real)
        walk.at.known.pop(real, None)


def snake(name: str) -> str:
    """`OnTarget` -> `on_target`."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", name).lower()


def tell(walk: Walk) -> str | None:
    """Say a text; a waiting one goes on at "done"."""
    step = walk.node.step
    if not step.wait:
        walk.said.append(Say(walk.text(step.say)))
        return NEXT
    entry = walk.entry(DONE)
    if entry:
        walk.use(entry)
        if step.put_back:
            inner = walk.node.part
            walk.at.exposed = {p: v for p, v in walk.at.exposed.items() if not within(inner, p)}
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
        if source in at.known:
            at.learn(node.real(name), at.known[source])
    return MISSING


def finish(walk: Walk) -> str | None:
    """Leave a part, or end the job after its review."""
    node = walk.node
    if node.next:
        return NEXT
    if node.step.card:
        entry = walk.entry(REVIEW)
        if not entry:
            walk.open("review")
            return None
        walk.use(entry)
    walk.open("ended")
    walk.said.append(Finish(node.step.what[0], node.step.card, walk.text(node.step.say)))
    return None


# -- cautions and cards -----------------------------------------------------------------------


def caution(walk: Walk) -> str | None:
    """Show a caution once a sitting and part; afterwards its short line."""
    hazard = walk.node.step.what[0]
    due_now = walk.job.caution(hazard)
    if not holds(due_now.only, walk.at):
        return NEXT
    if is_guarded(walk, hazard):
        walk.said.append(Say(due_now.short))
        return NEXT
    entry = walk.entry(hazard)
    if entry is None:
        walk.open("caution", hazard=hazard)
        return None
    walk.use(entry)
    if entry.sitting == walk.log.sitting:
        walk.at.guarded.add((hazard, walk.node.part))
    expose(walk)
    return NEXT


def expose(walk: Walk) -> None:
    """Remember the put-back list that is due from here on."""
    part = walk.node.part
    for place, node in walk.job.graph.nodes.items():
        if node.step.put_back and within(node.part, part):
            walk.at.exposed[part] = place
            return


def within(part: str, outer: str) -> bool:
    """Whether a part is another one, or is used by it."""
    return part == outer or not outer or part.startswith(f"{outer}/")


def is_guarded(walk: Walk, hazard: str) -> bool:
    """Whether the caution was acknowledged in this sitting, in this part or one that uses it."""
    part = walk.node.part
    return any(h == hazard and within(part, p) for h, p in walk.at.guarded)


def guarded(walk: Walk) -> bool:
    """Hold an exposing step until each caution was acknowledged in this sitting and part."""
    for hazard in walk.node.step.exposes:
        if not holds(walk.job.caution(hazard).only, walk.at) or is_guarded(walk, hazard):
            continue
        entry = walk.entry(hazard, "!" + hazard)
        if entry is None or entry.sitting != walk.log.sitting:
            walk.at.guards += 1
            walk.open("guard", hazard=hazard)
            return False
        walk.use(entry)
        walk.at.guarded.add((hazard, walk.node.part))
    return True


def recall(walk: Walk) -> str | None:
    """Ask the shell for cards, offer them, and put what is taken into the pool."""
    at, node = walk.at, walk.node
    offer = next((o for o in walk.log.offers if (o.place, o.visit) == (at.place, at.visit)), None)
    if offer is None:
        match = {node.real(n): at.known[node.real(n)].settled for n in node.step.match}
        wanted = {name: node.step.reads.get(name, name) for name in node.step.what}
        walk.said.append(Fetch(at.place, at.visit, wanted, match))
        walk.open("fetch")
        return None
    if not offer.cards:
        return NEXT
    entry = walk.entry(CARD)
    if entry is None:
        walk.open("offer")
        return None
    walk.use(entry)
    taken = next((card for card in offer.cards if card.id == entry.settled), None)
    if taken:
        walk.said.append(ReadBack(say(walk.job, "recall.taken", line=taken.line)))
        at.pool |= {t.fact: t for t in taken.facts if t.fact not in at.known}
    return NEXT


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
