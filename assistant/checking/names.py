"""Every name that a step uses belongs to something that is declared."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from assistant.checking.flows import Flows, Where, near
from assistant.dialogue.wording import HOLE
from assistant.flow.model import Part, Step
from assistant.flowfile.findings import Finding

PROPOSAL = "proposal"
TABLE = "table:"


def name_faults(flows: Flows) -> Iterator[Finding]:
    """Names in steps, cautions, series and on the card that nothing answers to."""
    for part in flows.parts():
        for step in part.steps:
            yield from _facts(flows, step)
            yield from _others(flows, step)
            yield from _targets(flows, part, step)
        yield from _series(flows, part)
        yield from _gives(flows, part)
    yield from _cautions(flows)
    yield from _questions(flows)
    yield from _card(flows)
    yield from _circles(flows)


def unknown_fact(flows: Flows, name: str) -> bool:
    """Whether no fact has this name; a dotted one is a fact of a part used under another name."""
    alias, _, plain = name.rpartition(".")
    if alias:
        return plain not in flows.library.facts or alias not in aliases(flows)
    return name not in flows.library.facts


def aliases(flows: Flows) -> set[str]:
    """The names under which parts are used a second time."""
    return {step.alias for step in flows.steps("use") if step.alias}


def named_facts(step: Step) -> Iterator[tuple[str, str]]:
    """Each fact that a step names, with the key that names it."""
    if step.kind in {"ask", "split", "recall"}:
        yield from ((name, step.kind) for name in step.what)
    for key, names in (
        ("propose", [*step.propose, *_sources(step)]),
        ("told", step.told),
        ("records", [step.records] if step.records else []),
        ("match", step.match),
        ("carry", [*step.carry, *step.carry.values()]),
        ("say", HOLE.findall(step.say)),
        ("question", set(HOLE.findall(step.ask)) - {PROPOSAL}),
        ("brief", set(HOLE.findall(step.brief)) - ({PROPOSAL} if step.kind == "ask" else set())),
    ):
        yield from ((name, key) for name in sorted(names))
    if step.kind == "recall":
        yield from ((name, "reads") for source in step.reads.values() for name in lenders(source))


def _sources(step: Step) -> Iterator[str]:
    for names in step.propose.values():
        yield from (name for name in names if not name.startswith(TABLE))


def _facts(flows: Flows, step: Step) -> Iterator[Finding]:
    for name, key in named_facts(step):
        if name == PROPOSAL:
            yield flows.in_step("proposal_outside_question", step, key)
        elif unknown_fact(flows, name):
            yield _missing(flows, step, ("fact", name), flows.library.facts, key=key)
    asked = {"ask": step.what, "recall": step.what}.get(step.kind, ())
    for key, names in (("propose", step.propose), ("told", step.told)):
        for name in sorted(set(names) - set(asked)):
            yield flows.in_step("not_asked_here", step, key, fact=name)
    for source in _lent(step):
        lends = flows.library.facts.get(source)
        if lends and lends.recall == "never":
            yield flows.in_step("recalled_never", step, step.kind, fact=source)
    for column in (s for names in step.propose.values() for s in names if s.startswith(TABLE)):
        yield from _column(flows, step, column.removeprefix(TABLE))


def _lent(step: Step) -> Iterator[str]:
    """The facts of a card that a recall takes under their own names."""
    yield from (n for n in step.what if step.kind == "recall" and step.reads.get(n, n) == n)


def lenders(source: str) -> list[str]:
    """The facts of a card of which the first known one is lent; "=x" is x, "#" the card's id."""
    return [] if source.startswith(("=", "#")) else source.split()


def _column(flows: Flows, step: Step, column: str) -> Iterator[Finding]:
    tables = [fact.table for n in step.propose if (fact := flows.library.facts.get(n))]
    rows = [row for name in tables for row in flows.library.tables.get(name, {}).values()]
    if not any(column in row for row in rows):
        yield flows.in_step("unknown_column", step, "propose", column=column)


