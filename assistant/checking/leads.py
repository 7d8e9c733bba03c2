"""Where a step may lead from what is known, and what is known then: one function a kind of step.

They mirror the machine's own functions, without values: every answer that a person may give is
followed. What a choice was is kept only while a split or a condition still looks at it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from assistant.checking.branches import NOT_KNOWN, may_stay_unknown
from assistant.checking.flows import Signed
from assistant.checking.knowledge import Knowledge, Way, held_by
from assistant.dialogue.guard import within
from assistant.flow.graph import KNOWN, MISSING, NEXT, NONE, TAKEN, Graph, Node
from assistant.flow.model import Caution, Step

Lead = tuple[str, Knowledge]
"""An outcome, and what is known on its edge."""


@dataclass(frozen=True, slots=True)
class Ground:
    """What the walk of the checker stands on: a compiled job and the choices that are looked at."""

    graph: Graph
    cautions: Mapping[str, Caution]
    calculations: Mapping[str, Signed]
    watched: Collection[str]

    def names_of(self, choice: str) -> tuple[str, ...]:
        """The names that a choice may stand at."""
        return tuple(each.name for each in self.graph.facts[choice].choices)

    def choice_of(self, fact: str) -> str:
        """The choice that an answer makes: a one-of fact tells its kind."""
        return f"{fact}_kind" if self.graph.facts[fact].variants else fact

    def chosen(self, known: Knowledge, fact: str) -> Iterator[Knowledge]:
        """The same once for each name of a choice that is looked at later."""
        if fact not in self.watched:
            yield known
            return
        for name in self.names_of(fact):
            yield known.with_choice(fact, name)


def leads(ground: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """Every outcome that the step at a node may have."""
    return KINDS[node.step.kind](ground, node, known)


# -- asking -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Answer:
    """One thing that may become of a fact at a question: it is passed, answered, or not known."""

    branch: str
    passed: bool = False
    has_value: bool = True


def ask(ground: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """Every mix of answers to the facts of a question, then the words that leave it."""
    each = [list(answers(ground, node, known, fact)) for fact in node.facts]
    for mix in product(*each):
        after = known.copy()
        for fact, given in zip(node.facts, mix, strict=True):
            settle(ground, node, after, fact, given)
        way = outcome(node, mix)
        for fact, given in zip(node.facts, mix, strict=True):
            if given.has_value and given.branch == way:
                after.has_value(fact)  # or the machine would have gone another way
        yield way, after
    for word in node.step.leave:
        after = known.copy()
        for fact in node.facts:
            after.forget_after(fact, certain=False)
        yield f"leave:{word}", after


def answers(ground: Ground, node: Node, known: Knowledge, fact: str) -> Iterator[Answer]:
    """What may become of one fact of a question."""
    home = ground.graph.home(fact)
    if home and not known.counts(home.only, fact):
        yield Answer("", passed=True)
        return
    always = bool(home) or node.step.again
    for branch in branches(ground, node, known, fact):
        if not always and (known.is_sure(fact) or fact in known.choices):
            yield Answer(branch, passed=True)
        else:
            yield Answer(branch)
    declared = ground.graph.facts[fact]
    finds_out = f"unknown:{fact}" in node.next and not node.step.quiet
    if not always and known.is_sure(fact):
        return
    if finds_out or may_stay_unknown(node.step, declared):
        yield Answer(NOT_KNOWN, has_value=False)
    elif not always and known.may_lack_value(fact):
        yield Answer(NOT_KNOWN, passed=True, has_value=False)


def branches(ground: Ground, node: Node, known: Knowledge, fact: str) -> tuple[str, ...]:
    """The outcomes that an answer may have, all in one where nothing tells them apart."""
    declared = ground.graph.facts[fact]
    if not declared.variants and not declared.choices:
        return (KNOWN,)
    at = ground.choice_of(fact)
    if not node.step.again and not ground.graph.home(fact) and at in known.choices:
        return (known.choices[at],)
    names = tuple(declared.variants) or ground.names_of(fact)
    told_apart = at in ground.watched or declared.variants or set(names) & set(node.next)
    return names if told_apart else (names[0],)


def settle(ground: Ground, node: Node, known: Knowledge, fact: str, given: Answer) -> None:
    """What an answer makes known; a member goes to its row.

    A member that does not count is passed. What it stood at in the row before is kept no longer:
    that follows more ways than the machine goes, never fewer, and keeps the states few.
    """
    home, declared = ground.graph.home(fact), ground.graph.facts[fact]
    if given.passed:
        if home:
            known.choices.pop(ground.choice_of(fact), None)
        return
    way = Way(node.place, has_value=given.has_value)
    if home or node.step.again:
        known.learn(fact, way)
    else:
        finds_out = f"unknown:{fact}" in node.next and not node.step.quiet
        known.learn_if_lacking(fact, way, ask_unknown=finds_out)
    if declared.variants and given.has_value:
        for name in declared.variants.values():
            known.drop(name)
        known.learn(declared.variants[given.branch], Way(node.place))
        known.learn(f"{fact}_kind", Way(node.place))
    if given.has_value and (at := ground.choice_of(fact)) in ground.watched:
        known.choices[at] = given.branch
    if home and fact in home.last:
        known.forget_after(home.name)


def outcome(node: Node, mix: tuple[Answer, ...]) -> str:
    """The outcome of a question: a way to find out comes first, then a branch of the table."""
    for fact, given in zip(node.facts, mix, strict=True):
        detour = f"unknown:{fact}"
        if not given.has_value and not given.passed and detour in node.next and not node.step.quiet:
            return detour
        if given.branch in node.next:
            return given.branch
    return NEXT


# -- working out, using, the rest ---------------------------------------------------------------


def reads(ground: Ground, node: Node) -> dict[str, str]:
    """The real name of the fact or series that each parameter of a calculation is bound to."""
    step = node.step
    names = ground.calculations[step.what[0]].parameters
    return {name: node.real(step.reads.get(name, name)) for name in names}


def work_out(ground: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """Each outcome of a calculation, with the facts that it sets."""
    step, calculation = node.step, ground.calculations[node.step.what[0]]
    way = Way(node.place, frozenset(reads(ground, node).values()))
    forgotten = known.copy()
    for name in calculation.results:
        forgotten.forget_after(node.result(name))
        forgotten.drop(node.result(name))
    for name, fields in calculation.outcomes.items():
        after = forgotten.copy()
        real = [node.result(field) for field in fields]
        for fact in real:
            after.learn(fact, way)
        if step.records:
            after.learn(node.real(step.records), way)
        edge = name if name in node.next else NEXT
        made = [after]
        for fact in real:
            made = [each for before in made for each in ground.chosen(before, fact)]
        for each in made:
            yield edge, _recorded(ground, node, each, name)


def _recorded(ground: Ground, node: Node, known: Knowledge, name: str) -> Knowledge:
    recorded = node.real(node.step.records)
    return known.with_choice(recorded, name) if recorded in ground.watched else known


def tell(_: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """A text leads on; the put-back list ends what its part exposed, unless it is left."""
    for word in node.step.leave:
        yield f"leave:{word}", known
    if node.step.put_back:
        known = known.copy()
        known.exposed = frozenset(part for part in known.exposed if not within(node.part, part))
    yield NEXT, known


def split(_: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """The way of the choice made; every way where it is not known."""
    choice = known.choices.get(node.facts[0])
    for name in node.next:
        if choice in {None, name}:
            yield name, known


def use(ground: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """Past the part where all that it gives may be known, into it where some of it may lack."""
    if node.gives and all(known.ways(name) for name in node.gives):
        after = known.copy()
        for name in node.gives:
            after.held[name] = held_by(after.ways(name), sure=not after.may_lack_value(name))
        yield KNOWN, after
        if all(known.is_sure(name) for name in node.gives):
            return
    after = known.copy()
    if node.series:
        after.forget_after(node.series)
        for name in ground.graph.series[node.series].members:
            after.drop(name)
    made = [after]
    for name, source in node.step.carry.items():
        made = [each for before in made for each in _carried(ground, node, before, name, source)]
    for each in made:
        yield MISSING, each


def _carried(
    ground: Ground, node: Node, known: Knowledge, name: str, source: str
) -> Iterator[Knowledge]:
    if not known.ways(source):
        yield known
        return
    real, after = node.real(name), known.copy()
    if known.is_sure(source):
        after.learn(real, Way(node.place))
    else:  # not known on every road, or asked and not known: that is not carried
        after.forget_after(real, certain=False)
        after.held[real] = held_by(after.ways(real) | {Way(node.place)}, sure=False)
        yield known
    yield from ground.chosen(after, real)


def finish(_: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """Out of a part; a job ends here."""
    if node.next:
        yield NEXT, known


def caution(ground: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """Passed: it guards its part from here on, and the put-back list of the part is due."""
    hazard = node.step.what[0]
    if ground.cautions[hazard].only and not known.holds(ground.cautions[hazard].only):
        yield NEXT, known
        return
    after = known.copy()
    after.guarded |= {(hazard, node.part)}
    nodes = ground.graph.nodes.values()
    listed = any(each.step.put_back and within(each.part, node.part) for each in nodes)
    due = ground.cautions[hazard]
    if due.undone or (listed and not due.of_seed):
        after.exposed |= {node.part}
    yield NEXT, after


def recall(_: Ground, node: Node, known: Knowledge) -> Iterator[Lead]:
    """What a card lends waits in the pool: nothing is known by it yet."""
    for outcome in (name for name in (TAKEN, NONE, NEXT) if name in node.next):
        yield outcome, known


KINDS: dict[str, Callable[[Ground, Node, Knowledge], Iterator[Lead]]] = {
    "ask": ask,
    "work_out": work_out,
    "say": tell,
    "caution": caution,
    "recall": recall,
    "use": use,
    "split": split,
    "finish": finish,
}


def hazards(step: Step) -> tuple[str, ...]:
    """The hazards that a step exposes to or guards."""
    return (*step.exposes, *(step.what if step.kind == "caution" else ()))
