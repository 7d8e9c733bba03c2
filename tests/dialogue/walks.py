"""Random conversations: answers that fit, and the words and slips that people put between them."""

from __future__ import annotations

from functools import cache
from random import Random

from assistant.book.book import Book
from assistant.dialogue.advance import advance, begin
from assistant.dialogue.events import Event, GoOn, OfferedCards, Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import CardOffer
from assistant.dialogue.messages import Fetch
from assistant.dialogue.questions import caution_word, proposals
from assistant.dialogue.situation import Open
from assistant.sitting.remembering import offers
from tests.stories.play import played
from tests.stories.story import FOLDER, read_story

ASIDES = ("why", "help", "review", "repeat", "what is tare", "units metric", "units us", "later")
SLIPS = (
    "rubbish",
    "12 furlongs",
    "-3",
    "1e99",
    "",
    "   ",
    "54,57",
    "7 1/2 in wheat",
    "\x1b[2J",
    "0",
)
TURNS = ("back", "don't know", "change 1", "change 7", "change 12", "change tolerance 3 %", "no")

VALUES = {
    "target": ("80 lb/ac", "28 plants per sq ft", "300 seeds/m2", "1.5 bu", "10 lb PLS/ac"),
    "catch": ("1.2 lb", "1.40 lb", "1.41", "0.9 lb", "54 g 57 g 49 g", "2 kg", "2.18 lb", "2.1 lb"),
    "opening": ("14 mm", "20 mm"),
}


def cards(job: Job, state: State) -> tuple[CardOffer, ...]:
    """What a book with one card of last spring answers to the fetch at this place."""
    step = job.graph[state.situation.place].step
    wanted = {name: step.reads.get(name, name) for name in step.what}
    fetch = Fetch(state.situation.place, state.situation.visit, wanted, {})
    return offers(job, book(), fetch, scripted=False)


@cache
def book() -> Book:
    """A book with one card."""
    return played(read_story(FOLDER / "fluted_plants.txt")).book


def answer(job: Job, state: State, open_: Open, random: Random) -> str:
    """A line that fits the open question."""
    if open_.kind in {"caution", "guard"}:
        return caution_word(job, state, open_)
    if open_.kind == "offer":
        return random.choice(("1", "1", "1", "2"))
    if open_.kind != "ask":
        return "done" if open_.kind == "wait" else ""
    if set(proposals(job, state)) >= set(open_.facts) and random.random() < 0.5:
        return ""
    parts = []
    for name in open_.facts:
        fact = job.fact(name)
        if fact.choices:
            parts.append(random.choice(fact.choices).label)
        else:
            plain = job.graph.declared.get(name, name)
            parts.append(random.choice(VALUES.get(plain, (fact.example,))))
    return ", ".join(parts)


def next_event(job: Job, state: State, random: Random) -> Event | None:
    """Mostly an answer, now and then something else; None when the job has ended."""
    open_ = state.situation.open
    if open_ is None or open_.kind == "ended":
        return None
    if open_.kind == "fetch":
        return OfferedCards(random.choice(((), *5 * [cards(job, state)])))
    if state.moment:
        return Typed(random.choice(("1", "2", "yes", "no", "drop it fell")))
    chance = random.random()
    if chance < 0.05:
        return GoOn()
    if chance < 0.25:
        return Typed(random.choice(random.choice((ASIDES, SLIPS, TURNS))))
    return Typed(answer(job, state, open_, random))


def walk(job: Job, seed: int, most: int = 60) -> list[State]:
    """The states of one random conversation."""
    random = Random(seed)
    state, _ = begin(job)
    states = [state]
    for _ in range(most):
        event = next_event(job, state, random)
        if event is None:
            break
        state, _ = advance(job, state, event)
        states.append(state)
    return states
