"""Every step leads on: branches are exactly total, and nothing falls through by chance."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from assistant.checking.flows import Flows
from assistant.flow.graph import KNOWN, NONE, TAKEN, finishes
from assistant.flow.model import Fact, Part, Step
from assistant.flowfile.findings import Finding

NOT_KNOWN = "not_known"


def branch_faults(flows: Flows) -> Iterator[Finding]:
    """Tables of `next` that are not total, steps without a way on, parts without an end."""
    for part in flows.parts():
        for step in part.steps:
            if isinstance(step.next, Mapping):
                yield from _table(flows, step, step.next)
        yield from _way_on(flows, part)
        yield from _ends(flows, part)


def _table(flows: Flows, step: Step, table: Mapping[str, str]) -> Iterator[Finding]:
    possible = outcomes(flows, step)
    if not possible:
        return
    wanted = min(possible, key=lambda names: len(names ^ set(table)))
    if missing := wanted - set(table):
        yield flows.in_step("branch_missing", step, "next", names=", ".join(sorted(missing)))
    if extra := set(table) - wanted:
        yield flows.in_step("branch_extra", step, "next", names=", ".join(sorted(extra)))


def outcomes(flows: Flows, step: Step) -> list[set[str]]:
    """The sets of outcomes, one of which a table must equal; none where a name is missing."""
    library = flows.library
    name = step.what[0]
    if step.kind == "work_out" and name in flows.calculations:
        return [set(flows.calculations[name].outcomes)]
    if step.kind == "use" and name in library.parts:
        return [set(finishes(library.parts[name]))]
    if step.kind == "split" and name in library.facts:
        return [{choice.name for choice in library.facts[name].choices}]
    if step.kind == "recall":
        return [{TAKEN, NONE}]
    if step.kind == "ask":
        facts = [library.facts[each] for each in step.what if each in library.facts]
        return [branches(step, fact) for fact in facts]
    return []


def branches(step: Step, fact: Fact) -> set[str]:
    """The outcomes of asking a fact at a step: its choices or variants, or that it is known."""
    names = set(fact.variants) or {choice.name for choice in fact.choices} or {KNOWN}
    return names | ({NOT_KNOWN} if may_stay_unknown(step, fact) else set())


def may_stay_unknown(step: Step, fact: Fact) -> bool:
    """Whether the job goes on without the fact: a step may be quiet, a person may not know."""
    return step.quiet or (fact.unknown is not None and fact.unknown.way == "go_without")


def _way_on(flows: Flows, part: Part) -> Iterator[Finding]:
    named = {name for step in part.steps for name in targets(step)}
    for step, below in zip(part.steps, part.steps[1:], strict=False):
        if step.kind != "finish" and not step.next and below.id in named:
            yield flows.in_step("falls_through", step, below=below.id)
    last = part.steps[-1]
    if last.kind != "finish" and not last.next:
        yield flows.in_step("no_next", last)


def targets(step: Step) -> list[str]:
    """The steps that a step names."""
    table = step.next
    named = [*table.values()] if isinstance(table, Mapping) else [table] if table else []
    return [*named, *step.leave.values()]


def _ends(flows: Flows, part: Part) -> Iterator[Finding]:
    ends, gives = finishes(part), (part.file, "part", "gives")
    if not ends:
        yield flows.in_file("no_finish", (part.file, "part"))
    is_part = part.name in flows.library.parts and part.file.startswith("parts/")
    for outcome in sorted(set(ends) - set(part.gives)) if is_part else ():
        yield flows.in_file("finish_without_gives", gives, outcome=outcome)
    for outcome in sorted(set(part.gives) - set(ends)):
        yield flows.in_file("gives_without_finish", gives, outcome=outcome)
    for step in part.steps:
        if is_part and step.kind == "finish" and (step.say or step.card):
            yield flows.in_step("part_ends_in_silence", step)
