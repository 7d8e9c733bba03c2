"""Calculations run on quantities of our own registry: every outcome, with the kinds declared.

The kinds of their parameters and results are those of the facts that the steps bind to them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from assistant.calc.calculation import ROWS, TRIALS, Value, kinds_of, outcome_name
from assistant.checking.flows import Flows, Signed
from assistant.checking.names import TABLE, lenders
from assistant.flow.model import Step
from assistant.flowfile.findings import Finding, finding
from assistant.quantities.kinds import KINDS
from assistant.quantities.registry import checking_quantity, has_dimension


def dimension_faults(flows: Flows) -> Iterator[Finding]:
    """Faults of the calculations themselves, then of what steps and series bind to them."""
    for name, calculation in flows.calculations.items():
        yield from _run(name, calculation)
    for step in flows.steps("work_out"):
        if step.what[0] in flows.calculations:
            yield from _bound(flows, step)
    for step in flows.steps():
        yield from _handed_on(flows, step)
    for part in flows.parts():
        for name in part.series.members if part.series else ():
            yield from _member(flows, part.file, name)


# -- the calculations ----------------------------------------------------------------------------


def _run(name: str, calculation: Signed) -> Iterator[Finding]:
    reached = set[str]()
    for inputs in calculation.of.examples:
        try:
            result = calculation.of.run(calculation.of.converted(inputs, checking_quantity))
        except Exception as problem:  # noqa: BLE001  # whatever it raises, the sum does not hold
            yield _at(calculation, "sum_does_not_hold", name, what=str(problem))
            continue
        outcome = outcome_name(type(result))
        reached.add(outcome)
        for field, kind in calculation.outcomes.get(outcome, {}).items():
            if not is_of_kind(getattr(result, field), kind):
                yield _at(calculation, "result_of_another_kind", name, fact=field, kind=kind)
    for outcome in sorted(calculation.outcomes.keys() - reached):
        yield _at(calculation, "outcome_not_reached", name, outcome=outcome)


def is_of_kind(value: Any, kind: str) -> bool:
    """Whether a result on quantities has the dimension of a kind; a list in all its members."""
    if isinstance(value, tuple | list):
        return all(is_of_kind(each, kind) for each in value)
    if isinstance(value, str) or KINDS[kind].form == "words":
        return isinstance(value, str) and KINDS[kind].form == "words"
    return has_dimension(value, kind)


def _at(calculation: Signed, code: str, name: str, **about: str) -> Finding:
    code_of = calculation.of.function.__code__
    file = calculation.of.function.__module__.replace(".", "/") + ".py"
    return finding(code, file, code_of.co_firstlineno, name, **about)


# -- what is bound to them -----------------------------------------------------------------------


def _bound(flows: Flows, step: Step) -> Iterator[Finding]:
    calculation = flows.calculations[step.what[0]]
    for parameter, kind in calculation.parameters.items():
        fact = step.reads.get(parameter, parameter)
        if kind != TRIALS and fact in flows.library.facts:
            yield from _same(flows, step, "reads", fact, kind)
        elif (kind == TRIALS) != (fact in flows.series()):
            yield flows.in_step("not_a_series", step, "reads", fact=fact)
    for results in calculation.outcomes.values():
        for field, kind in results.items():
            yield from _same(flows, step, "sets", step.sets.get(field, field), kind)
    if step.records in flows.library.facts:
        names = {choice.name for choice in flows.library.facts[step.records].choices}
        told = names if step.records in flows.asked() else _recorded(flows, step.records)
        if names != told or not names >= set(calculation.outcomes):
            yield flows.in_step("records_other_choices", step, "records", fact=step.records)
    yield from _bound_choices(flows, step, calculation.parameters)


def _recorded(flows: Flows, name: str) -> set[str]:
    """The outcomes that are recorded as a choice, at all steps that record it."""
    calculations = [flows.calculations.get(s.what[0]) for s in flows.steps() if s.records == name]
    return {outcome for each in calculations if each for outcome in each.outcomes}


def _bound_choices(flows: Flows, step: Step, parameters: Mapping[str, str]) -> Iterator[Finding]:
    """A choice that a calculation reads has the names that its examples use."""
    examples = flows.calculations[step.what[0]].of.examples
    for parameter, kind in parameters.items():
        fact = flows.library.facts.get(step.reads.get(parameter, parameter))
        if kind == "choice" and fact:
            used = {name for inputs in examples for name in names_in(inputs[parameter])}
            if used != {choice.name for choice in fact.choices}:
                yield flows.in_step("other_choices", step, "reads", fact=fact.name)


def names_in(value: Value) -> tuple[str, ...]:
    """The names of one choice, or of several."""
    return tuple(map(str, value)) if isinstance(value, tuple) else (str(value),)


def _same(flows: Flows, step: Step, key: str, fact: str, kind: str) -> Iterator[Finding]:
    declared = flows.library.facts.get(fact)
    if declared and declared.kind != kind:
        about = {"fact": fact, "kind": declared.kind, "wanted": kind}
        yield flows.in_step("other_kind", step, key, **about)


def _handed_on(flows: Flows, step: Step) -> Iterator[Finding]:
    """What a step proposes, carries or takes from a card is of the kind of the fact it is for."""
    for key, name, source in handed(step):
        fact = flows.library.facts.get(name)
        if fact:
            yield from _same(flows, step, key, source.rpartition(".")[2], fact.kind)


def handed(step: Step) -> Iterator[tuple[str, str, str]]:
    """Each fact that a step hands to another: by which key, to which one, and the fact."""
    for name, sources in step.propose.items():
        yield from (("propose", name, each) for each in sources if not each.startswith(TABLE))
    yield from (("carry", name, source) for name, source in step.carry.items())
    for name, source in step.reads.items() if step.kind == "recall" else ():
        yield from (("reads", name, each) for each in lenders(source))


def _member(flows: Flows, file: str, member: str) -> Iterator[Finding]:
    """A member of a row, or each of its variants, stands in the row of a calculation."""
    row = {name: kind for each in ROWS for name, kind in kinds_of(each).items()}
    declared = flows.library.facts.get(member)
    names = [*declared.variants.values()] or [member] if declared else []
    for name in names:
        fact = flows.library.facts.get(name)
        if fact and fact.kind != row.get(name):
            about = {"fact": name, "kind": fact.kind, "wanted": row.get(name, "")}
            yield flows.in_file("other_kind", (file, "series", "members"), member, **about)