def _others(flows: Flows, step: Step) -> Iterator[Finding]:
    library = flows.library
    name = step.what[0] if step.what else ""
    if step.kind == "work_out" and name not in flows.calculations:
        yield _missing(flows, step, ("calculation", name), flows.calculations)
    elif step.kind == "work_out":
        yield from _bindings(flows, step)
    if step.alias and f"uses.{step.alias}" not in library.words:
        yield flows.in_step("alias_unnamed", step, "as", alias=step.alias)
    if step.kind == "use" and name not in library.parts:
        yield _missing(flows, step, ("part", name), library.parts)
    hazards = [*([name] if step.kind == "caution" else []), *step.exposes]
    for hazard in hazards:
        if hazard not in library.cautions:
            key = "caution" if step.kind == "caution" else "exposes"
            yield _missing(flows, step, ("caution", hazard), library.cautions, key=key)


def _bindings(flows: Flows, step: Step) -> Iterator[Finding]:
    calculation = flows.calculations[step.what[0]]
    for key, names, kept in (
        ("reads", step.reads, calculation.parameters),
        ("sets", step.sets, calculation.results),
    ):
        for name in sorted(set(names) - set(kept)):
            yield _missing(flows, step, (key, name), kept, key=key)
    reads = {step.reads.get(name, name) for name in calculation.parameters}
    sets = {step.sets.get(name, name) for name in calculation.results}
    for name in sorted(reads | sets):
        if unknown_fact(flows, name) and name not in flows.series():
            yield _missing(flows, step, ("fact", name), flows.library.facts)
    for name in sorted(reads & sets):
        yield flows.in_step("sets_what_it_reads", step, fact=name)


def _targets(flows: Flows, part: Part, step: Step) -> Iterator[Finding]:
    ids = [each.id for each in part.steps]
    named = step.next.values() if isinstance(step.next, Mapping) else [step.next]
    for name in [*filter(None, named), *step.leave.values()]:
        if name not in ids:
            yield _missing(flows, step, ("step", name), ids, key="next")
    if next(each for each in part.steps if each.id == step.id) is not step:
        yield flows.in_step("step_twice", step, "id")


def _series(flows: Flows, part: Part) -> Iterator[Finding]:
    if part.series is None:
        return
    series = part.series
    asked = {
        n for each in _inside(flows, part) for s in each.steps if s.kind == "ask" for n in s.what
    }
    for key, names, kept, code in (
        ("members", series.members, asked, "member_not_asked"),
        ("last", series.last, series.members, "not_a_member"),
        ("only", series.only, series.members, "not_a_member"),
    ):
        for name in sorted(set(names) - set(kept)):
            yield flows.in_file(code, (part.file, "series", key), series.name, fact=name)
    for name in series.under:
        yield from declared(flows, (part.file, "series", "under"), series.name, name)
    for member, under in series.only.items():
        yield from _only(flows, (part.file, "series", "only", member), series.name, under)


def _inside(flows: Flows, part: Part) -> Iterator[Part]:
    """A part and those that it uses, once each."""
    uses = {name: _used(flows, each) for name, each in flows.library.parts.items()}
    uses[part.name] = _used(flows, part)
    yield part
    for name in _all_used(uses, part.name) & flows.library.parts.keys() - {part.name}:
        yield flows.library.parts[name]


def declared(flows: Flows, where: Where, name: str, fact: str) -> Iterator[Finding]:
    """A fault where something other than a step names a fact that nobody declared."""
    if unknown_fact(flows, fact):
        about = {"fact": fact, "near": near(fact, flows.library.facts)}
        yield flows.in_file("unknown_fact", where, name, **about)


