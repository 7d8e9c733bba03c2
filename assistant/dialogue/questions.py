"""The open question as a message: its text, what Enter takes, its choices."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.dialogue.examples import example_of
from assistant.dialogue.guard import within
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import Entry
from assistant.dialogue.messages import Ask, Message, Offer, Todo, Warn
from assistant.dialogue.proposing import Proposal, proposal
from assistant.dialogue.situation import Open
from assistant.dialogue.wording import choice_labels, fill, filled, label, say, shown
from assistant.flow.model import Fact


def question(job: Job, state: State) -> tuple[Message, ...]:
    """The messages that put the open question; empty when nothing is open or the shell must act."""
    open_ = state.situation.open
    if open_ is None or open_.kind in {"ended", "fetch"}:
        return ()
    if open_.kind == "ask":
        return (asked(job, state, open_),)
    if open_.kind in {"caution", "guard"}:
        return (warning(job, state, open_),)
    if open_.kind == "wait":
        return (Todo(step_text(job, state, open_), say(job, "ask.done"), brief(job, state)),)
    if open_.kind == "offer":
        return (card_offer(job, state, open_),)
    if open_.kind == "corrected":
        return (without_doing(job, state),)
    from assistant.dialogue.review import review_of

    return (review_of(job, state), Offer("", (), say(job, "review.ask")))


def step_text(job: Job, state: State, open_: Open) -> str:
    """What the step says, with its values."""
    node = job.graph[open_.place]
    return filled(job, state.log, state.situation, node, node.step.say)


def asked(job: Job, state: State, open_: Open) -> Ask:
    """The question for the facts that are still due."""
    node = job.graph[open_.place]
    facts = [job.fact(name) for name in open_.facts]
    whole = len(open_.facts) > 1 or len(node.step.what) == 1
    text = node.step.ask if node.step.ask and whole else facts[0].ask
    if len(facts) > 1 and not node.step.ask:
        text = " ".join(fact.ask for fact in facts)
    taken = proposals(job, state)
    told = {name: offered(job, state, name, each) for name, each in taken.items()}
    setting = ", ".join(told[n] for n in open_.facts if n in told and not ends_row(job, n))
    alone = len(facts) == 1  # in a pair the proposal tells enough
    lists = [fact for fact in facts if fact.choices and (alone or fact.name not in taken)]
    return Ask(
        filled(job, state.log, state.situation, node, text.replace("{proposal}", setting)),
        open_.facts,
        example=", ".join(example_of(job, state, f) for f in facts if f.example),
        proposal=", ".join(told.values()) if set(taken) >= set(open_.facts) else "",
        choices=choice_labels(lists[0]) if lists else (),
        brief=brief(job, state, setting) if whole else "",
    )


def brief(job: Job, state: State, setting: str = "") -> str:
    """What the open step says where little is to be said."""
    node = job.graph[state.situation.place]
    text = node.step.brief.replace("{proposal}", setting)
    return filled(job, state.log, state.situation, node, text)


def offered(job: Job, state: State, name: str, taken: Proposal) -> str:
    """A proposal as it is shown: its settled spelling, by the variant that it is of."""
    settled, _, variant = taken
    return shown_entry(job, state, job.fact(variant or name), settled)


def ends_row(job: Job, name: str) -> bool:
    """Whether a fact is the last of its row: what comes of the setting, no part of it."""
    home = job.graph.home(name)
    return bool(home and name in home.last)


def shown_entry(job: Job, state: State, fact: Fact, settled: str) -> str:
    """A settled value as it is shown in a proposal."""
    from assistant.dialogue.asking import known_of

    if fact.kind == "choice":
        return label(fact, settled)
    known = known_of(job, Entry("", 0, fact.name, settled))
    return shown(job, state.log, state.situation, fact, known)


def proposals(job: Job, state: State) -> dict[str, Proposal]:
    """What Enter takes for each due fact, where something is proposed."""
    open_ = state.situation.open
    if open_ is None:
        return {}
    node = job.graph[open_.place]
    each = {name: proposal(job, state.log, state.situation, node, name) for name in open_.facts}
    return {name: taken for name, taken in each.items() if taken}


def warning(job: Job, state: State, open_: Open) -> Warn:
    """A caution with the word that passes it, chosen by its place in the log."""
    caution = job.caution(open_.hazard)
    text = caution.text
    here = job.graph[open_.place].part
    first = not any(within(here, part) for _, part in state.situation.guarded)
    if open_.kind == "guard" and first:
        text = f"{say(job, 'resume.as_you_left')}\n{text}"
    elif open_.kind == "caution":
        text = "\n".join(filter(None, (step_text(job, state, open_), text)))
    word = caution_word(job, state, open_)
    ask = fill(job.word("ask.stop" if caution.grade == "stop" else "ask.mind"), {"word": word})
    return Warn(caution.name, caution.grade, text, word, ask)


def caution_word(job: Job, state: State, open_: Open) -> str:
    """The word that passes a caution: from its own text for a stop, "ok" for a reminder."""
    words = job.caution(open_.hazard).words
    return words[len(state.situation.used) % len(words)] if words else "ok"


def card_offer(job: Job, state: State, open_: Open) -> Offer:
    """The cards that the book offers, newest first, and going without."""
    offer = state.log.offered(open_.place, open_.visit)
    lines = (card.line for card in offer.cards) if offer else ()
    step = job.graph[open_.place].step
    choices = (*lines, say(job, "recall.none" if step.match else "recall.none_of_them"))
    if step.waiting:
        return Offer(say(job, "recall.waiting"), choices, say(job, "recall.which_waiting"))
    title = say(job, "recall.found" if step.match else "recall.found_any")
    return Offer(title, choices, say(job, "recall.ask"))


def without_doing(job: Job, state: State) -> Offer:
    """In a correction: what is proposed now, and whether to go on without doing it again."""
    taken = proposals(job, state)
    text = moved_to(job, state, taken)
    choices = (say(job, "corrected.without"), say(job, "corrected.again"))
    return Offer(text, choices, say(job, "corrected.ask"))


def moved_to(job: Job, state: State, taken: Mapping[str, Proposal]) -> str:
    """Where the setting goes, or that it stays and only the catches no longer agree."""
    at = state.situation
    stays = all(
        known.settled == taken[name][0]
        for name in taken
        if not ends_row(job, name) and (known := at.known.get(name))
    )
    name = "corrected.stays" if stays else "corrected.moved"
    return say(job, name, proposal=settings(job, state, taken))


def settings(job: Job, state: State, taken: Mapping[str, Proposal]) -> str:
    """The proposed settings of a row, as they are shown."""
    open_ = state.situation.open
    names = [n for n in (open_.facts if open_ else ()) if n in taken and not ends_row(job, n)]
    return ", ".join(offered(job, state, name, taken[name]) for name in names)
