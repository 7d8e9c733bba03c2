"""Nothing is declared, worked out or asked in vain: some step, text, rule or script uses it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from assistant.checking.flows import Flows
from assistant.checking.names import lenders
from assistant.dialogue.wording import HOLE
from assistant.flow.model import LEANS, Fact, Step
from assistant.flowfile.findings import Finding

LEANS_ON = (*LEANS, "misses_by")
"""The keys by which one fact leans on another."""


def unused_faults(flows: Flows) -> Iterator[Finding]:
    """Facts, results, answers and tables that nothing uses, and facts called unused that are not.

    Parts and cautions that nothing uses have judges of their own.
    """
    used = {plain(name) for name in uses(flows)}
    spare = {name: fact for name, fact in flows.library.facts.items() if name not in used}
    named = dict.fromkeys(spare, False)
    for step in flows.steps():
        for name in sorted(brought(flows, step) & spare.keys()):
            named[name] = True
            if not spare[name].for_scripts:
                yield _in_vain(flows, step, name)
    for name, fact in spare.items():
        if not named[name] and not fact.for_scripts:
            yield flows.in_fact("unused_fact", name)
    for name, fact in flows.library.facts.items():
        if fact.for_scripts and name in used:
            yield flows.in_fact("used_after_all", name, "for_scripts", fact=name)
    yield from _tables(flows)


def plain(name: str) -> str:
    """The name of a fact as it is declared, whatever part it is of."""
    return name.rpartition(".")[2]


def brought(flows: Flows, step: Step) -> set[str]:
    """The facts that a step asks, takes from a card or works out."""
    found = {*step.what} if step.kind in {"ask", "recall"} else set[str]()
    if step.kind == "work_out":
        results = flows.calculations[step.what[0]].results if _is_known(flows, step) else ()
        found = {step.sets.get(name, name) for name in results} | {step.records}
    return {plain(name) for name in found}


def uses(flows: Flows) -> Iterator[str]:
    """Every name of a fact that a step, a text, a series or another fact makes use of."""
    for part in flows.parts():
        for step in part.steps:
            yield from _of_step(flows, step)
        if part.series:
            yield from part.series.under
            for under in part.series.only.values():
                yield from under
    for fact in flows.library.facts.values():
        yield from _of_fact(fact)
    for caution in flows.library.cautions.values():
        yield from caution.only
    for question in flows.library.asides()[0].values():
        yield from HOLE.findall(question["answer"])
    yield from _of_card(flows)


def _in_vain(flows: Flows, step: Step, name: str) -> Finding:
    if step.kind == "work_out":
        return flows.in_step("set_never_used", step, "work_out", fact=name)
    return flows.in_step("answer_never_used", step, step.kind, fact=name)


def _is_known(flows: Flows, step: Step) -> bool:
    return step.what[0] in flows.calculations


def _of_step(flows: Flows, step: Step) -> Iterator[str]:
    for text in (step.say, step.ask, step.brief, step.corrected, step.state):
        yield from HOLE.findall(text)
    if step.kind == "work_out" and _is_known(flows, step):
        for name in flows.calculations[step.what[0]].parameters:
            yield from _read(flows, step.reads.get(name, name))
    if step.kind == "split" or (step.kind == "ask" and isinstance(step.next, Mapping)):
        yield from step.what
    if step.kind == "recall":
        yield from (name for source in step.reads.values() for name in lenders(source))
    yield from step.match
    yield from (name for sources in step.propose.values() for name in sources)
    yield from step.carry.values()


def _read(flows: Flows, name: str) -> Iterator[str]:
    """A fact that a calculation reads; of a series all its members."""
    yield name
    for part in flows.parts():
        if part.series and part.series.name == name:
            yield from part.series.members


def _of_fact(fact: Fact) -> Iterator[str]:
    yield from (getattr(fact, key) for key in LEANS_ON)
    yield from HOLE.findall(f"{fact.ask} {fact.why} {fact.help}")
    yield from fact.variants.values()
    if fact.variants:
        yield f"{fact.name}_kind"
    if fact.card or fact.main:
        yield fact.name


def _of_card(flows: Flows) -> Iterator[str]:
    card = flows.library.card
    page = [line for block in card.page.blocks for line in block.lines]
    for line in (*card.lines, *card.half_lines, *card.shared_lines, *card.after, *page):
        yield from HOLE.findall(line)
    yield from HOLE.findall(card.page.title + card.page.name)
    yield from (name for block in card.page.blocks for name in block.only)


def _tables(flows: Flows) -> Iterator[Finding]:
    facts = flows.library.facts.values()
    named = {table for fact in facts for table in (fact.table, fact.known_words)}
    for table in flows.library.tables:
        if table not in named:
            yield flows.in_file("unused_table", (f"tables/{table}.toml",), table)
