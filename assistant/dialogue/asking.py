"""The step that asks: settle what the log or the pool answers, open the rest."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.dialogue.guard import acknowledge, guarded
from assistant.dialogue.job import Job
from assistant.dialogue.log import GUESSED, LAST_TIME, LENT, UNKNOWN, Entry, Told
from assistant.dialogue.messages import ReadBack, Say
from assistant.dialogue.proposing import in_bounds, proposal
from assistant.dialogue.situation import Known, counts
from assistant.dialogue.standing import told_at
from assistant.dialogue.walk import Walk
from assistant.dialogue.wording import say, shown, shown_fact
from assistant.flow.graph import KNOWN, NEXT


def ask(walk: Walk) -> str | None:
    """Settle what the log or the pool answers; open the rest."""
    acknowledge(walk)
    for fact in due(walk):
        entry = walk.entry(fact)
        if entry and still_possible(walk, entry):
            walk.use(entry)
            settle(walk, entry)
            outdate(walk, fact)
        elif fact in walk.at.pool and fits_here(walk, fact) and usual_now(walk, fact):
            take_from_pool(walk, fact)
    if walk.node.step.quiet:
        for fact in due(walk):
            take_quietly(walk, fact)
    still = due(walk)
    return opened(walk, still) if still else outcome_of_ask(walk)


def outdate(walk: Walk, fact: str) -> None:
    """What was told early or lent waits no more once it is another: it may be asked again."""
    if not walk.job.graph.home(fact):
        walk.at.pool.pop(fact, None)


def still_possible(walk: Walk, entry: Entry) -> bool:
    """Whether an answer is within the fact that bounds it, which may be another by now.

    A row is what happened, whatever was told since.
    """
    if entry.settled == UNKNOWN or walk.job.graph.home(entry.fact):
        return True
    return in_bounds(walk.job, walk.at, entry.variant or entry.fact, entry.settled)


def opened(walk: Walk, still: tuple[str, ...]) -> str | None:
    """Wait for what is still due, unless the person left the step by one of its words."""
    left = walk.entry(LEAVE)
    if left:
        walk.use(left)
        return f"leave:{left.settled}"
    if done_before(walk, still) and not walk.entry(AGAIN):
        walk.open("corrected", still)
    elif guarded(walk):
        if walk.node.step.say and not walk.at.here:
            walk.said.append(Say(walk.text(walk.node.step.say)))
        walk.open("ask", still)
    return None


LEAVE, AGAIN = "!leave", "!again"


def done_before(walk: Walk, still: tuple[str, ...]) -> bool:
    """Whether a correction would have rows that are there done again: the person is asked first."""
    home = walk.job.graph.home(still[0])
    return bool(
        walk.log.corrects and walk.node.step.corrected and home and walk.at.rows.get(home.name)
    )


def take_quietly(walk: Walk, fact: str) -> None:
    """A quiet step takes what it proposes; else the fact counts as not known."""
    at = walk.at
    taken = proposal(walk.job, walk.log, at, walk.node, fact)
    if taken is None:
        at.learn(fact, Known(None))
        at.here.add(fact)
        return
    settled, where, variant = taken
    told = where or told_at(walk.job, at.place, variant or fact)
    entry = Entry(at.place, at.visit, fact, settled, variant, origin=told, sitting=walk.log.sitting)
    at.used.append(entry)
    settle(walk, entry)


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
    """Not what is asked again, nor what a card lends where the person or the step says otherwise.

    What a person answered anywhere, or took back, a card lends no more.
    """
    if (walk.at.place, walk.at.visit, fact) in walk.log.again:
        return False
    if walk.at.pool[fact].origin not in LENT:
        return True
    said = walk.node.step.told.get(walk.job.graph.declared.get(fact, fact), "")
    return said in {"", LAST_TIME} and not told_anywhere(walk, fact)


def told_anywhere(walk: Walk, fact: str) -> bool:
    """Whether a person answered a fact where it is asked first, or took that back."""
    nodes, told = walk.job.graph.nodes, (*walk.log.entries, *walk.log.again.values())
    places = [each.place for each in told if each.fact == fact and each.place in nodes]
    return not all(nodes[place].step.again for place in places)


def usual_now(walk: Walk, fact: str) -> bool:
    """Whether what a person told early is usual now that more is known; else it is asked."""
    told = walk.at.pool[fact]
    if told.origin in LENT or told.given or told.sure or not told.typed:
        return True
    from assistant.answers.expect import Settled
    from assistant.answers.slips import judge
    from assistant.dialogue.expecting import expect

    name = told.variant or fact
    if walk.job.fact(name).kind in {"text", "choice"}:
        return True
    value = known_of(walk.job, Entry("", 0, fact, told.settled, told.variant)).value
    found = Settled(name, told.settled, value)  # type: ignore[arg-type]  # a number is asked about
    if judge(expect(walk.job, walk.log, walk.at, name), found) is None:
        return True
    walk.said.append(Say(say(walk.job, "told_unusual", line=shown_told(walk, told))))
    del walk.at.pool[fact]
    return False


def shown_told(walk: Walk, told: Told) -> str:
    """A fact told early, as it is shown."""
    fact = walk.job.fact(told.variant or told.fact)
    known = known_of(walk.job, Entry("", 0, told.fact, told.settled, told.variant))
    return f"{fact.label} {shown(walk.job, walk.log, walk.at, fact, known)}"


def take_from_pool(walk: Walk, fact: str) -> None:
    """Settle what was told early, and read it back."""
    told = walk.at.pool.pop(fact)
    at = walk.at
    origin, now = told.origin or walk.job.fact(fact).told, walk.log.sitting
    entry = Entry(
        at.place, at.visit, fact, told.settled, told.variant, told.typed, origin, told.sure, now
    )
    at.used.append(entry)
    settle(walk, entry)
    if told.origin not in LENT:
        told_back(walk, f"{walk.job.fact(fact).label} {shown_fact(walk.job, walk.log, at, fact)}")


def told_back(walk: Walk, item: str) -> None:
    """Read back what was told early, in one line with what was read back just before."""
    items: tuple[str, ...] = (item,)
    last = walk.said[-1] if walk.said else None
    if isinstance(last, ReadBack) and last.items:
        walk.said.pop()
        items = (*last.items, item)
    walk.said.append(ReadBack(say(walk.job, "told_early", line=", ".join(items)), items))


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
    if home:
        at.lap[home.name] = (*at.lap.get(home.name, ()), entry)
        due_members = (m for m in home.members if counts(home.only, m, at))
        if all(member in at.partial[home.name] for member in due_members):
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
    return Known(value, entry.settled, entry.origin, entry.origin in GUESSED, entry.sure)


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
