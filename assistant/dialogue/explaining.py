"""Why a question is asked, how to measure, and what a word means."""

from __future__ import annotations

from assistant.dialogue.examples import example_of
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Say
from assistant.dialogue.situation import Situation
from assistant.dialogue.wording import say


def why(job: Job, state: State) -> Say:
    """The fact's own sentence, then from the graph what the answer goes into."""
    open_ = state.situation.open
    if open_ is None or not open_.facts:
        return Say(say(job, "why.machine"))
    texts = []
    for name in open_.facts:
        texts.append(job.fact(name).why)
        texts.append(goes_into(job, state.situation, name))
    return Say("\n".join(dict.fromkeys(text for text in texts if text)))


def goes_into(job: Job, at: Situation, name: str) -> str:
    """The next thing that an answer goes into, and the last main result behind it."""
    first, reached = reach(job, at, name)
    mains = [each for each in reached if job.fact(each).main]
    if not first:
        return say(job, "why.card") if job.fact(name).card else ""
    if not mains or mains[-1] == first:
        return say(job, "why.next", next=job.fact(first).label)
    return say(job, "why.main", next=job.fact(first).label, main=job.fact(mains[-1]).label)


def reach(job: Job, at: Situation, name: str) -> tuple[str, list[str]]:
    """The first result ahead that reads a fact, and all behind it, in the order of the flow."""
    fact = job.fact(name)
    front = {name, *fact.variants.values()}
    home = job.graph.home(name)
    if home:
        front.add(home.name)
    order: list[str] = []
    ahead = places_ahead(job, at)
    for place, node in job.graph.nodes.items():
        if node.step.kind != "work_out" or place not in ahead:
            continue
        calculation = job.calculations[node.step.what[0]]
        reads = {node.real(node.step.reads.get(p, p)) for p in calculation.parameters}
        if reads & front:
            results = [
                node.result(each) for outcome in calculation.outcomes.values() for each in outcome
            ]
            order += [each for each in results if each not in order]
            front |= set(results)
    return (order[0] if order else "", order)


def places_ahead(job: Job, at: Situation) -> set[str]:
    """The places that can still be come to, under the choices made so far."""
    seen: set[str] = set()
    waiting = [at.place]
    while waiting:
        place = waiting.pop()
        if place in seen:
            continue
        seen.add(place)
        node = job.graph[place]
        chosen = at.choice(node.facts[0]) if node.step.kind == "split" else ""
        waiting += [node.next[chosen]] if chosen in node.next else node.next.values()
    return seen


def help_for(job: Job, state: State) -> Say:
    """How to measure, an example, then the words that work everywhere."""
    open_ = state.situation.open
    lines = []
    for name in open_.facts if open_ else ():
        fact = job.fact(name)
        example = example_of(job, state, fact)
        lines += [fact.help, say(job, "help.example", example=example) if example else ""]
    if open_ and open_.hazard:
        lines.append(job.caution(open_.hazard).not_sure)
    lines.append(say(job, "help.words"))
    return Say("\n".join(line for line in lines if line))


def meaning(job: Job, term: str) -> str:
    """A word of the trade from the glossary, empty if it is not there."""
    plain = term.strip(" ?.!\"'").lower()
    for article in ("a ", "an ", "the "):
        plain = plain.removeprefix(article)
    for name, text in job.library.glossary.items():
        if plain in {name, f"{name}s", name.removesuffix("s")}:
            return text
    return ""
