"""What each step needs is there on every road: facts, choices, cautions, put-back lists."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from assistant.checking.branches import NOT_KNOWN
from assistant.checking.flows import Flows
from assistant.checking.knowledge import Knowledge
from assistant.checking.leads import leads, reads
from assistant.checking.names import PROPOSAL, TABLE
from assistant.checking.roads import Roads, State, road_to
from assistant.dialogue.guard import covered, within
from assistant.dialogue.wording import HOLE
from assistant.flow.graph import NEXT, Node
from assistant.flow.model import Part
from assistant.flowfile.findings import Finding


@dataclass(frozen=True, slots=True)
class Need:
    """A fact that a step uses: the code if it may lack, and the key that uses it."""

    code: str
    key: str
    fact: str


def lacking(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """Facts used, shown, matched or given before they are known on every road, each with a road."""
    graph, found = roads.ground.graph, dict[tuple[int, Need], tuple[str, str]]()
    for state, known in roads.known.items():
        node = roads.node(state)
        missing = [each for each in needs(flows, roads, node) if not is_there(roads, known, each)]
        for edge in roads.edges[state]:
            after = edge.known
            missing += [e for e in needs_of_working(node) if not is_there(roads, after, e)]
        for need in missing:
            plain = replace(need, fact=graph.declared.get(need.fact, need.fact))
            found.setdefault((id(node.step), plain), (state.place, need.fact))
    for (_, need), (place, fact) in found.items():
        about = {"fact": need.fact, "job": graph.job, "road": road_without(roads, place, fact)}
        yield flows.in_step(need.code, graph[place].step, need.key, **about)


def unled(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """Questions passed over, their fact without a value, that say for no such case where to go."""
    told = set[int]()
    for state, known in roads.known.items():
        node = roads.node(state)
        if node.step.kind != "ask" or NEXT in node.next or id(node.step) in told:
            continue
        if any(outcome not in node.next for outcome, _ in leads(roads.ground, node, known)):
            told.add(id(node.step))
            yield flows.in_step("branch_missing", node.step, "next", names=NOT_KNOWN)


def is_there(roads: Roads, known: Knowledge, need: Need) -> bool:
    """Whether a fact has a value: it is known, it is a limit that stands, or it is a series."""
    graph, fact = roads.ground.graph, need.fact
    return known.is_sure(fact) or fact in graph.series or bool(graph.facts[fact].stands_at)


def road_without(roads: Roads, place: str, fact: str) -> str:
    """The shortest road to a place on which a fact is not known."""

    def wanted(state: State, known: Knowledge) -> bool:
        return state.place == place and not known.is_sure(fact)

    return road_to(roads, wanted, lambda known: known.is_sure(fact))


def needs(flows: Flows, roads: Roads, node: Node) -> Iterator[Need]:
    """What a step needs when the machine comes to it."""
    step = node.step
    if step.kind == "work_out":
        for name in reads(roads.ground, node).values():
            yield Need("used_before_known", "work_out", name)
        return
    if step.kind == "split":
        yield Need("split_before_known", "split", node.facts[0])
    for name in step.match:
        yield Need("match_before_known", "match", node.real(name))
    texts = {"say": [step.say], "brief": [step.brief]}
    if step.kind == "ask":
        texts["question"] = [step.ask, *(roads.ground.graph.facts[each].ask for each in node.facts)]
    for key, said in texts.items():
        for name in sorted({name for text in said for name in HOLE.findall(text)} - {PROPOSAL}):
            yield Need("shown_before_known", key, node.real(name))
    for name in given_at(flows, node):
        yield Need("given_before_known", "finish", name)


def needs_of_working(node: Node) -> Iterator[Need]:
    """What the text of a calculation needs, which is said when the sum is done."""
    if node.step.kind == "work_out":
        for key, text in (("say", node.step.say), ("brief", node.step.brief)):
            for name in sorted(set(HOLE.findall(text))):
                yield Need("shown_before_known", key, node.real(name))


def given_at(flows: Flows, node: Node) -> Iterator[str]:
    """What a part promises to give at the finish that a node is."""
    if node.step.kind == "finish":
        part = part_of(flows, node)
        yield from (node.real(name) for name in part.gives.get(node.step.what[0], ()))


def part_of(flows: Flows, node: Node) -> Part:
    """The job or part whose step a node is."""
    file, _ = flows.sites[id(node.step)]
    return next(part for part in flows.parts() if part.file == file)


# -- what is passed over ------------------------------------------------------------------------


def passed_over(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """Questions and parts that are passed although what they give is not there any more."""
    for state, known in roads.known.items():
        node = roads.node(state)
        if node.step.kind == "ask":
            yield from _unknown_already(flows, roads, node, known)
        if node.step.kind == "use" and node.gives:
            yield from _given_already(flows, roads, node, known)


def _unknown_already(flows: Flows, roads: Roads, node: Node, known: Knowledge) -> Iterator[Finding]:
    """A fact that an earlier step gave up on is not asked again."""
    for fact in node.facts:
        asked_anew = node.step.again or roads.ground.graph.home(fact)
        finds_out = f"unknown:{fact}" in node.next
        elsewhere = any(w.place != node.place and not w.has_value for w in known.ways(fact))
        if elsewhere and not asked_anew and not finds_out and not node.step.quiet:
            plain = roads.ground.graph.declared.get(fact, fact)
            yield flows.in_step("given_up_before", node.step, "ask", fact=plain)


def _given_already(flows: Flows, roads: Roads, node: Node, known: Knowledge) -> Iterator[Finding]:
    """A part come to again is passed over: what it gave is still known."""
    skipped = all(known.ways(name) for name in node.gives)
    part = flows.library.parts[node.step.what[0]]
    facts = dict.fromkeys(node.real(name) for names in part.gives.values() for name in names)
    for name in facts:
        for way in known.ways(name):
            if within(way.place, node.place) and skipped:
                yield flows.in_step("part_comes_again", node.step, "use", part=part.name)
            other = _giver(flows, roads, node, way.place, name)
            if other:
                about = {"part": part.name, "fact": name, "other": other}
                yield flows.in_step("given_twice", node.step, "use", **about)


def _giver(flows: Flows, roads: Roads, node: Node, place: str, fact: str) -> str:
    """The other part, not around this one, that has given a fact which was set at a place."""
    for use, other in roads.ground.graph.nodes.items():
        if other.step.kind != "use" or within(node.place, use) or not within(place, use):
            continue
        part = flows.library.parts[other.step.what[0]]
        if fact in {other.real(name) for names in part.gives.values() for name in names}:
            return part.name
    return ""


def never_proposed(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """What a step proposes but no road has made known by then."""
    graph = roads.ground.graph
    may: dict[str, set[str]] = {}
    for state, known in roads.known.items():
        may.setdefault(state.place, set()).update(known.held)
    for place, names in may.items():
        node = graph[place]
        for source in sorted({s for each in node.step.propose.values() for s in each}):
            real = node.real(source)
            is_known = source.startswith(TABLE) or real in names or graph.facts[real].stands_at
            if not is_known and not node.step.quiet:
                yield flows.in_step("never_proposed", node.step, "propose", fact=source)


# -- hazards ------------------------------------------------------------------------------------


def unguarded(flows: Flows, roads: Roads) -> Iterator[Finding]:
    """Steps near a hazard that some road comes to without its caution, and lists left undone."""
    found = dict[tuple[int, str], State]()
    for state, known in roads.known.items():
        node = roads.node(state)
        for hazard in node.step.exposes:
            if not guards(known, hazard, node):
                found.setdefault((id(node.step), hazard), state)
    for (_, hazard), state in found.items():
        job, road = roads.ground.graph.job, road_unguarded(roads, state, hazard)
        about = {"hazard": hazard, "job": job, "road": road}
        yield flows.in_step("unguarded", roads.node(state).step, "exposes", **about)
    left = {each.place: each for each in roads.ends() if roads.known[each].exposed}
    for state in left.values():
        about = {"job": roads.ground.graph.job, "road": road_left(roads, state)}
        yield flows.in_step("not_put_back", roads.node(state).step, **about)


def guards(known: Knowledge, hazard: str, node: Node) -> bool:
    """Whether the caution guards the part of a step."""
    return covered(known.guarded, hazard, node.part)


def road_unguarded(roads: Roads, at: State, hazard: str) -> str:
    """The shortest road to a state that does not pass the caution of a hazard."""
    node = roads.node(at)
    return road_to(
        roads,
        lambda state, known: state == at and not guards(known, hazard, node),
        lambda known: guards(known, hazard, node),
    )


def road_left(roads: Roads, at: State) -> str:
    """The shortest road to the place of an end on which a list is still due."""
    return road_to(
        roads,
        lambda state, known: state.place == at.place and bool(known.exposed),
        lambda known: known.exposed,
    )


def hazard_faults(flows: Flows) -> Iterator[Finding]:
    """Hazards that no step exposes to, and steps that expose without waiting or a state."""
    exposed = {hazard for step in flows.steps() for hazard in step.exposes}
    shown = {step.what[0] for step in flows.steps("caution")}
    for name in flows.library.cautions:
        if name not in exposed:
            yield flows.in_file("hazard_not_exposed", ("cautions.toml", name), name)
        if name not in shown:
            yield flows.in_file("caution_not_shown", ("cautions.toml", name), name)
    for step in flows.steps("say"):
        if (step.exposes or step.put_back) and not step.wait:
            yield flows.in_step("does_not_wait", step)
    for part in flows.parts():
        for step in part.steps:
            if step.exposes and not (step.state or part.state):
                yield flows.in_step("state_lacks", step)