def _only(
    flows: Flows, where: Where, name: str, under: Mapping[str, Iterable[str]]
) -> Iterator[Finding]:
    """Facts and choices that a condition names."""
    for fact, choices in under.items():
        yield from declared(flows, where, name, fact)
        known = flows.library.facts.get(fact)
        names = [choice.name for choice in known.choices] if known else [*choices]
        for choice in sorted(set(choices) - set(names)):
            about = {"choice": choice, "fact": fact, "near": near(choice, names)}
            yield flows.in_file("unknown_choice", where, name, **about)


def _gives(flows: Flows, part: Part) -> Iterator[Finding]:
    for outcome, names in part.gives.items():
        for name in names:
            yield from declared(flows, (part.file, "part", "gives"), outcome, name)


def _cautions(flows: Flows) -> Iterator[Finding]:
    for name, caution in flows.library.cautions.items():
        yield from _only(flows, ("cautions.toml", name, "only"), name, caution.only)


def _questions(flows: Flows) -> Iterator[Finding]:
    for name, question in flows.library.asides()[0].items():
        where = (flows.homes[f"questions/{name}"][-1], name, "answer")
        for fact in sorted(set(HOLE.findall(question["answer"]))):
            yield from declared(flows, where, name, fact)


def _card(flows: Flows) -> Iterator[Finding]:
    card = flows.library.card
    for key in ("lines", "half_lines", "shared_lines", "after"):
        for name in sorted({hole for line in getattr(card, key) for hole in HOLE.findall(line)}):
            yield from declared(flows, ("card.toml", key), key, name)
    for name in card.after_with:
        yield from declared(flows, ("card.toml", "after_with"), "after_with", name)
    yield from _page(flows)
    for step in flows.steps("finish"):
        if step.card and step.what[0] not in card.outcomes:
            yield flows.in_step("card_lacks_outcome", step, outcome=step.what[0])


STAMPS = {"date", "id", "follows", "outcome"}
"""What lines of the page may name besides facts."""


def _page(flows: Flows) -> Iterator[Finding]:
    page = flows.library.card.page
    told: dict[Where, tuple[str, ...]] = {("title",): (page.title,), ("name",): (page.name,)}
    told |= {("block", at, "lines"): each.lines for at, each in enumerate(page.blocks)}
    for key, lines in told.items():
        for name in sorted({hole for line in lines for hole in HOLE.findall(line)} - STAMPS):
            yield from declared(flows, ("card.toml", "page", *key), "page", name)
    for at, block in enumerate(page.blocks):
        only = {fact: names for fact, names in block.only.items() if fact not in STAMPS}
        yield from _only(flows, ("card.toml", "page", "block", at, "only"), "page", only)


def _circles(flows: Flows) -> Iterator[Finding]:
    """Parts that use themselves, or one another in a circle: they can't be inlined."""
    uses = {name: _used(flows, part) for name, part in flows.library.parts.items()}
    for name, used in uses.items():
        for other, step in used.items():
            if other == name or name in _all_used(uses, other):
                yield flows.in_step("part_uses_itself", step, part=other)


def _all_used(uses: Mapping[str, Mapping[str, Step]], part: str) -> set[str]:
    reached, front = set[str](), [part]
    while front:
        new = set(uses.get(front.pop(), {})) - reached
        reached |= new
        front += new
    return reached


def _used(flows: Flows, part: Part) -> dict[str, Step]:
    """The parts that one uses: by name, and to find out what a person does not know."""
    found: dict[str, Step] = {}
    for step in part.steps:
        if step.kind == "use":
            found.setdefault(step.what[0], step)
        elif step.kind == "ask":
            for name in step.what:
                fact = flows.library.facts.get(name)
                if fact and fact.unknown and fact.unknown.way == "part":
                    found.setdefault(fact.unknown.value, step)
    return found


def _missing(
    flows: Flows, step: Step, named: tuple[str, str], names: Iterable[str], *, key: str = ""
) -> Finding:
    """A name that nothing answers to: `named` tells what it should name, and the name."""
    what, name = named
    about = {what: name, "near": near(name, names)}
    return flows.in_step(f"unknown_{what}", step, key or step.kind, **about)
